package tickover.session;

import tickover.align.AlignedBlock;
import tickover.align.EdgeRun;
import tickover.align.SampleRun;
import tickover.align.StreamGap;
import tickover.wire.ByteTally;
import tickover.wire.Hello;

/** What the pipeline knows of one device so far. Written by the pipeline's thread alone. */
final class SourceState {
    private final SourceInfo info;
    private String name = "";
    private String problem = "";
    private boolean hasLayout;
    private long hellos;
    private long pongs;
    private long frames;
    private long samples;
    private long lostSamples;
    private long edges;
    private long speedReadings;
    private final ProbeButton button = new ProbeButton();
    private ByteTally tally = new ByteTally(0, 0, 0, 0);

    SourceState(SourceInfo info) {
        this.info = info;
    }

    void hello(Hello hello) {
        name = hello.name();
        hellos++;
        button.hello(hello);
    }

    void named(String value) {
        name = value;
    }

    void problem(String sentence) {
        problem = sentence;
    }

    /** A plain-text probe said what its columns are. */
    void layout() {
        hasLayout = true;
        problem = "";
    }

    boolean hasLayout() {
        return hasLayout;
    }

    void pong() {
        pongs++;
    }

    /** A frame came that a device sends only while it samples. */
    void flow() {
        frames++;
    }

    /** The device's button, ahead of the aligned stream. */
    ProbeButton button() {
        return button;
    }

    void tally(ByteTally value) {
        tally = value;
    }

    void derived(AlignedBlock block) {
        switch (block.kind()) {
            case SAMPLES -> samples += ((SampleRun) block).count();
            case EDGES -> edges += ((EdgeRun) block).ticks().length;
            case SPEED -> speedReadings++;
            case GAP -> lostSamples += ((StreamGap) block).missing().orElse(0);
            case START, BUTTON, HEALTH -> {}
        }
    }

    SourceInfo info() {
        return info;
    }

    String name() {
        return name;
    }

    String problem() {
        return problem;
    }

    long hellos() {
        return hellos;
    }

    long pongs() {
        return pongs;
    }

    long frames() {
        return frames;
    }

    long samples() {
        return samples;
    }

    long lostSamples() {
        return lostSamples;
    }

    long edges() {
        return edges;
    }

    long speedReadings() {
        return speedReadings;
    }

    ByteTally tally() {
        return tally;
    }

    long rejectedBytes() {
        return tally.rejected();
    }
}

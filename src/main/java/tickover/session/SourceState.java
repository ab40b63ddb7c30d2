package tickover.session;

import java.util.Optional;
import tickover.align.AlignedBlock;
import tickover.align.EdgeRun;
import tickover.align.SampleRun;
import tickover.align.StreamGap;
import tickover.unit.HostNanos;
import tickover.wire.ByteTally;
import tickover.wire.Hello;

/** What the pipeline knows of one device so far. Written by the pipeline's thread alone. */
final class SourceState {
    private final SourceInfo info;
    private String name = "";
    private String problem = "";
    private HostNanos lastFlow;
    private long frames;
    private long samples;
    private long lostSamples;
    private long edges;
    private long speedReadings;
    private ByteTally tally = new ByteTally(0, 0, 0, 0);

    SourceState(SourceInfo info) {
        this.info = info;
    }

    void hello(Hello hello) {
        name = hello.name();
    }

    void named(String value) {
        name = value;
    }

    void problem(String sentence) {
        problem = sentence;
    }

    /** A frame came that a device sends only while it samples. */
    void flow(HostNanos at) {
        lastFlow = at;
        frames++;
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

    Optional<HostNanos> lastFlow() {
        return Optional.ofNullable(lastFlow);
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

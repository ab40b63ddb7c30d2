package tickover.session;

import tickover.align.AlignedBlock;
import tickover.align.AssembledCapture;
import tickover.align.CaptureAssembler;
import tickover.align.ClockFit;
import tickover.align.EdgeRun;
import tickover.align.SampleRun;
import tickover.align.SpeedReading;
import tickover.align.StreamGap;
import tickover.unit.HostNanos;

/**
 * One capture in the making: the blocks between two moments. Blocks can come after the end, for
 * those behind a gap are held back until its cause is known; their arrival decides. Edges and
 * readings of shortly before and after belong to it, so that its ends lie between two of them.
 */
final class CaptureWindow {
    /** An adapter answers at least so often, and edges are sent within a quarter second, s. */
    static final double SPEED_AROUND_S = 2;

    /** After so long nothing more belongs to it. */
    private static final double DONE_AFTER_S = 4;

    private final int number;
    private final PlannedCapture capture;
    private final HostNanos begin;
    private final CaptureSpill spill;
    private final CaptureAssembler assembler;
    private HostNanos end;
    private boolean goesOn;
    private long values;

    CaptureWindow(
            int number,
            PlannedCapture capture,
            HostNanos begin,
            CaptureAssembler.Spec spec,
            CaptureSpill spill) {
        this.number = number;
        this.capture = capture;
        this.begin = begin;
        this.spill = spill;
        this.assembler = new CaptureAssembler(spec, spill);
    }

    int number() {
        return number;
    }

    PlannedCapture capture() {
        return capture;
    }

    CaptureSpill spill() {
        return spill;
    }

    /** Samples times axes so far. */
    long values() {
        return values;
    }

    boolean isOpen() {
        return end == null;
    }

    /** Whether it is a part that another follows. */
    boolean goesOn() {
        return goesOn;
    }

    void end(HostNanos at) {
        if (end == null) {
            end = at;
        }
    }

    void endPart(HostNanos at) {
        end(at);
        goesOn = true;
    }

    /** True if whatever comes at a moment comes too late for this capture. */
    boolean doneBy(HostNanos at) {
        return end != null && at.secondsAfter(end) > DONE_AFTER_S;
    }

    /** When edges or a reading came. */
    static HostNanos arrival(AlignedBlock block) {
        return block instanceof EdgeRun edges ? edges.arrival() : ((SpeedReading) block).answered();
    }

    void take(AlignedBlock block) {
        boolean belongs =
                switch (block.kind()) {
                    case START -> true;
                    case SAMPLES -> within(((SampleRun) block).arrival());
                    case EDGES, SPEED -> near(arrival(block));
                    case GAP -> within(((StreamGap) block).at());
                    case BUTTON, HEALTH -> false;
                };
        if (belongs) {
            values += block instanceof SampleRun run ? run.accelMps2().length : 0;
            assembler.take(block);
        }
    }

    /**
     * What comes at the very moment at which one capture ends and another begins is the other's.
     */
    private boolean within(HostNanos at) {
        return at.compareTo(begin) >= 0 && (end == null || at.compareTo(end) < 0);
    }

    private boolean near(HostNanos at) {
        return at.secondsAfter(begin) >= -SPEED_AROUND_S
                && (end == null || at.secondsAfter(end) <= SPEED_AROUND_S);
    }

    void clock(int source, int segment, ClockFit fit) {
        assembler.clock(source, segment, fit);
    }

    AssembledCapture finish() {
        return assembler.finish();
    }
}

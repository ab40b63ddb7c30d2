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
 * those behind a gap are held back until its cause is known; their arrival decides.
 */
final class CaptureWindow {
    /** Edges are sent up to a quarter second after they came. */
    private static final double EDGES_BEFORE_S = 0.5;

    private static final double EDGES_AFTER_S = 1;
    private static final double READINGS_AROUND_S = 2;

    /** After so long nothing more belongs to it. */
    private static final double DONE_AFTER_S = 4;

    private final int number;
    private final PlannedCapture capture;
    private final HostNanos begin;
    private final CaptureAssembler assembler;
    private HostNanos end;

    CaptureWindow(int number, PlannedCapture capture, HostNanos begin, CaptureAssembler.Spec spec) {
        this.number = number;
        this.capture = capture;
        this.begin = begin;
        this.assembler = new CaptureAssembler(spec);
    }

    int number() {
        return number;
    }

    PlannedCapture capture() {
        return capture;
    }

    void end(HostNanos at) {
        if (end == null) {
            end = at;
        }
    }

    /** True if whatever comes at a moment comes too late for this capture. */
    boolean doneBy(HostNanos at) {
        return end != null && at.secondsAfter(end) > DONE_AFTER_S;
    }

    void take(AlignedBlock block) {
        boolean belongs =
                switch (block.kind()) {
                    case START -> true;
                    case SAMPLES -> within(((SampleRun) block).arrival(), 0, 0);
                    case EDGES ->
                            within(((EdgeRun) block).arrival(), EDGES_BEFORE_S, EDGES_AFTER_S);
                    case SPEED ->
                            within(
                                    ((SpeedReading) block).answered(),
                                    READINGS_AROUND_S,
                                    READINGS_AROUND_S);
                    case GAP -> within(((StreamGap) block).at(), 0, 0);
                    case BUTTON, HEALTH -> false;
                };
        if (belongs) {
            assembler.take(block);
        }
    }

    private boolean within(HostNanos at, double beforeS, double afterS) {
        return at.secondsAfter(begin) >= -beforeS
                && (end == null || at.secondsAfter(end) <= afterS);
    }

    void clock(int source, int segment, ClockFit fit) {
        assembler.clock(source, segment, fit);
    }

    AssembledCapture finish() {
        return assembler.finish();
    }
}

package tickover.session;

import java.util.Objects;
import tickover.align.AssembledCapture;

/**
 * A capture that was cut out of a recording, or a part of one that is long.
 *
 * @param number counted from 1
 * @param capture what it is of
 * @param pieces its stretches without a gap
 * @param spill has their samples
 * @param goesOn whether another part of it follows without a gap
 */
record CutCapture(
        int number,
        PlannedCapture capture,
        AssembledCapture pieces,
        CaptureSpill spill,
        boolean goesOn) {
    CutCapture {
        Objects.requireNonNull(capture, "capture");
        Objects.requireNonNull(pieces, "pieces");
        Objects.requireNonNull(spill, "spill");
    }
}

package tickover.session;

import java.util.List;
import java.util.Objects;
import tickover.align.AssembledCapture;
import tickover.align.ProbeStart;

/**
 * A capture that was cut out of a recording.
 *
 * @param number counted from 1
 * @param capture what it is of
 * @param pieces its stretches without a gap
 * @param probe the probe it was made with
 */
record CutCapture(int number, PlannedCapture capture, AssembledCapture pieces, ProbeStart probe) {
    CutCapture {
        Objects.requireNonNull(capture, "capture");
        Objects.requireNonNull(pieces, "pieces");
        Objects.requireNonNull(probe, "probe");
    }

    /**
     * Everything that was cut out of a recording.
     *
     * @param captures in order
     * @param content what the recording says of itself
     */
    record All(List<CutCapture> captures, RecordingFacts content) {
        All {
            captures = List.copyOf(captures);
            Objects.requireNonNull(content, "content");
        }
    }
}

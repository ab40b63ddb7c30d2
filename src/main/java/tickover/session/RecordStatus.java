package tickover.session;

import java.util.List;
import java.util.Objects;
import java.util.Optional;

/**
 * How a recording stands. A snapshot: nothing in it changes.
 *
 * @param elapsedS time since the start, s
 * @param fileBytes length of the recording so far
 * @param reading the latest second of the probe; null before the first, and when it is some seconds
 *     old
 * @param lines one for each device
 * @param capture number of the capture that runs, or of the next one, counted from 1
 * @param captures how many are planned
 * @param capturing whether one runs now
 * @param captureLengthS how long the running one is so far, s
 * @param point where the running capture, or the next one, is; empty after the last
 * @param turns crank turns since the start
 * @param finished whether the recording has ended
 * @param failure why it ended early, as one sentence; empty if it did not
 */
public record RecordStatus(
        double elapsedS,
        long fileBytes,
        LiveReading reading,
        List<LineStatus> lines,
        int capture,
        int captures,
        boolean capturing,
        double captureLengthS,
        String point,
        double turns,
        boolean finished,
        String failure) {
    /**
     * How one device stands.
     *
     * @param info what it is
     * @param name what it calls itself; may be empty
     * @param connected whether its line is open
     * @param bytes bytes that came
     * @param bytesPerS how many a second, lately
     * @param rejectedBytes bytes that could not be read
     * @param lostSamples samples that are known to be missing
     * @param frames sound frames or lines with samples
     * @param problem what stands in the way, as one sentence; empty if nothing does
     */
    public record LineStatus(
            SourceInfo info,
            String name,
            boolean connected,
            long bytes,
            double bytesPerS,
            long rejectedBytes,
            long lostSamples,
            long frames,
            String problem) {
        public LineStatus {
            Objects.requireNonNull(info, "info");
            Objects.requireNonNull(name, "name");
            Objects.requireNonNull(problem, "problem");
        }
    }

    public RecordStatus {
        lines = List.copyOf(lines);
        Objects.requireNonNull(point, "point");
        Objects.requireNonNull(failure, "failure");
    }

    /** The same, ended for a reason. */
    RecordStatus failed(String why) {
        return new RecordStatus(
                elapsedS,
                fileBytes,
                reading,
                lines,
                capture,
                captures,
                capturing,
                captureLengthS,
                point,
                turns,
                true,
                why);
    }

    /**
     * Returns the latest second of the probe.
     *
     * @return the reading, if there is one of the last few seconds
     */
    public Optional<LiveReading> latest() {
        return Optional.ofNullable(reading);
    }
}

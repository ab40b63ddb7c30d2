package tickover.session;

import java.nio.file.Path;
import java.time.Instant;
import java.util.List;
import java.util.Objects;
import java.util.OptionalLong;
import java.util.UUID;

/**
 * What a recording holds, from its bytes to its captures.
 *
 * @param file the recording
 * @param id tells it from every other recording
 * @param startedAt when it began
 * @param durationS from its start to its last chunk, s
 * @param closed whether it was closed as it should be
 * @param damagedBytes bytes of the file that could not be read
 * @param sources one for each device
 * @param gaps everything that is missing, in order
 * @param captures what was captured
 * @param readings level and speed second by second
 * @param remarks what is not as it should be with the recording itself, whole sentences
 */
public record RecordingContent(
        Path file,
        UUID id,
        Instant startedAt,
        double durationS,
        boolean closed,
        long damagedBytes,
        List<Source> sources,
        List<Gap> gaps,
        List<Captured> captures,
        List<LiveReading> readings,
        List<String> remarks) {
    /**
     * One device.
     *
     * @param info what it is
     * @param name what it calls itself; may be empty
     * @param bytes bytes that came: framed, rejected and pending ones
     * @param framedBytes bytes of sound frames or lines
     * @param rejectedBytes bytes that could not be read
     * @param pendingBytes bytes of what had not ended at the end
     * @param samples samples that came
     * @param lostSamples samples that are known to be missing
     * @param edges tach edges that came
     * @param speedReadings speed readings that came
     */
    public record Source(
            SourceInfo info,
            String name,
            long bytes,
            long framedBytes,
            long rejectedBytes,
            long pendingBytes,
            long samples,
            long lostSamples,
            long edges,
            long speedReadings) {
        public Source {
            Objects.requireNonNull(info, "info");
            Objects.requireNonNull(name, "name");
        }
    }

    /**
     * Something that is missing.
     *
     * @param source number of the device
     * @param segment stretch of the device's life
     * @param atS when it was noticed, s after the start
     * @param cause a short word, such as {@code lost-on-line}
     * @param why the cause for people
     * @param firstMissing number of the first missing sample within the segment
     * @param missingOrUnknown missing samples; negative if that cannot be known
     */
    public record Gap(
            int source,
            int segment,
            double atS,
            String cause,
            String why,
            long firstMissing,
            long missingOrUnknown) {
        public Gap {
            Objects.requireNonNull(cause, "cause");
            Objects.requireNonNull(why, "why");
        }

        /**
         * Returns how much is missing.
         *
         * @return samples, empty if that cannot be known
         */
        public OptionalLong missing() {
            return missingOrUnknown < 0 ? OptionalLong.empty() : OptionalLong.of(missingOrUnknown);
        }
    }

    /**
     * One capture.
     *
     * @param number counted from 1
     * @param capture what it is of
     * @param fromS begin after the recording's start, s
     * @param toS its end, s
     * @param samples samples of each axis that came meanwhile
     */
    public record Captured(
            int number, PlannedCapture capture, double fromS, double toS, long samples) {
        public Captured {
            Objects.requireNonNull(capture, "capture");
        }
    }

    public RecordingContent {
        Objects.requireNonNull(file, "file");
        Objects.requireNonNull(id, "id");
        Objects.requireNonNull(startedAt, "startedAt");
        sources = List.copyOf(sources);
        gaps = List.copyOf(gaps);
        captures = List.copyOf(captures);
        readings = List.copyOf(readings);
        remarks = List.copyOf(remarks);
    }

    /**
     * Reads a recording from begin to end.
     *
     * @param file the recording
     * @return what it holds
     * @throws AcquisitionException if it is no recording or cannot be read
     */
    public static RecordingContent of(Path file) {
        return AcquisitionException.guard(() -> new ContentReader(file).read());
    }
}

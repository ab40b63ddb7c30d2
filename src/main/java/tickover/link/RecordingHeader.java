package tickover.link;

import java.time.DateTimeException;
import java.time.Instant;
import java.util.Objects;
import java.util.UUID;
import tickover.unit.HostNanos;

/**
 * What stands at the head of a recording: which it is, and what time of day its clock means.
 *
 * @param id the recording's own number
 * @param startedAt when it was begun, on the host's monotonic clock
 * @param startedWall the same moment by the wall clock, to the nanosecond; years 1678 to 2262
 */
public record RecordingHeader(UUID id, HostNanos startedAt, Instant startedWall) {
    private static final long NANOS_PER_SECOND = 1_000_000_000;

    public RecordingHeader {
        Objects.requireNonNull(id, "id");
        Objects.requireNonNull(startedAt, "startedAt");
        Objects.requireNonNull(startedWall, "startedWall");
        try {
            epochNanos(startedWall);
        } catch (ArithmeticException e) {
            throw new IllegalArgumentException(
                    "startedWall=" + startedWall + ", need a year from 1678 to 2262", e);
        }
    }

    /**
     * Returns the time of day of a moment in the recording, as the wall clock stood at its start.
     *
     * @param at a moment on the recording's clock
     * @return the time of day
     * @throws DateTimeException if the moment is centuries away
     */
    public Instant wallTimeOf(HostNanos at) {
        return startedWall.plusNanos(at.value() - startedAt.value());
    }

    static long epochNanos(Instant wall) {
        return Math.addExact(
                Math.multiplyExact(wall.getEpochSecond(), NANOS_PER_SECOND), wall.getNano());
    }

    static Instant ofEpochNanos(long epochNs) {
        return Instant.ofEpochSecond(
                Math.floorDiv(epochNs, NANOS_PER_SECOND), Math.floorMod(epochNs, NANOS_PER_SECOND));
    }
}

package tickover.session;

import static java.nio.charset.StandardCharsets.UTF_8;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.time.LocalDateTime;
import java.time.ZoneOffset;
import java.time.temporal.ChronoUnit;
import java.util.Objects;
import java.util.UUID;
import tickover.link.Chunk;
import tickover.link.ChunkSink;
import tickover.link.RecordingHeader;
import tickover.link.RecordingReader;
import tickover.unit.HostNanos;

/**
 * Which recording it is and when it began: by its header, or by its first chunks where that is
 * damaged.
 *
 * @param id tells it from every other recording
 * @param at its begin on the recording's own clock
 * @param wall its begin by the time of day
 * @param offset what clocks on the wall showed is so far from that
 * @param remark what is not as it should be, a whole sentence; empty if nothing is
 */
record RecordingStart(UUID id, HostNanos at, Instant wall, ZoneOffset offset, String remark) {
    RecordingStart {
        Objects.requireNonNull(id, "id");
        Objects.requireNonNull(at, "at");
        Objects.requireNonNull(wall, "wall");
        Objects.requireNonNull(offset, "offset");
        Objects.requireNonNull(remark, "remark");
    }

    /** What clocks on the wall showed, to the second. */
    LocalDateTime localDate() {
        return LocalDateTime.ofInstant(wall, offset).truncatedTo(ChronoUnit.SECONDS);
    }

    static RecordingStart of(Path file, RecordingReader reader) {
        Finder finder = new Finder();
        reader.forEach(finder);
        return finder.found(file, reader);
    }

    /** Reads on until the end, for one chunk of the time may be damaged. */
    static final class Finder implements ChunkSink {
        private Chunk first;
        private WallTime wall;
        private HostNanos wallAt;

        @Override
        public void chunk(Chunk chunk) {
            if (first == null) {
                first = chunk;
            }
            if (chunk.kind() == Chunk.Kind.WALL_TIME && wall == null) {
                WallTime.parse(chunk.bytes())
                        .ifPresent(
                                w -> {
                                    wall = w;
                                    wallAt = chunk.at();
                                });
            }
        }

        @Override
        public void damaged(long offset, long bytes, HostNanos lastGood) {}

        RecordingStart found(Path file, RecordingReader reader) {
            ZoneOffset offset = wall == null ? ZoneOffset.UTC : wall.offset();
            boolean offsetKnown = wall != null && wall.offsetKnown();
            if (reader.header().isPresent()) {
                RecordingHeader header = reader.header().get();
                return new RecordingStart(
                        header.id(),
                        header.startedAt(),
                        header.startedWall(),
                        offset,
                        offsetKnown
                                ? ""
                                : file.getFileName()
                                        + " does not say its time zone; its date is in UTC.");
            }
            HostNanos at = first == null ? new HostNanos(0) : first.at();
            String begins = file.getFileName() + " has a damaged head; ";
            if (wall == null) {
                return new RecordingStart(
                        id(),
                        at,
                        modified(file),
                        offset,
                        begins
                                + "nothing in it says when it was made, so its date is the one on"
                                + " which the file was last written, in UTC.");
            }
            long sinceNanos = wallAt.value() - at.value();
            return new RecordingStart(
                    id(),
                    at,
                    wall.utc().minusNanos(sinceNanos),
                    offset,
                    begins
                            + "its date comes from the times noted within"
                            + (offsetKnown ? "" : ", in UTC")
                            + ", and it has a new id.");
        }

        /** The same for every copy of a recording, however long it had become. */
        private UUID id() {
            String text =
                    (first == null ? "" : first.at().value() + new String(first.bytes(), UTF_8))
                            + (wall == null ? "" : new String(wall.json(), UTF_8));
            return UUID.nameUUIDFromBytes(text.getBytes(UTF_8));
        }

        private static Instant modified(Path file) {
            try {
                return Files.getLastModifiedTime(file).toInstant();
            } catch (IOException e) {
                throw new UncheckedIOException(e);
            }
        }
    }
}

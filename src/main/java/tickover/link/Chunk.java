package tickover.link;

import java.util.Objects;
import tickover.unit.HostNanos;

/**
 * One piece of a recording. Owns its bytes: nobody may write to them.
 *
 * @param kind what it is
 * @param source 0-based number of the device in this recording, 0 to 255; 0 where it does not
 *     matter
 * @param at when it arrived or happened, on the host's monotonic clock
 * @param bytes what came, as it came; for other kinds UTF-8 text
 */
@SuppressWarnings("ArrayRecordComponent") // compared nowhere; copying every chunk would double I/O
public record Chunk(Kind kind, int source, HostNanos at, byte[] bytes) {
    /** What a chunk is. The number stands in the file: never change one. */
    public enum Kind {
        /** Bytes from a device. */
        IN(1),
        /** Bytes to a device; the time is just before they were handed over. */
        OUT(2),
        /** JSON: what a source is (role, port, speed of the line). Before its first byte. */
        SOURCE(3),
        /** JSON: what was being recorded, a mark, a remark. */
        NOTE(4),
        /** JSON: a device was lost or came back. */
        EVENT(5),
        /** JSON: wall-clock time beside the monotonic time, once a minute. */
        WALL_TIME(6),
        /** JSON: the recording was closed as it should be. The last chunk. */
        END(7);

        private final int code;

        Kind(int code) {
            this.code = code;
        }

        /**
         * Returns the number that stands in the file.
         *
         * @return 1 to 255
         */
        public int code() {
            return code;
        }
    }

    public Chunk {
        Objects.requireNonNull(kind, "kind");
        Objects.requireNonNull(at, "at");
        Objects.requireNonNull(bytes, "bytes");
        if (!(source >= 0 && source <= 255)) {
            throw new IllegalArgumentException("source=" + source + ", need 0 to 255");
        }
    }
}

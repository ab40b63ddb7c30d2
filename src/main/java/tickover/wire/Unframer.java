package tickover.wire;

import java.lang.invoke.MethodHandles;
import java.lang.invoke.VarHandle;
import java.nio.ByteOrder;
import java.util.Objects;

/**
 * Cuts a byte stream into frames, undoes the byte stuffing and checks the checksum.
 *
 * <p>A stuffed frame is one byte longer than what it holds, and every byte but the first stands
 * where it belongs, save for zero bytes, which are replaced by the distance to the next one. So a
 * frame is copied in one go and the zero bytes are put back along that chain. A frame that lies
 * whole in the caller's array is read straight from there.
 *
 * <p>Allocates nothing. One thread per instance.
 */
final class Unframer {
    /** Most bytes of a frame on the wire, delimiter included. */
    static final int MOST_WIRE_BYTES = 254;

    /** Length of the checksum. */
    static final int CHECK_BYTES = 2;

    private static final VarHandle LONG =
            MethodHandles.byteArrayViewVarHandle(long[].class, ByteOrder.LITTLE_ENDIAN);
    private static final long LOW_BITS = 0x0101010101010101L;
    private static final long HIGH_BITS = 0x8080808080808080L;

    /** Takes what was cut out. */
    interface Bodies {
        /**
         * Takes the body of a frame whose checksum fits. The frame is counted as sound meanwhile.
         *
         * @param body type and payload, valid until this call returns
         * @param count bytes of the body, &gt;= 1
         * @return whether the fields fit; if not, nobody was told and the frame counts as rejected
         */
        boolean body(byte[] body, int count);

        /** Hears that bytes were not taken. */
        void rejected(Rejection reason, int bytes);
    }

    private final Bodies bodies;
    private final byte[] held = new byte[MOST_WIRE_BYTES];
    private final byte[] body = new byte[MOST_WIRE_BYTES];
    private int pending;
    private boolean skipping;
    private long in;
    private long framed;
    private long rejected;

    Unframer(Bodies bodies) {
        this.bodies = bodies;
    }

    void feed(byte[] bytes, int from, int count) {
        Objects.checkFromIndexSize(from, count, bytes.length);
        int at = from;
        int end = from + count;
        while (at < end) {
            int stop = Math.min(end, at + MOST_WIRE_BYTES - pending);
            int zero = indexOfZero(bytes, at, stop);
            int n = (zero < 0 ? stop : zero) - at;
            if (zero < 0) {
                hold(bytes, at, n);
                at = stop;
            } else {
                end(bytes, at, n);
                at = zero + 1;
            }
        }
    }

    /** Takes bytes without a delimiter. */
    private void hold(byte[] bytes, int at, int n) {
        if (!skipping) {
            System.arraycopy(bytes, at, held, pending, n);
        }
        in += n;
        pending += n;
        if (pending == MOST_WIRE_BYTES) {
            pending = 0;
            skipping = true;
            reject(Rejection.TOO_LONG, MOST_WIRE_BYTES);
        }
    }

    /** Takes the last bytes of a frame and the delimiter after them. */
    private void end(byte[] bytes, int at, int n) {
        byte[] source = bytes;
        int first = at;
        if (pending > 0 && !skipping) {
            System.arraycopy(bytes, at, held, pending, n);
            source = held;
            first = 0;
        }
        int stuffed = pending + n;
        in += n + 1;
        pending = 0;
        if (skipping) {
            skipping = false;
            reject(Rejection.TOO_LONG, stuffed + 1);
        } else if (stuffed == 0) {
            framed++;
        } else {
            frame(source, first, stuffed);
        }
    }

    private void frame(byte[] source, int first, int stuffed) {
        byte[] to = body;
        int count = stuffed - 1;
        System.arraycopy(source, first + 1, to, 0, count);
        int next = source[first] & 0xFF;
        while (next < stuffed) {
            // Read from the source, not from the copy that is being changed.
            int distance = source[first + next] & 0xFF;
            to[next - 1] = 0;
            next += distance;
        }
        int wire = stuffed + 1;
        if (next != stuffed) {
            reject(Rejection.BAD_STUFFING, wire);
        } else if (count <= CHECK_BYTES) {
            reject(Rejection.TOO_SHORT, wire);
        } else if (Crc16.register(to, 0, count) != Crc16.RESIDUE) {
            reject(Rejection.BAD_CHECKSUM, wire);
        } else {
            framed += wire;
            if (!bodies.body(to, count - CHECK_BYTES)) {
                framed -= wire;
                reject(Rejection.BAD_FIELDS, wire);
            }
        }
    }

    private void reject(Rejection reason, int bytes) {
        rejected += bytes;
        bodies.rejected(reason, bytes);
    }

    /** Forgets what is pending; its bytes count as rejected. */
    void reset() {
        rejected += pending;
        pending = 0;
        skipping = false;
    }

    ByteTally tally() {
        return new ByteTally(in, framed, rejected, pending);
    }

    /** Returns where the first zero byte stands, -1 if there is none. */
    static int indexOfZero(byte[] bytes, int from, int to) {
        int i = from;
        for (; i <= to - Long.BYTES; i += Long.BYTES) {
            long w = (long) LONG.get(bytes, i);
            // Sets the high bit of the lowest zero byte; borrows may set higher ones wrongly.
            long zeros = (w - LOW_BITS) & ~w & HIGH_BITS;
            if (zeros != 0) {
                return i + (Long.numberOfTrailingZeros(zeros) >>> 3);
            }
        }
        for (; i < to; i++) {
            if (bytes[i] == 0) {
                return i;
            }
        }
        return -1;
    }
}

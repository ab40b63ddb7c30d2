package tickover.wire;

import java.lang.invoke.MethodHandles;
import java.lang.invoke.VarHandle;
import java.nio.ByteOrder;

/**
 * CRC-16/X-25, the frame check sequence of [RFC1662]: polynomial 0x1021 reflected (0x8408), start
 * 0xFFFF, final complement. The nine ASCII bytes {@code 123456789} give 0x906E.
 *
 * <p>Eight bytes are folded at a time through eight tables: table k holds what a byte does to the
 * register after k further zero bytes, and the register's own two bytes enter as the first two.
 * Allocates nothing.
 */
public final class Crc16 {
    /** The register after body and checksum of a sound frame, without the final complement. */
    static final int RESIDUE = 0xF0B8;

    private static final int START = 0xFFFF;
    private static final int POLYNOMIAL = 0x8408;
    private static final int STRIDE = 8;
    private static final VarHandle LONG =
            MethodHandles.byteArrayViewVarHandle(long[].class, ByteOrder.LITTLE_ENDIAN);
    private static final char[] TABLES = tables();

    private Crc16() {}

    private static char[] tables() {
        char[] tables = new char[STRIDE * 256];
        for (int i = 0; i < 256; i++) {
            int r = i;
            for (int bit = 0; bit < 8; bit++) {
                r = (r & 1) != 0 ? r >>> 1 ^ POLYNOMIAL : r >>> 1;
            }
            tables[i] = (char) r;
        }
        for (int i = 256; i < tables.length; i++) {
            char before = tables[i - 256];
            tables[i] = (char) (before >>> 8 ^ tables[before & 0xFF]);
        }
        return tables;
    }

    /**
     * Returns the checksum of some bytes.
     *
     * @param bytes the bytes
     * @param from first byte
     * @param count number of bytes
     * @return 0 to 0xFFFF; sent low byte first
     */
    public static int of(byte[] bytes, int from, int count) {
        return register(bytes, from, count) ^ 0xFFFF;
    }

    /** Returns the register, which is the checksum without its final complement. */
    static int register(byte[] bytes, int from, int count) {
        char[] t = TABLES;
        int r = START;
        int i = from;
        int end = from + count;
        for (; i <= end - STRIDE; i += STRIDE) {
            long w = (long) LONG.get(bytes, i) ^ r;
            int low = (int) w;
            int high = (int) (w >>> 32);
            r =
                    t[7 * 256 + (low & 0xFF)]
                            ^ t[6 * 256 + (low >>> 8 & 0xFF)]
                            ^ t[5 * 256 + (low >>> 16 & 0xFF)]
                            ^ t[4 * 256 + (low >>> 24)]
                            ^ t[3 * 256 + (high & 0xFF)]
                            ^ t[2 * 256 + (high >>> 8 & 0xFF)]
                            ^ t[256 + (high >>> 16 & 0xFF)]
                            ^ t[high >>> 24];
        }
        for (; i < end; i++) {
            r = r >>> 8 ^ t[(r ^ bytes[i]) & 0xFF];
        }
        return r;
    }
}

package tickover.wire;

import java.lang.invoke.MethodHandles;
import java.lang.invoke.VarHandle;
import java.nio.ByteOrder;

/** Reads the protocol's numbers. */
final class LittleEndian {
    private static final VarHandle SHORT =
            MethodHandles.byteArrayViewVarHandle(short[].class, ByteOrder.LITTLE_ENDIAN);
    private static final VarHandle INT =
            MethodHandles.byteArrayViewVarHandle(int[].class, ByteOrder.LITTLE_ENDIAN);

    private LittleEndian() {}

    static int u8(byte[] b, int at) {
        return b[at] & 0xFF;
    }

    static int u16(byte[] b, int at) {
        return (short) SHORT.get(b, at) & 0xFFFF;
    }

    static int i16(byte[] b, int at) {
        return (short) SHORT.get(b, at);
    }

    static int i24(byte[] b, int at) {
        return u16(b, at) | b[at + 2] << 16;
    }

    static long u32(byte[] b, int at) {
        return (int) INT.get(b, at) & 0xFFFFFFFFL;
    }
}

package tickover.link;

import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.util.Arrays;
import java.util.UUID;
import java.util.zip.CRC32C;
import tickover.unit.HostNanos;

/** The recording file to the byte; {@code docs/recording.md} describes it for others. */
final class RecordingFormat {
    static final int VERSION = 1;
    static final int HEADER_BYTES = 48;
    static final int CHUNK_HEAD_BYTES = 32;
    static final int LONGEST_PAYLOAD_BYTES = 1 << 20;

    /**
     * First bytes of the file. Line ends and the end-of-text byte in it show a copy that was made
     * as if it were text, and 0xD4 is no letter.
     */
    private static final byte[] MAGIC = {(byte) 0xD4, 'T', 'K', 'R', '\r', '\n', 0x1A, '\n'};

    /** First bytes of each chunk. */
    private static final int MARKER = 0x5AC3_4B9E;

    private static final int HEADER_CRC_AT = 44;
    private static final int CHUNK_CRC_AT = 28;
    private static final int CHUNK_NUMBER_AT = 8;

    private RecordingFormat() {}

    static byte[] header(RecordingHeader header) {
        ByteBuffer b = ByteBuffer.allocate(HEADER_BYTES).order(ByteOrder.LITTLE_ENDIAN);
        b.put(MAGIC).putInt(VERSION);
        b.order(ByteOrder.BIG_ENDIAN)
                .putLong(header.id().getMostSignificantBits())
                .putLong(header.id().getLeastSignificantBits());
        b.order(ByteOrder.LITTLE_ENDIAN)
                .putLong(header.startedAt().value())
                .putLong(RecordingHeader.epochNanos(header.startedWall()));
        return b.putInt(crc(b.array(), 0, HEADER_CRC_AT)).array();
    }

    /** Whether this is a whole and sound header, of whatever version. */
    static boolean isHeader(byte[] file) {
        return startsLikeHeader(file)
                && file.length >= HEADER_BYTES
                && little(file).getInt(HEADER_CRC_AT) == crc(file, 0, HEADER_CRC_AT);
    }

    /** Whether these bytes are what a header begins with, as far as they go. */
    static boolean startsLikeHeader(byte[] file) {
        int count = Math.min(file.length, MAGIC.length);
        return Arrays.equals(file, 0, count, MAGIC, 0, count);
    }

    static long headerVersion(byte[] file) {
        return Integer.toUnsignedLong(little(file).getInt(MAGIC.length));
    }

    static RecordingHeader readHeader(byte[] file) {
        ByteBuffer b = ByteBuffer.wrap(file).position(MAGIC.length + Integer.BYTES);
        UUID id = new UUID(b.getLong(), b.getLong());
        b.order(ByteOrder.LITTLE_ENDIAN);
        return new RecordingHeader(
                id, new HostNanos(b.getLong()), RecordingHeader.ofEpochNanos(b.getLong()));
    }

    /** What each chunk of a recording carries, so that those of another are told from it. */
    static int tag(UUID id) {
        return Integer.reverseBytes((int) id.getLeastSignificantBits());
    }

    static byte[] chunk(Chunk chunk, int tag, int number) {
        byte[] payload = chunk.bytes();
        ByteBuffer b =
                ByteBuffer.allocate(CHUNK_HEAD_BYTES + payload.length)
                        .order(ByteOrder.LITTLE_ENDIAN);
        b.putInt(MARKER).putInt(tag).putInt(number);
        b.put((byte) chunk.kind().code()).put((byte) chunk.source()).putShort((short) 0);
        b.putLong(chunk.at().value()).putInt(payload.length).putInt(0).put(payload);
        return b.putInt(CHUNK_CRC_AT, chunkCrc(b.array(), 0, payload.length)).array();
    }

    static boolean isMarker(ByteBuffer file, int at) {
        return file.getInt(at) == MARKER;
    }

    static int chunkTag(ByteBuffer file, int at) {
        return file.getInt(at + 4);
    }

    static int chunkNumber(ByteBuffer file, int at) {
        return file.getInt(at + CHUNK_NUMBER_AT);
    }

    static int chunkKind(ByteBuffer file, int at) {
        return Byte.toUnsignedInt(file.get(at + 12));
    }

    static int chunkSource(ByteBuffer file, int at) {
        return Byte.toUnsignedInt(file.get(at + 13));
    }

    static HostNanos chunkTime(ByteBuffer file, int at) {
        return new HostNanos(file.getLong(at + 16));
    }

    static long payloadBytes(ByteBuffer file, int at) {
        return Integer.toUnsignedLong(file.getInt(at + 24));
    }

    /** Whether a whole chunk's checksum is right; both arguments hold the same bytes. */
    static boolean isSound(byte[] file, ByteBuffer view, int at) {
        int payloadBytes = (int) payloadBytes(view, at);
        return view.getInt(at + CHUNK_CRC_AT) == chunkCrc(file, at, payloadBytes);
    }

    private static int chunkCrc(byte[] bytes, int at, int payloadBytes) {
        CRC32C crc = new CRC32C();
        crc.update(bytes, at, CHUNK_CRC_AT);
        crc.update(bytes, at + CHUNK_HEAD_BYTES, payloadBytes);
        return (int) crc.getValue();
    }

    private static int crc(byte[] bytes, int at, int count) {
        CRC32C crc = new CRC32C();
        crc.update(bytes, at, count);
        return (int) crc.getValue();
    }

    private static ByteBuffer little(byte[] bytes) {
        return ByteBuffer.wrap(bytes).order(ByteOrder.LITTLE_ENDIAN);
    }
}

package tickover.store;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.channels.FileChannel;
import java.nio.charset.StandardCharsets;
import java.util.Arrays;

/**
 * What a WAV file says of itself, checked against the bytes that are there.
 *
 * <p>Own parser: the platform's sound library cuts sample rates to whole numbers and believes a
 * data size that the file does not hold.
 *
 * @param encoding how a sample is stored
 * @param channels 1 to 3
 * @param sampleRateHz samples per second and channel, Hz
 * @param dataOffset where the samples start, in bytes from the start of the file
 * @param frames samples per channel, &gt;= 1
 */
record WavHeader(
        WavEncoding encoding, int channels, long sampleRateHz, long dataOffset, int frames) {
    static final int FORMAT_PCM = 1;
    static final int FORMAT_FLOAT = 3;
    static final int FORMAT_EXTENSIBLE = 0xFFFE;
    static final int MAX_CHANNELS = 3;

    /** Bytes 2 to 15 of every sub-format that stands for a plain format tag. */
    static final byte[] SUBFORMAT_TAIL = {
        0, 0, 0, 0, 0x10, 0, (byte) 0x80, 0, 0, (byte) 0xAA, 0, 0x38, (byte) 0x9B, 0x71
    };

    private static final int RIFF_HEADER_BYTES = 12;
    private static final int CHUNK_HEADER_BYTES = 8;
    private static final int PLAIN_FORMAT_BYTES = 16;
    private static final int EXTENSIBLE_FORMAT_BYTES = 40;
    private static final String PLEASE = "give PCM of 16, 24 or 32 bits or IEEE float of 32 bits";

    int bytesPerFrame() {
        return channels * encoding.bytes();
    }

    /**
     * Reads the chunks up to the samples.
     *
     * @param file the name for messages
     * @param in the open file
     * @return what it says
     * @throws VisitFolderException if it is no such WAV file or claims more than it holds
     * @throws IOException if it cannot be read
     */
    static WavHeader read(String file, FileChannel in) throws IOException {
        long size = in.size();
        if (size < RIFF_HEADER_BYTES) {
            throw new VisitFolderException(
                    file, "is no WAV file: it holds " + size + " bytes, a header alone needs 44");
        }
        ByteBuffer riff = bytes(in, 0, RIFF_HEADER_BYTES);
        String kind = tag(riff);
        long claimed = unsigned(riff.getInt()) + CHUNK_HEADER_BYTES;
        if (!kind.equals("RIFF") || !tag(riff).equals("WAVE")) {
            throw new VisitFolderException(
                    file, "is no RIFF WAVE file; record or convert it as WAV");
        }
        // A last odd chunk may lack its padding byte and still be counted with it.
        if (claimed > size + 1) {
            throw new VisitFolderException(
                    file,
                    "its header claims "
                            + claimed
                            + " bytes, but the file holds "
                            + size
                            + "; copy or record it again");
        }
        return walk(file, in, size);
    }

    private static WavHeader walk(String file, FileChannel in, long size) throws IOException {
        WavHeader format = null;
        long at = RIFF_HEADER_BYTES;
        while (at + CHUNK_HEADER_BYTES <= size) {
            ByteBuffer head = bytes(in, at, CHUNK_HEADER_BYTES);
            String tag = tag(head);
            long length = unsigned(head.getInt());
            long body = at + CHUNK_HEADER_BYTES;
            if (length > size - body) {
                throw new VisitFolderException(
                        file,
                        "its "
                                + Wording.quoted(tag.strip())
                                + " chunk claims "
                                + length
                                + " bytes, but the file holds "
                                + (size - body)
                                + " after it; copy or record it again");
            }
            if (tag.equals("fmt ") && format == null) {
                format = format(file, in, body, length);
            } else if (tag.equals("data")) {
                return format(file, format).withData(file, body, length);
            }
            at = body + length + (length & 1);
        }
        throw new VisitFolderException(file, "has no data chunk; record it again");
    }

    private static WavHeader format(String file, WavHeader format) {
        if (format == null) {
            throw new VisitFolderException(
                    file, "has no fmt chunk before its samples; record it again");
        }
        return format;
    }

    private static WavHeader format(String file, FileChannel in, long at, long length)
            throws IOException {
        if (length < PLAIN_FORMAT_BYTES) {
            throw new VisitFolderException(
                    file, "its fmt chunk has " + length + " bytes, need 16 or more");
        }
        ByteBuffer b = bytes(in, at, (int) Math.min(length, EXTENSIBLE_FORMAT_BYTES));
        int formatTag = b.getShort() & 0xFFFF;
        int channels = b.getShort() & 0xFFFF;
        long sampleRateHz = unsigned(b.getInt());
        b.getInt();
        int bytesPerFrame = b.getShort() & 0xFFFF;
        int bits = b.getShort() & 0xFFFF;
        if (formatTag == FORMAT_EXTENSIBLE) {
            formatTag = subFormat(file, b);
        }
        WavEncoding encoding = encoding(file, formatTag, bits);
        if (channels < 1 || channels > MAX_CHANNELS) {
            throw new VisitFolderException(
                    file, "has " + channels + " channels; give one, or three for x, y and z");
        }
        if (sampleRateHz < 1) {
            throw new VisitFolderException(file, "its sample rate is 0 Hz; give one above 0");
        }
        if (bytesPerFrame != channels * encoding.bytes()) {
            throw new VisitFolderException(
                    file,
                    "its header gives "
                            + bytesPerFrame
                            + " bytes per sample of all channels, but "
                            + channels
                            + " channels of "
                            + bits
                            + " bits are "
                            + channels * encoding.bytes());
        }
        return new WavHeader(encoding, channels, sampleRateHz, 0, 0);
    }

    private static int subFormat(String file, ByteBuffer b) {
        if (b.limit() < EXTENSIBLE_FORMAT_BYTES) {
            throw new VisitFolderException(
                    file, "its extensible fmt chunk has " + b.limit() + " bytes, need 40");
        }
        byte[] tail = new byte[SUBFORMAT_TAIL.length];
        b.position(EXTENSIBLE_FORMAT_BYTES - SUBFORMAT_TAIL.length - 2);
        int formatTag = b.getShort() & 0xFFFF;
        b.get(tail);
        if (!Arrays.equals(tail, SUBFORMAT_TAIL)) {
            throw new VisitFolderException(file, "has an unknown kind of samples; " + PLEASE);
        }
        return formatTag;
    }

    private static WavEncoding encoding(String file, int formatTag, int bits) {
        if (formatTag == FORMAT_FLOAT && bits == 32) {
            return WavEncoding.FLOAT_32;
        }
        if (formatTag == FORMAT_PCM && bits == 16) {
            return WavEncoding.PCM_16;
        }
        if (formatTag == FORMAT_PCM && bits == 24) {
            return WavEncoding.PCM_24;
        }
        if (formatTag == FORMAT_PCM && bits == 32) {
            return WavEncoding.PCM_32;
        }
        String kind =
                switch (formatTag) {
                    case FORMAT_PCM -> "PCM";
                    case FORMAT_FLOAT -> "IEEE float";
                    default -> "format " + formatTag;
                };
        throw new VisitFolderException(file, "holds " + kind + " of " + bits + " bits; " + PLEASE);
    }

    private WavHeader withData(String file, long offset, long length) {
        if (length == 0) {
            throw new VisitFolderException(file, "holds 0 samples; record it again");
        }
        if (length % bytesPerFrame() != 0) {
            throw new VisitFolderException(
                    file,
                    "its "
                            + length
                            + " bytes of samples end in the middle of one ("
                            + bytesPerFrame()
                            + " bytes each); copy or record it again");
        }
        long count = length / bytesPerFrame();
        if (count > Integer.MAX_VALUE - 8) {
            throw new VisitFolderException(
                    file, "holds " + count + " samples per channel; cut it into shorter captures");
        }
        return new WavHeader(encoding, channels, sampleRateHz, offset, (int) count);
    }

    private static ByteBuffer bytes(FileChannel in, long at, int count) throws IOException {
        ByteBuffer b = ByteBuffer.allocate(count).order(ByteOrder.LITTLE_ENDIAN);
        while (b.hasRemaining()) {
            if (in.read(b, at + b.position()) < 0) {
                throw new IOException("the file became shorter while it was read");
            }
        }
        return b.flip();
    }

    private static String tag(ByteBuffer b) {
        byte[] four = new byte[4];
        b.get(four);
        return new String(four, StandardCharsets.ISO_8859_1);
    }

    private static long unsigned(int value) {
        return value & 0xFFFFFFFFL;
    }
}

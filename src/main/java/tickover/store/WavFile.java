package tickover.store;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.channels.FileChannel;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.util.Objects;

/**
 * WAV files of acceleration: PCM of 16, 24 or 32 bits and IEEE float of 32 bits, plain or
 * extensible, one to three channels.
 *
 * <p>An integer sample is its stored number divided by 2^(bits-1), so that full scale is 1; a float
 * sample is what is stored. Either times {@code scaleMps2} is m/s².
 */
public final class WavFile {
    private static final int BUFFER_FRAMES = 1 << 14;
    private static final int BITS_PER_BYTE = 8;

    private final double sampleRateHz;
    private final double[][] valuesMps2;

    private WavFile(double sampleRateHz, double[][] valuesMps2) {
        this.sampleRateHz = sampleRateHz;
        this.valuesMps2 = valuesMps2;
    }

    /**
     * Reads a whole file.
     *
     * @param path the file; messages give its name alone
     * @param scaleMps2 m/s² per full scale of whole numbers, or per unit of floats, &gt; 0
     * @return rate and samples
     * @throws VisitFolderException if it is no WAV file of a kind above, claims more than it holds,
     *     holds no sample, or a float sample is no number
     */
    public static WavFile read(Path path, double scaleMps2) {
        requireScale(scaleMps2);
        String file = fileName(path);
        try (FileChannel in = FileChannel.open(path, StandardOpenOption.READ)) {
            WavHeader header = WavHeader.read(file, in);
            double[][] values = new double[header.channels()][header.frames()];
            readSamples(file, in, header, scaleMps2, values);
            return new WavFile(header.sampleRateHz(), values);
        } catch (IOException e) {
            throw new VisitFolderException(file, "cannot be read: " + Wording.reason(e), e);
        }
    }

    /** Reads header and samples for faults alone and keeps nothing. */
    static WavHeader check(Path path) {
        String file = fileName(path);
        try (FileChannel in = FileChannel.open(path, StandardOpenOption.READ)) {
            WavHeader header = WavHeader.read(file, in);
            if (header.encoding().isFloat()) {
                readSamples(file, in, header, 1.0, null);
            }
            return header;
        } catch (IOException e) {
            throw new VisitFolderException(file, "cannot be read: " + Wording.reason(e), e);
        }
    }

    private static void readSamples(
            String file, FileChannel in, WavHeader header, double scaleMps2, double[][] values)
            throws IOException {
        ByteBuffer buffer =
                ByteBuffer.allocate(BUFFER_FRAMES * header.bytesPerFrame())
                        .order(ByteOrder.LITTLE_ENDIAN);
        double stepMps2 = scaleMps2 / header.encoding().fullScale();
        in.position(header.dataOffset());
        int done = 0;
        while (done < header.frames()) {
            int frames = Math.min(BUFFER_FRAMES, header.frames() - done);
            buffer.clear().limit(frames * header.bytesPerFrame());
            while (buffer.hasRemaining()) {
                if (in.read(buffer) < 0) {
                    throw new IOException("the file became shorter while it was read");
                }
            }
            buffer.flip();
            for (int i = done; i < done + frames; i++) {
                for (int c = 0; c < header.channels(); c++) {
                    double stored = next(buffer, header.encoding());
                    if (!Double.isFinite(stored)) {
                        throw new VisitFolderException(
                                file + " sample " + i,
                                "is "
                                        + stored
                                        + " in channel "
                                        + (c + 1)
                                        + "; every sample has to be a number");
                    }
                    if (values != null) {
                        values[c][i] = stored * stepMps2;
                    }
                }
            }
            done += frames;
        }
    }

    private static double next(ByteBuffer b, WavEncoding encoding) {
        return switch (encoding) {
            case PCM_16 -> b.getShort();
            case PCM_24 -> (b.get() & 0xFF) | (b.get() & 0xFF) << 8 | b.get() << 16;
            case PCM_32 -> b.getInt();
            case FLOAT_32 -> b.getFloat();
        };
    }

    /**
     * Writes a new file. Whole numbers are rounded to the nearest step and clipped at full scale,
     * as a converter does. Three channels take the extensible form, which the format asks for.
     *
     * @param path the file, which must not exist
     * @param sampleRateHz a whole number of Hz, &gt;= 1
     * @param accelMps2 one array per channel, m/s², 1 to 3 of one length &gt;= 1
     * @param encoding how to store them
     * @param scaleMps2 m/s² per full scale of whole numbers, or per unit of floats, &gt; 0
     * @throws IllegalArgumentException if an argument is out of range, or the samples exceed 2 GiB
     * @throws IOException if the file exists or cannot be written
     */
    public static void write(
            Path path,
            double sampleRateHz,
            double[][] accelMps2,
            WavEncoding encoding,
            double scaleMps2)
            throws IOException {
        Objects.requireNonNull(encoding, "encoding");
        requireScale(scaleMps2);
        int channels = accelMps2.length;
        if (!(channels >= 1 && channels <= WavHeader.MAX_CHANNELS)) {
            throw new IllegalArgumentException("channels=" + channels + ", need 1 to 3");
        }
        int frames = accelMps2[0].length;
        for (double[] channel : accelMps2) {
            if (!(channel.length >= 1 && channel.length == frames)) {
                throw new IllegalArgumentException(
                        "channel length=" + channel.length + ", need >= 1 and the same for all");
            }
        }
        requireRate(sampleRateHz);
        try (WavWriter out = new WavWriter(path, channels, encoding, scaleMps2)) {
            // Refused before the first sample is written.
            head((int) sampleRateHz, channels, frames, encoding);
            double[] moment = new double[channels];
            for (int i = 0; i < frames; i++) {
                for (int c = 0; c < channels; c++) {
                    moment[c] = accelMps2[c][i];
                }
                out.add(moment);
            }
            out.finish(sampleRateHz);
        }
    }

    static void requireRate(double sampleRateHz) {
        if (!(sampleRateHz >= 1
                && sampleRateHz <= Integer.MAX_VALUE
                && sampleRateHz == Math.rint(sampleRateHz))) {
            throw new IllegalArgumentException(
                    "sampleRateHz=" + sampleRateHz + ", need a whole number of Hz for WAV");
        }
    }

    static void put(ByteBuffer b, WavEncoding encoding, double value) {
        if (!Double.isFinite(value)) {
            throw new IllegalArgumentException("sample=" + value + ", need a finite number");
        }
        if (encoding.isFloat()) {
            b.putFloat((float) value);
            return;
        }
        double full = encoding.fullScale();
        long step = (long) Math.max(-full, Math.min(full - 1, Math.rint(value * full)));
        for (int i = 0; i < encoding.bytes(); i++) {
            b.put((byte) (step >> (BITS_PER_BYTE * i)));
        }
    }

    static byte[] head(int sampleRateHz, int channels, int frames, WavEncoding encoding) {
        int frameBytes = channels * encoding.bytes();
        long dataBytes = (long) frames * frameBytes;
        if (!(dataBytes <= Integer.MAX_VALUE - 100)) {
            throw new IllegalArgumentException(
                    "samples take " + dataBytes + " bytes, need at most 2 GiB for WAV");
        }
        boolean extensible = channels > 2;
        int formatBytes = extensible ? 40 : encoding.isFloat() ? 18 : 16;
        int factBytes = encoding.isFloat() ? 12 : 0;
        int headBytes = 12 + 8 + formatBytes + factBytes + 8;
        ByteBuffer b = ByteBuffer.allocate(headBytes).order(ByteOrder.LITTLE_ENDIAN);
        b.put(ascii("RIFF")).putInt((int) (headBytes - 8 + dataBytes + (dataBytes & 1)));
        b.put(ascii("WAVE")).put(ascii("fmt ")).putInt(formatBytes);
        int tag = encoding.isFloat() ? WavHeader.FORMAT_FLOAT : WavHeader.FORMAT_PCM;
        b.putShort((short) (extensible ? WavHeader.FORMAT_EXTENSIBLE : tag));
        b.putShort((short) channels).putInt(sampleRateHz);
        b.putInt((int) Math.min(Integer.MAX_VALUE, (long) sampleRateHz * frameBytes));
        b.putShort((short) frameBytes).putShort((short) (BITS_PER_BYTE * encoding.bytes()));
        if (extensible) {
            // Size of the rest, valid bits, and no speaker for any channel.
            b.putShort((short) 22).putShort((short) (BITS_PER_BYTE * encoding.bytes())).putInt(0);
            b.putShort((short) tag).put(WavHeader.SUBFORMAT_TAIL);
        } else if (encoding.isFloat()) {
            b.putShort((short) 0);
        }
        if (encoding.isFloat()) {
            b.put(ascii("fact")).putInt(4).putInt(frames);
        }
        b.put(ascii("data")).putInt((int) dataBytes);
        return b.array();
    }

    private static byte[] ascii(String tag) {
        return tag.getBytes(StandardCharsets.US_ASCII);
    }

    private static void requireScale(double scaleMps2) {
        if (!(scaleMps2 > 0 && Double.isFinite(scaleMps2))) {
            throw new IllegalArgumentException("scaleMps2=" + scaleMps2 + ", need > 0 m/s²");
        }
    }

    private static String fileName(Path path) {
        return String.valueOf(path.getFileName());
    }

    /**
     * Returns the sample rate.
     *
     * @return Hz
     */
    public double sampleRateHz() {
        return sampleRateHz;
    }

    /**
     * Returns the samples, one array per channel, shared: whoever asked for them may hand them on,
     * nobody writes to them.
     *
     * @return m/s²
     */
    public double[][] valuesMps2() {
        return valuesMps2;
    }
}

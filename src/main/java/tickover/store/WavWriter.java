package tickover.store;

import java.io.BufferedOutputStream;
import java.io.IOException;
import java.io.OutputStream;
import java.io.RandomAccessFile;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.util.Objects;

/**
 * Writes a WAV file whose samples come bit by bit, and whose length and rate are known at the end
 * alone. Memory does not grow with it. One thread.
 */
public final class WavWriter implements AutoCloseable {
    private static final int BUFFER_BYTES = 1 << 16;

    private final Path file;
    private final int channels;
    private final WavEncoding encoding;
    private final double scaleMps2;
    private final int headBytes;

    /** Null once it is closed: its buffer goes too, for there may be thousands of files. */
    private OutputStream out;

    private final ByteBuffer frame;
    private int frames;

    /**
     * Begins a file.
     *
     * @param file the file, which must not exist
     * @param channels 1 to 3
     * @param encoding how to store samples
     * @param scaleMps2 m/s² per full scale of whole numbers, or per unit of floats, &gt; 0
     * @throws IOException if the file exists or cannot be written
     */
    public WavWriter(Path file, int channels, WavEncoding encoding, double scaleMps2)
            throws IOException {
        this.file = Objects.requireNonNull(file, "file");
        this.encoding = Objects.requireNonNull(encoding, "encoding");
        this.channels = channels;
        this.scaleMps2 = scaleMps2;
        byte[] head = WavFile.head(1, channels, 0, encoding);
        frame = ByteBuffer.allocate(channels * encoding.bytes()).order(ByteOrder.LITTLE_ENDIAN);
        out =
                new BufferedOutputStream(
                        Files.newOutputStream(file, StandardOpenOption.CREATE_NEW), BUFFER_BYTES);
        out.write(head);
        headBytes = head.length;
    }

    /**
     * Returns where the samples begin.
     *
     * @return bytes after the begin of the file
     */
    public int headBytes() {
        return headBytes;
    }

    /**
     * Writes samples on.
     *
     * @param accelMps2 m/s², the channels of a moment side by side; a whole number of moments
     * @throws IllegalArgumentException if one is not finite
     * @throws IOException if the disk fails
     */
    public void add(double[] accelMps2) throws IOException {
        for (int i = 0; i < accelMps2.length; i += channels) {
            frame.clear();
            for (int c = 0; c < channels; c++) {
                WavFile.put(frame, encoding, accelMps2[i + c] / scaleMps2);
            }
            out.write(frame.array());
            frames++;
        }
    }

    /**
     * Ends the file.
     *
     * @param sampleRateHz a whole number of Hz, &gt;= 1
     * @throws IllegalArgumentException if the rate is no whole number, or the samples exceed 2 GiB
     * @throws IOException if the disk fails
     */
    public void finish(double sampleRateHz) throws IOException {
        close();
        WavFile.requireRate(sampleRateHz);
        try (RandomAccessFile patched = new RandomAccessFile(file.toFile(), "rw")) {
            patched.write(WavFile.head((int) sampleRateHz, channels, frames, encoding));
        }
    }

    /** Takes no more samples; {@link #finish} makes the file whole. */
    @Override
    public void close() throws IOException {
        if (out == null) {
            return;
        }
        try (OutputStream last = out) {
            out = null;
            if (((long) frames * frame.capacity()) % 2 != 0) {
                last.write(0);
            }
        }
    }
}

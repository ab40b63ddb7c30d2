package tickover.store;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import javax.sound.sampled.AudioFormat;
import javax.sound.sampled.AudioInputStream;
import javax.sound.sampled.AudioSystem;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.EnumSource;

class WavFileTest {
    private static final double SCALE_MPS2 = 49.03;

    @TempDir Path dir;

    @ParameterizedTest
    @EnumSource(WavEncoding.class)
    void writtenSamplesReadBackWithinOneStep(WavEncoding encoding) throws IOException {
        for (int channels = 1; channels <= 3; channels++) {
            double[][] written = Folders.sines(channels, 777);
            Path file = dir.resolve(encoding + "-" + channels + ".wav");
            WavFile.write(file, 25600, written, encoding, SCALE_MPS2);
            WavFile read = WavFile.read(file, SCALE_MPS2);
            assertEquals(25600, read.sampleRateHz());
            assertEquals(channels, read.valuesMps2().length);
            // Half a step of the converter, or float rounding of values up to 3 m/s².
            double halfStepMps2 =
                    encoding.isFloat()
                            ? 3 * Math.pow(2, -24)
                            : SCALE_MPS2 / encoding.fullScale() / 2;
            double roundOff = 1 + 1e-9;
            for (int c = 0; c < channels; c++) {
                assertEquals(777, read.valuesMps2()[c].length);
                for (int i = 0; i < 777; i++) {
                    assertEquals(written[c][i], read.valuesMps2()[c][i], halfStepMps2 * roundOff);
                }
            }
        }
    }

    @Test
    void fullScaleOfWholeNumbersIsTheScale() throws IOException {
        Path file = raw("full.wav", 1, 1, 16, 2, bytes -> bytes.putShort(Short.MIN_VALUE));
        assertEquals(-9.81, WavFile.read(file, 9.81).valuesMps2()[0][0]);
    }

    @Test
    void wholeNumbersAreClippedAtFullScaleOnWriting() throws IOException {
        Path file = dir.resolve("clipped.wav");
        WavFile.write(file, 8000, new double[][] {{100, -100}}, WavEncoding.PCM_16, 10);
        double[] read = WavFile.read(file, 10).valuesMps2()[0];
        assertEquals(10.0 * 32767 / 32768, read[0]);
        assertEquals(-10.0, read[1]);
    }

    /** The platform's own reader as an outside judge of headers and sample bytes. */
    @ParameterizedTest
    @EnumSource(WavEncoding.class)
    void platformReadsWhatIsWritten(WavEncoding encoding) throws Exception {
        for (int channels = 1; channels <= 3; channels++) {
            Path file = dir.resolve("out" + encoding + channels + ".wav");
            WavFile.write(file, 12000, Folders.sines(channels, 501), encoding, 8);
            try (AudioInputStream in = AudioSystem.getAudioInputStream(file.toFile())) {
                AudioFormat format = in.getFormat();
                assertEquals(12000, format.getSampleRate());
                assertEquals(channels, format.getChannels());
                assertEquals(8 * encoding.bytes(), format.getSampleSizeInBits());
                assertEquals(
                        encoding.isFloat()
                                ? AudioFormat.Encoding.PCM_FLOAT
                                : AudioFormat.Encoding.PCM_SIGNED,
                        format.getEncoding());
                assertEquals(501, in.getFrameLength());
                byte[] data = in.readAllBytes();
                byte[] whole = Files.readAllBytes(file);
                int from = whole.length - data.length - data.length % 2;
                assertEquals(
                        ByteBuffer.wrap(data), ByteBuffer.wrap(whole, from, data.length).slice());
            }
        }
    }

    @ParameterizedTest
    @CsvSource({"1, 16", "1, 24", "1, 32", "3, 32"})
    void readsExtensibleHeaders(int formatTag, int bits) throws IOException {
        ByteArrayOutputStream out = new ByteArrayOutputStream();
        ByteBuffer format = little(40);
        format.putShort((short) 0xFFFE).putShort((short) 2).putInt(48000).putInt(48000 * 8);
        format.putShort((short) (2 * bits / 8)).putShort((short) bits);
        format.putShort((short) 22).putShort((short) bits).putInt(3).putShort((short) formatTag);
        format.put(WavHeader.SUBFORMAT_TAIL);
        chunk(out, "fmt ", format);
        ByteBuffer data = little(2 * bits / 8);
        for (int c = 0; c < 2; c++) {
            int full = c == 0 ? 1 : -1;
            if (formatTag == 3) {
                data.putFloat(0.25f * full);
            } else {
                int quarter = full * (1 << (bits - 3));
                for (int i = 0; i < bits / 8; i++) {
                    data.put((byte) (quarter >> (8 * i)));
                }
            }
        }
        chunk(out, "data", data);
        WavFile read = WavFile.read(riff("ext.wav", out), 4.0);
        assertEquals(48000, read.sampleRateHz());
        assertEquals(1.0, read.valuesMps2()[0][0]);
        assertEquals(-1.0, read.valuesMps2()[1][0]);
    }

    @Test
    void skipsUnknownChunksAndTheirPadding() throws IOException {
        ByteArrayOutputStream out = new ByteArrayOutputStream();
        chunk(out, "LIST", new byte[] {1, 2, 3});
        chunk(out, "fmt ", plainFormat(1, 1, 16, 2));
        chunk(out, "junk", new byte[] {4});
        chunk(out, "data", new byte[] {0, 0x40});
        chunk(out, "LIST", new byte[] {5, 6, 7, 8, 9});
        assertEquals(0.5, WavFile.read(riff("junk.wav", out), 1).valuesMps2()[0][0]);
    }

    @Test
    void acceptsALastOddChunkWithoutItsPadding() throws IOException {
        ByteArrayOutputStream out = new ByteArrayOutputStream();
        chunk(out, "fmt ", plainFormat(1, 1, 24, 3));
        chunk(out, "data", new byte[] {0, 0, 0x40});
        Path file = riff("odd.wav", out);
        byte[] whole = Files.readAllBytes(file);
        Files.write(file, Arrays.copyOf(whole, whole.length - 1));
        assertEquals(0.5, WavFile.read(file, 1).valuesMps2()[0][0]);
    }

    @Test
    void namesTheFirstSampleThatIsNoNumber() throws IOException {
        ByteArrayOutputStream out = new ByteArrayOutputStream();
        chunk(out, "fmt ", plainFormat(3, 2, 32, 8));
        ByteBuffer data = little(16);
        data.putFloat(1).putFloat(2).putFloat(3).putFloat(Float.NaN);
        chunk(out, "data", data);
        Path file = riff("nan.wav", out);
        assertEquals(
                "nan.wav sample 1: is NaN in channel 2; every sample has to be a number",
                refusal(file));
    }

    @ParameterizedTest
    @CsvSource({
        "1, 1, 8, 1, holds PCM of 8 bits; give PCM of 16",
        "3, 1, 64, 8, holds IEEE float of 64 bits; give PCM of 16",
        "2, 1, 4, 1, holds format 2 of 4 bits",
        "1, 4, 16, 8, has 4 channels; give one",
        "1, 0, 16, 0, has 0 channels; give one",
        "1, 1, 16, 4, gives 4 bytes per sample"
    })
    void refusesFormatsThatAreNotListed(
            int formatTag, int channels, int bits, int bytesPerFrame, String fragment)
            throws IOException {
        ByteArrayOutputStream out = new ByteArrayOutputStream();
        chunk(out, "fmt ", plainFormat(formatTag, channels, bits, bytesPerFrame));
        chunk(out, "data", new byte[64]);
        String message = refusal(riff("kind.wav", out));
        assertTrue(message.startsWith("kind.wav: ") && message.contains(fragment), message);
    }

    @Test
    void refusesToWriteAFractionalSampleRate() {
        assertThrows(
                IllegalArgumentException.class,
                () ->
                        WavFile.write(
                                dir.resolve("rate.wav"),
                                8000.5,
                                Folders.sines(1, 4),
                                WavEncoding.PCM_16,
                                1));
    }

    private static String refusal(Path file) {
        String checked =
                assertThrows(VisitFolderException.class, () -> WavFile.check(file)).getMessage();
        String read =
                assertThrows(VisitFolderException.class, () -> WavFile.read(file, 1)).getMessage();
        assertEquals(checked, read);
        return read;
    }

    private interface Samples {
        void put(ByteBuffer bytes);
    }

    private Path raw(String name, int tag, int channels, int bits, int bytes, Samples samples)
            throws IOException {
        ByteArrayOutputStream out = new ByteArrayOutputStream();
        chunk(out, "fmt ", plainFormat(tag, channels, bits, bytes));
        ByteBuffer data = little(bytes);
        samples.put(data);
        chunk(out, "data", data);
        return riff(name, out);
    }

    private static ByteBuffer plainFormat(int tag, int channels, int bits, int bytesPerFrame) {
        ByteBuffer b = little(16);
        b.putShort((short) tag).putShort((short) channels).putInt(8000);
        b.putInt(8000 * bytesPerFrame).putShort((short) bytesPerFrame).putShort((short) bits);
        return b;
    }

    private static ByteBuffer little(int bytes) {
        return ByteBuffer.allocate(bytes).order(ByteOrder.LITTLE_ENDIAN);
    }

    private static void chunk(ByteArrayOutputStream out, String tag, ByteBuffer body)
            throws IOException {
        byte[] bytes = new byte[body.position()];
        body.flip().get(bytes);
        chunk(out, tag, bytes);
    }

    private static void chunk(ByteArrayOutputStream out, String tag, byte[] body)
            throws IOException {
        out.write(tag.getBytes(StandardCharsets.US_ASCII));
        out.write(little(4).putInt(body.length).array());
        out.write(body);
        if (body.length % 2 != 0) {
            out.write(0);
        }
    }

    private Path riff(String name, ByteArrayOutputStream chunks) throws IOException {
        ByteArrayOutputStream out = new ByteArrayOutputStream();
        out.write("RIFF".getBytes(StandardCharsets.US_ASCII));
        out.write(little(4).putInt(4 + chunks.size()).array());
        out.write("WAVE".getBytes(StandardCharsets.US_ASCII));
        out.write(chunks.toByteArray());
        return Files.write(dir.resolve(name), out.toByteArray());
    }
}

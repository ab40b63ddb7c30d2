package tickover.wire;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.charset.StandardCharsets;
import java.util.List;
import java.util.SplittableRandom;
import org.junit.jupiter.api.Test;
import tickover.dsp.AllocationMeter;

class TextDecoderTest {
    private final TextDecoder decoder = new TextDecoder();
    private final HeardFrames heard = new HeardFrames();

    private static byte[] bytes(String text) {
        return text.getBytes(StandardCharsets.UTF_8);
    }

    private static List<String> heardFrom(TextDecoder decoder, String text) {
        HeardFrames heard = new HeardFrames();
        decoder.feed(bytes(text), 0, bytes(text).length, heard);
        return heard.lines;
    }

    private static TextLayout layoutOf(String header) {
        return TextHeader.parse(header).orElseThrow(() -> new AssertionError(header)).layout;
    }

    @Test
    void readsLinesUnderAHeader() {
        String text =
                "t_us,ax,ay,az\r\n# warm\r\n100,0.5,-1.25,9.81\n200,1e-3,+2E2,.5\r300,1,2,3\n\r\n";
        decoder.feed(bytes(text), 0, text.length(), heard);
        assertEquals(
                List.of(
                        layoutOf("t_us,ax,ay,az").toString(),
                        "line @100 0.5,-1.25,9.81",
                        "line @200 0.001,200.0,0.5",
                        "line @300 1.0,2.0,3.0"),
                heard.lines);
        assertEquals(new ByteTally(text.length(), text.length(), 0, 0), decoder.tally());
    }

    @Test
    void understandsTheWordsOfHobbyBoards() {
        assertEquals(TextUnit.UNKNOWN, layoutOf("t_us,ax,ay,az").unit());
        assertEquals(TextUnit.G, layoutOf("micros;ax_g;ay_g;az_g").unit());
        assertEquals(TextUnit.MILLI_G, layoutOf("millis\tacc_x_mg\tacc_y_mg").unit());
        assertEquals(TextUnit.MPS2, layoutOf("time_us, x (m/s^2), y (m/s^2), z (m/s^2)").unit());
        assertEquals(TextUnit.MPS2, layoutOf("Time (ms),Accel_X [m/s²]").unit());
        assertEquals(TextUnit.MPS2, layoutOf("t_s ax_mps2 ay_mps2").unit());
        assertEquals(TextUnit.COUNTS, layoutOf("us,x_raw,y_raw,z_raw").unit());
        assertEquals(List.of("a"), layoutOf("ms a").axes());
        assertEquals(List.of("z", "x"), layoutOf("t_ms,accz,gyro_x,accx").axes());
        TextLayout all = layoutOf("t_us,a_g,rpm,pulse_us");
        assertTrue(all.hasRpm() && all.hasPulse());
        assertTrue(layoutOf("t_us,a,tach_us").hasPulse());
    }

    @Test
    void refusesHeadersThatLeaveSomethingOpen() {
        for (String bad :
                List.of(
                        "time,ax,ay,az", // no unit of time
                        "ax,ay,az",
                        "t_us,temp",
                        "t_us,ax_g,ay_mg", // two units
                        "t_us,ax,x", // one axis twice
                        "t_us,ax_furlong",
                        "hello world")) {
            assertTrue(TextHeader.parse(bad).isEmpty(), bad);
        }
        assertThrows(IllegalArgumentException.class, () -> TextDecoder.withLayout("time,ax"));
    }

    @Test
    void timesComeInMicroseconds() {
        assertEquals("line @12345 1.0", heardFrom(new TextDecoder(), "t_ms,a\n12.345,1\n").get(1));
        assertEquals("line @1500000 1.0", heardFrom(new TextDecoder(), "t_s,a\n1.5,1\n").get(1));
        assertEquals(
                "line @4294967295 1.0",
                heardFrom(new TextDecoder(), "micros,a\n4294967295,1\n").get(1));
    }

    @Test
    void speedAndPulseMayBeMissingFromALine() {
        assertEquals(
                List.of("line @1 2.0 rpm 799.5 pulse 77", "line @2 2.0"),
                heardFrom(new TextDecoder(), "t_us,a,rpm,pulse_us\n1,2,799.5,77\n2,2,,\n")
                        .subList(1, 3));
    }

    @Test
    void rejectsBadLinesWithTheirBytes() {
        String bad = "1,2|1,2,3,4|1,2,x|1,,3|1,nan,3|-1,2,3|1,2,1e999|1,2,3.4.5|1,2,3e|boot ok";
        String text = "t_us,ax,ay|" + bad + "|1,2,3|";
        List<String> lines = heardFrom(new TextDecoder(), text.replace('|', '\n'));
        assertEquals(
                List.of(
                        "rejected BAD_LINE 4",
                        "rejected BAD_LINE 8",
                        "rejected BAD_LINE 6",
                        "rejected BAD_LINE 5",
                        "rejected BAD_LINE 8",
                        "rejected BAD_LINE 7",
                        "rejected BAD_LINE 10",
                        "rejected BAD_LINE 10",
                        "rejected BAD_LINE 7",
                        "rejected BAD_LINE 8",
                        "line @1 2.0,3.0"),
                lines.subList(1, lines.size()));
    }

    @Test
    void rejectsTooLongLinesAndResumes() {
        String text = "t_us,a\n" + "7".repeat(600) + "\n1,2\n";
        decoder.feed(bytes(text), 0, text.length(), heard);
        assertEquals(
                List.of(
                        "rejected TOO_LONG 256",
                        "rejected TOO_LONG 256",
                        "rejected TOO_LONG 89",
                        "line @1 2.0"),
                heard.lines.subList(1, 5));
    }

    @Test
    void boardThatStartsAgainSaysItsColumnsAgain() {
        assertEquals(
                List.of(
                        layoutOf("t_us,a").toString(),
                        "line @1 2.0",
                        layoutOf("t_ms,a_g").toString(),
                        "line @3000 4.0"),
                heardFrom(new TextDecoder(), "t_us,a\n1,2\nt_ms,a_g\n3,4\n"));
    }

    /** A number that lost its first digits is still a number, and seconds are the end of µs. */
    @Test
    void firstLineIsNotTrustedForItMayBeCut() {
        assertEquals(
                List.of("rejected BAD_LINE 5", layoutOf("t_us,a").toString(), "line @1200 1.0"),
                heardFrom(TextDecoder.withLayout("t_us,a"), "00,1\n1200,1\n"));
        assertEquals(List.of("rejected BAD_LINE 4"), heardFrom(new TextDecoder(), "s,a\n"));
        assertEquals(List.of(layoutOf("s,a").toString()), heardFrom(new TextDecoder(), "\ns,a\n"));
        decoder.feed(bytes("t_us,a\n1,2\n34"), 0, 13, heard);
        decoder.reset();
        decoder.feed(bytes("56,1\n57,1\n"), 0, 10, heard);
        assertEquals(List.of("rejected BAD_LINE 5", "line @57 1.0"), heard.lines.subList(2, 4));
        assertEquals(new ByteTally(23, 16, 7, 0), decoder.tally());
    }

    @Test
    void numbersAreTheNearestDoubles() {
        SplittableRandom random = new SplittableRandom(31);
        TextNumber number = new TextNumber();
        for (int i = 0; i < 200_000; i++) {
            double v = Double.longBitsToDouble(random.nextLong());
            String text =
                    switch (i % 3) {
                        case 0 -> Double.isFinite(v) ? Double.toString(v) : "0";
                        case 1 -> Long.toString(random.nextLong() >> random.nextInt(64));
                        default -> random.nextInt(-99999, 99999) + "." + random.nextInt(1 << 30);
                    };
            byte[] b = bytes(text);
            assertTrue(number.read(b, 0, b.length), text);
            assertEquals(Double.parseDouble(text), number.value, text);
        }
    }

    @Test
    void cuttingElsewhereChangesNothingAndEveryByteIsAccountedFor() {
        SplittableRandom random = new SplittableRandom(32);
        byte[] alphabet = bytes("0123456789,,,..--eE \r\n\n#x");
        for (int round = 0; round < 300; round++) {
            byte[] head = bytes("junk\nt_us,ax,ay\n");
            byte[] stream = new byte[3000];
            for (int i = 0; i < stream.length; i++) {
                stream[i] =
                        round % 3 == 0
                                ? (byte) random.nextInt(256)
                                : alphabet[random.nextInt(alphabet.length)];
            }
            System.arraycopy(head, 0, stream, 0, head.length);
            HeardFrames whole = new HeardFrames();
            TextDecoder once = new TextDecoder();
            once.feed(stream, 0, stream.length, whole);
            HeardFrames cut = new HeardFrames();
            TextDecoder parts = new TextDecoder();
            int at = 0;
            while (at < stream.length) {
                int n = Math.min(stream.length - at, random.nextInt(90));
                parts.feed(stream, at, n, cut);
                at += n;
                assertEquals(at, parts.tally().in());
                assertTrue(parts.tally().pending() < TextDecoder.MOST_LINE_BYTES);
            }
            assertEquals(whole.lines, cut.lines);
            assertEquals(once.tally(), parts.tally());
        }
    }

    @Test
    void linesAreReadWithoutAllocation() {
        byte[] lines = bytes("1000,0.5,-1.25,9.81,812.5,900\n2000,1e-3,2,3,,\n".repeat(20));
        TextDecoder warm = TextDecoder.withLayout("t_us,ax,ay,az,rpm,pulse_us");
        SummingSink sink = new SummingSink();
        assertEquals(0, AllocationMeter.bytesOf(() -> warm.feed(lines, 0, lines.length, sink)));
        assertEquals(1, sink.rejections); // the first line of all
    }
}

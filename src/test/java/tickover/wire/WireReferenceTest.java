package tickover.wire;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.HexFormat;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;

/** The frames that {@code firmware-protocol/vectors} spells out, made by a program of its own. */
class WireReferenceTest {
    private static final Path VECTORS = Path.of("firmware-protocol", "vectors");

    @Test
    void readsEveryVectorAsItsFieldsSay() throws IOException {
        List<Map<String, String>> frames = cases("good.txt", "frame");
        assertTrue(frames.size() >= 40, "frames " + frames.size());
        for (Map<String, String> frame : frames) {
            byte[] wire = bytes(frame);
            HeardFrames heard = new HeardFrames();
            FrameDecoder decoder = new FrameDecoder();
            decoder.feed(wire, 0, wire.length, heard);
            assertEquals(List.of(meant(frame)), heard.lines, frame.get("frame"));
            assertEquals(new ByteTally(wire.length, wire.length, 0, 0), decoder.tally());
        }
    }

    @Test
    void writesEveryVectorOfThisVersion() throws IOException {
        int written = 0;
        for (Map<String, String> frame : cases("good.txt", "frame")) {
            boolean later =
                    frame.containsKey("extra")
                            || number(frame, "sensor") > 3
                            || (number(frame, "format") & 0b0111_1000) != 0;
            if (!later) {
                assertArrayEquals(bytes(frame), write(frame), frame.get("frame"));
                written++;
            }
        }
        assertTrue(written >= 35, "frames " + written);
    }

    @Test
    void rejectsEveryBadVectorForItsReason() throws IOException {
        List<Map<String, String>> bad = cases("bad.txt", "bad");
        assertTrue(bad.size() >= 10, "cases " + bad.size());
        for (Map<String, String> one : bad) {
            byte[] wire = bytes(one);
            SummingSink sums = new SummingSink();
            HeardFrames heard = new HeardFrames();
            new FrameDecoder().feed(wire, 0, wire.length, sums);
            new FrameDecoder().feed(wire, 0, wire.length, heard);
            assertEquals(number(one, "rejected"), sums.rejectedBytes, one.get("bad"));
            assertEquals(0, sums.frames, one.get("bad"));
            String reason = "rejected " + one.get("reason") + " ";
            assertTrue(heard.lines.get(0).startsWith(reason), one.get("bad") + heard.lines);
        }
    }

    /** What the recording sink writes down for the fields of a vector. */
    private static String meant(Map<String, String> f) {
        int format = (int) number(f, "format");
        return switch (f.get("kind")) {
            case "hello" -> hello(f).toString();
            case "samples" ->
                    "samples "
                            + f.get("number")
                            + " @"
                            + f.get("tick")
                            + ((format & 4) != 0 ? " 24" : " 16")
                            + ((format & 0x80) != 0 ? " limit" : "")
                            + grouped(f.get("values"), format & 3);
            case "tach" ->
                    "tach "
                            + f.get("number")
                            + " missed "
                            + f.get("missed")
                            + " "
                            + f.get("values");
            case "button" -> button(f).toString();
            case "status" -> status(f).toString();
            case "pong" -> pong(f).toString();
            case "answer" -> answer(f).toString();
            default -> {
                String body = f.get("body");
                int payload = (body.length() + 1) / 3 - 1;
                yield "unknown " + Integer.decode(f.get("type")) + " " + payload;
            }
        };
    }

    private static byte[] write(Map<String, String> f) {
        FrameWriter w = new FrameWriter();
        int format = (int) number(f, "format");
        long[] values = longs(f.getOrDefault("values", ""));
        switch (f.get("kind")) {
            case "hello" -> w.hello(hello(f));
            case "samples" ->
                    w.samples(
                            number(f, "number"),
                            number(f, "tick"),
                            format & 3,
                            (format & 4) != 0 ? 24 : 16,
                            (format & 0x80) != 0,
                            Arrays.stream(values).mapToInt(Math::toIntExact).toArray(),
                            0,
                            (int) number(f, "count"));
            case "tach" ->
                    w.tach(
                            (int) number(f, "number"),
                            (int) number(f, "missed"),
                            values,
                            0,
                            values.length);
            case "button" -> w.button(button(f));
            case "status" -> w.status(status(f));
            case "pong" -> w.pong(pong(f));
            case "answer" -> w.answer(answer(f));
            case "ping" -> w.ping(number(f, "id"));
            case "identify" -> w.identify();
            case "start" -> w.start();
            case "stop" -> w.stop();
            case "rate" -> w.rate(number(f, "num"), number(f, "den"));
            default -> {
                byte[] body = HexFormat.ofDelimiter(" ").parseHex(f.get("body"));
                w.frame(body[0] & 0xFF, Arrays.copyOfRange(body, 1, body.length));
            }
        }
        return w.take();
    }

    private static Hello hello(Map<String, String> f) {
        long features = number(f, "features");
        return new Hello(
                (int) number(f, "major"),
                (int) number(f, "minor"),
                number(f, "device"),
                (int) number(f, "boot"),
                SensorKind.of((int) number(f, "sensor")),
                (int) number(f, "axes"),
                (int) number(f, "bits"),
                (int) number(f, "resolution"),
                number(f, "fullScale") / 10_000.0,
                number(f, "rateNum"),
                number(f, "rateDen"),
                number(f, "tickHz"),
                (int) number(f, "bandwidth"),
                (features & 1) != 0,
                (features & 2) != 0,
                (features & 4) != 0,
                f.get("name"));
    }

    private static ButtonEvent button(Map<String, String> f) {
        return new ButtonEvent(
                number(f, "tick"),
                (int) number(f, "button"),
                number(f, "down") == 1,
                (int) number(f, "presses"));
    }

    private static ProbeStatus status(Map<String, String> f) {
        return new ProbeStatus(
                number(f, "tick"),
                number(f, "dropped"),
                (int) number(f, "badCommands"),
                (int) number(f, "temperature"),
                (int) number(f, "supply"));
    }

    private static Pong pong(Map<String, String> f) {
        return new Pong(number(f, "id"), number(f, "received"), number(f, "sent"));
    }

    private static CommandAnswer answer(Map<String, String> f) {
        return new CommandAnswer((int) number(f, "command"), (int) number(f, "result"));
    }

    private static String grouped(String values, int axes) {
        long[] all = longs(values);
        var text = new StringBuilder();
        for (int i = 0; i < all.length; i++) {
            text.append(i % axes == 0 ? " " : ",").append(all[i]);
        }
        return text.toString();
    }

    private static long[] longs(String values) {
        return values.isEmpty()
                ? new long[0]
                : Arrays.stream(values.split(" ", -1)).mapToLong(Long::parseLong).toArray();
    }

    private static long number(Map<String, String> f, String key) {
        return Long.parseLong(f.getOrDefault(key, "0"));
    }

    private static byte[] bytes(Map<String, String> f) {
        return HexFormat.ofDelimiter(" ").parseHex(f.get("wire"));
    }

    private static List<Map<String, String>> cases(String file, String first) throws IOException {
        List<Map<String, String>> cases = new ArrayList<>();
        Map<String, String> one = new LinkedHashMap<>();
        for (String line : Files.readAllLines(VECTORS.resolve(file))) {
            int blank = line.indexOf(' ');
            if (line.isEmpty() || line.startsWith("#")) {
                continue;
            }
            String key = blank < 0 ? line : line.substring(0, blank);
            if (key.equals(first)) {
                one = new LinkedHashMap<>();
                cases.add(one);
            }
            one.put(key, blank < 0 ? "" : line.substring(blank + 1));
        }
        return cases;
    }
}

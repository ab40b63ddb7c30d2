package tickover.cli;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.google.gson.JsonArray;
import com.google.gson.JsonElement;
import com.google.gson.JsonObject;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Set;
import java.util.stream.StreamSupport;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.TestInstance;
import org.junit.jupiter.api.io.TempDir;
import tickover.session.SimulatedFolders;
import tickover.sim.LibraryPool;

/** The verbs on the library pool's visits, through the command line alone. */
@TestInstance(TestInstance.Lifecycle.PER_CLASS)
class JobTest {
    private static final String TODAY_ID = "5d3c0f8e-6a1b-4c52-9f0e-0a7e5b1c0702";
    private static final String AFTER_ID = "5d3c0f8e-6a1b-4c52-9f0e-0a7e5b1c0703";

    @TempDir private static Path folder;
    private Path data;
    private Path today;
    private Path after;

    @BeforeAll
    void importsTwoVisits() {
        data = folder.resolve("data");
        today = folder.resolve("today");
        after = folder.resolve("after");
        SimulatedFolders.write(LibraryPool.complaint(), today);
        SimulatedFolders.write(LibraryPool.afterRepair(), after);
        CommandRun run = CommandRun.in(data, "import", today.toString(), after.toString());
        assertEquals(0, run.exitCode(), run.err());
    }

    @Test
    void findingsAnswerAsTheFormatDescribes() {
        JsonObject answer = findings(TODAY_ID);
        assertTrue(
                Set.of("component", "none", "unclear")
                        .contains(answer.get("verdict").getAsString()));
        JsonArray candidates = answer.getAsJsonArray("candidates");
        JsonObject first = candidates.get(0).getAsJsonObject();
        for (String key : Set.of("component", "fault", "probability")) {
            assertEquals(first.get(key), answer.get(key), key);
        }
        double sum = 0;
        boolean none = false;
        double last = 1;
        for (JsonElement element : candidates) {
            JsonObject c = element.getAsJsonObject();
            double p = c.get("probability").getAsDouble();
            assertTrue(p <= last, "most probable first");
            last = p;
            sum += p;
            none |= c.get("component").getAsString().equals("none");
            for (JsonElement e : c.getAsJsonArray("evidence")) {
                assertEquals(Set.of("kind", "text", "strengthDb"), e.getAsJsonObject().keySet());
            }
        }
        double roundOff = 1e-9;
        assertEquals(1, sum, roundOff);
        assertTrue(none);
        if (answer.has("nextTest")) {
            assertEquals(
                    Set.of("kind", "text", "minutes", "expectedGainBits", "risk"),
                    answer.getAsJsonObject("nextTest").keySet());
            assertEquals(
                    answer.getAsJsonArray("nextTests").get(0), answer.getAsJsonObject("nextTest"));
        }
        assertTrue(answer.get("quality").isJsonArray());
    }

    @Test
    void storedVisitAndItsFolderSayTheSame() {
        assertEquals(findings(TODAY_ID), findings(today.toString()));
        assertEquals(findings(TODAY_ID), findings(TODAY_ID), "the saved result");
    }

    private JsonObject findings(String visit) {
        CommandRun run = CommandRun.in(data, "findings", visit, "--json");
        assertEquals(0, run.exitCode(), run.err());
        return run.json().getAsJsonObject();
    }

    @Test
    void textSaysWhoHowSureWhyAndWhatNext() {
        String text = CommandRun.in(data, "findings", TODAY_ID).out();
        assertTrue(text.startsWith("ML-07, 14 October 2026"), text);
        assertTrue(text.contains("How sure that"), text);
        assertTrue(text.contains("Why the "), text);
        if (text.contains("What to do next")) {
            assertTrue(text.contains("! Caution before starting the engine:"), text);
            assertTrue(text.contains("maker's service information"), text);
        }
    }

    /** The simulator took the worn bearing out: its knocks must be gone, the engine must not. */
    @Test
    void compareProvesTheRepair() {
        CommandRun run = CommandRun.in(data, "compare", TODAY_ID, AFTER_ID, "--json");
        assertEquals(0, run.exitCode(), run.err());
        JsonArray changes = run.json().getAsJsonObject().getAsJsonArray("changes");
        JsonObject idler = part(changes, "idler");
        assertTrue(idler.get("coversTouches").getAsBoolean());
        double tenth = -20;
        assertTrue(idler.get("highDb").getAsDouble() < tenth / 2, idler.toString());
        assertTrue(idler.get("changeDb").getAsDouble() < tenth, idler.toString());
        double louderByATouch = 6;
        assertTrue(
                Math.abs(part(changes, "engine").get("changeDb").getAsDouble()) < louderByATouch,
                changes.toString());
    }

    private static JsonObject part(JsonArray changes, String part) {
        return StreamSupport.stream(changes.spliterator(), false)
                .map(JsonElement::getAsJsonObject)
                .filter(c -> c.get("part").getAsString().equals(part))
                .findFirst()
                .orElseThrow();
    }

    @Test
    void comparingNothingAlikeAnswersNo() {
        CommandRun mixed = CommandRun.in(data, "compare", TODAY_ID, AFTER_ID + "#c01");
        assertEquals(2, mixed.exitCode());
        assertTrue(mixed.err().contains("name two of one sort"), mixed.err());
    }

    @Test
    void trendStringsVisitsTogether() {
        CommandRun run = CommandRun.in(data, "trend", "ML-07", "idler", "--json");
        assertEquals(0, run.exitCode(), run.err());
        JsonObject series =
                run.json().getAsJsonObject().getAsJsonArray("series").get(0).getAsJsonObject();
        assertEquals("idler", series.get("point").getAsString());
        JsonArray levels = series.getAsJsonArray("levels");
        assertEquals(2, levels.size());
        double gone = -20;
        assertTrue(series.get("changeDb").getAsDouble() < gone, series.toString());
        assertFalse(series.has("limitDb"), "one earlier visit says nothing of scatter");
        assertEquals(TODAY_ID, levels.get(0).getAsJsonObject().get("visit").getAsString());
        assertEquals(1, CommandRun.in(data, "trend", "ML-07", "gearbox").exitCode());
        assertEquals(1, CommandRun.in(data, "trend", "ML-99", "idler").exitCode());
    }

    @Test
    void visitsListsWhatIsThere() {
        JsonArray all = CommandRun.in(data, "visits", "--json").json().getAsJsonArray();
        assertEquals(2, all.size());
        assertEquals("ML-07", all.get(0).getAsJsonObject().get("unit").getAsString());
        assertEquals(
                0, CommandRun.in(data, "visits", "ML-99", "--json").json().getAsJsonArray().size());
    }

    @Test
    void importingAgainChangesNothing() {
        CommandRun run = CommandRun.in(data, "import", today.toString(), "--json");
        JsonObject taken = run.json().getAsJsonArray().get(0).getAsJsonObject();
        assertFalse(taken.get("isNew").getAsBoolean());
        assertEquals(TODAY_ID, taken.get("visit").getAsString());
    }

    @Test
    void exportGivesBackEveryByte() throws IOException {
        Path copy = folder.resolve("copy");
        CommandRun run = CommandRun.in(data, "export", TODAY_ID, copy.toString());
        assertEquals(0, run.exitCode(), run.err());
        for (String name : Set.of("visit.toml", "vehicle.toml", "c01.wav", "c01.tach.csv")) {
            assertEquals(-1, Files.mismatch(today.resolve(name), copy.resolve(name)), name);
        }
        CommandRun again = CommandRun.in(data, "export", TODAY_ID, copy.toString());
        assertEquals(2, again.exitCode(), again.err());
    }

    @Test
    void firstCharactersOfAnIdWillDoUnlessTwoVisitsShareThem() {
        CommandRun both = CommandRun.in(data, "findings", TODAY_ID.substring(0, 20));
        assertEquals(2, both.exitCode());
        assertTrue(both.err().contains("begins the ids of 2 visits"), both.err());
        CommandRun none = CommandRun.in(data, "findings", "ffff0000");
        assertEquals(2, none.exitCode());
        assertTrue(
                none.err().contains("neither a folder, a recording (.tkr) nor the id"), none.err());
    }

    @Test
    void ordersAnswerAsTheFormatDescribes() {
        CommandRun run =
                CommandRun.in(data, "orders", today + "#c02", "--orders", "1,2,2.5", "--json");
        assertEquals(0, run.exitCode(), run.err());
        JsonArray lines = run.json().getAsJsonArray();
        assertEquals(3, lines.size());
        for (JsonElement e : lines) {
            JsonObject line = e.getAsJsonObject();
            for (String key : Set.of("order", "rmsMps2", "standardError", "phaseDeg")) {
                assertTrue(line.get(key).isJsonPrimitive(), key);
            }
        }
        assertEquals(2.5, lines.get(2).getAsJsonObject().get("order").getAsDouble());
        assertEquals(
                lines,
                CommandRun.in(data, "orders", TODAY_ID + "#c02", "--orders", "1,2,2.5", "--json")
                        .json());
    }

    /** The average over a pulley's turns and the lines of the same orders are two measurements. */
    @Test
    void averageOfAPartAgreesWithItsOrders() {
        String capture = today + "#c02";
        CommandRun run = CommandRun.in(data, "orders", capture, "--part", "idler", "--json");
        assertEquals(0, run.exitCode(), run.err());
        JsonObject answer = run.json().getAsJsonObject();
        assertEquals(0, answer.getAsJsonArray("notHeard").size());
        JsonArray parts = answer.getAsJsonArray("parts");
        assertEquals("engine", parts.get(0).getAsJsonObject().get("part").getAsString());
        JsonObject idler = parts.get(1).getAsJsonObject();
        double turns = idler.get("turnsPerCrankTurn").getAsDouble();
        double bySize = idler.get("turnsPerCrankTurnBySize").getAsDouble();
        double slip = 0.02;
        assertEquals(1, turns / bySize, slip);
        JsonObject first = idler.getAsJsonArray("harmonics").get(0).getAsJsonObject();
        JsonObject line =
                CommandRun.in(data, "orders", capture, "--orders", turns + "", "--json")
                        .json()
                        .getAsJsonArray()
                        .get(0)
                        .getAsJsonObject();
        double threeSigma =
                3
                        * Math.hypot(
                                first.get("chanceRmsMps2").getAsDouble(),
                                line.get("standardError").getAsDouble());
        double levelMps2 = line.get("rmsMps2").getAsDouble();
        assertEquals(levelMps2, first.get("rmsMps2").getAsDouble(), threeSigma);
        assertTrue(levelMps2 > threeSigma, "too weak to compare: " + levelMps2);
        String text = CommandRun.in(data, "orders", capture, "--part", "idler").out();
        assertTrue(text.contains("Turns per crank turn"), text);
        assertTrue(text.contains("m/s² rms remain."), text);
        CommandRun none = CommandRun.in(data, "orders", capture, "--part", "flywheel");
        assertEquals(2, none.exitCode());
        assertTrue(none.err().contains("no pulley 'flywheel'; it has crank"), none.err());
        CommandRun both =
                CommandRun.in(data, "orders", capture, "--part", "idler", "--orders", "1");
        assertEquals(2, both.exitCode());
        assertTrue(both.err().contains("either --orders"), both.err());
    }

    @Test
    void ordersTellWhatBecameOfRipple() {
        CommandRun run =
                CommandRun.in(data, "orders", today + "#c02", "--orders", "2", "--ripple", "out");
        assertEquals(0, run.exitCode(), run.err());
        assertTrue(run.out().contains("ipple"), run.out());
        CommandRun wrong =
                CommandRun.in(data, "orders", today + "#c02", "--orders", "2", "--ripple", "up");
        assertEquals(2, wrong.exitCode());
    }

    @Test
    void ordersRefuseWhatTheRecordCannotShow() {
        CommandRun high = CommandRun.in(data, "orders", today + "#c02", "--orders", "1,100000");
        assertEquals(2, high.exitCode());
        assertTrue(high.err().contains("order=100000.0, need above 0"), high.err());
        CommandRun axis =
                CommandRun.in(data, "orders", today + "#c02", "--orders", "1", "--axis", "z");
        assertEquals(2, axis.exitCode());
        CommandRun capture = CommandRun.in(data, "orders", today + "#c99", "--orders", "1");
        assertEquals(2, capture.exitCode());
        assertTrue(capture.err().contains("has no capture c99; it has c01"), capture.err());
    }

    @Test
    void waterfallCsvHasTimeSpeedAndOneColumnPerOrder() {
        CommandRun run =
                CommandRun.in(data, "waterfall", today + "#c02", "--max-order", "12", "--csv", "-");
        assertEquals(0, run.exitCode(), run.err());
        String[] lines = run.out().split("\r\n", -1);
        String[] head = lines[0].split(",", -1);
        assertEquals("time_s", head[0]);
        assertEquals("rpm", head[1]);
        assertEquals("0", head[2]);
        assertEquals("12", head[head.length - 1]);
        for (int i = 1; i < lines.length - 1; i++) {
            String[] cells = lines[i].split(",", -1);
            assertEquals(head.length, cells.length);
            double rpm = Double.parseDouble(cells[1]);
            assertTrue(rpm > 700 && rpm < 860, "idle speed, " + rpm);
        }
    }

    /**
     * The same bin by every scale: peak is root two times rms, power its square, over 1.5/turns.
     */
    @Test
    void waterfallScalesValuesAsAsked() {
        double rms = secondBin("rms");
        double printed = 1e-5; // six digits
        assertEquals(Math.sqrt(2), secondBin("peak") / rms, printed);
        assertEquals(1, secondBin("power") / (rms * rms), 3 * printed);
        assertEquals(8 / 1.5, secondBin("density") / (rms * rms), 8 / 1.5 * 3 * printed);
        JsonObject json =
                CommandRun.in(data, "waterfall", today + "#c02", "--scale", "density", "--json")
                        .json()
                        .getAsJsonObject();
        JsonObject frame = json.getAsJsonArray("frames").get(0).getAsJsonObject();
        assertTrue(frame.has("powerMps2SquaredPerOrder"), frame.keySet().toString());
    }

    private double secondBin(String scale) {
        CommandRun run =
                CommandRun.in(
                        data,
                        "waterfall",
                        today + "#c02",
                        "--turns",
                        "8",
                        "--scale",
                        scale,
                        "--csv",
                        "-");
        assertEquals(0, run.exitCode(), run.err());
        return Double.parseDouble(run.out().split("\r\n", -1)[1].split(",", -1)[4]);
    }

    @Test
    void waterfallWithoutAFileIsBadUsage() {
        assertEquals(2, CommandRun.in(data, "waterfall", today + "#c02").exitCode());
    }

    @Test
    void reportIsOneFileThatAsksNothingOfTheNetwork() throws IOException {
        Path page = folder.resolve("page.html");
        CommandRun run = CommandRun.in(data, "report", AFTER_ID, "-o", page.toString());
        assertEquals(0, run.exitCode(), run.err());
        String html = Files.readString(page);
        assertTrue(html.contains("Against an earlier visit"), "the visit before it");
        assertTrue(html.contains("default-src 'none'"));
        assertFalse(html.matches("(?s).*(src|href)=\"(?!data:|#)[^\"]*//.*"), "outside address");
        assertTrue(html.contains("data:image/png;base64,"));
    }

    @Test
    void importRefusesABadFolderInOneSentenceAndStoresNothing() throws IOException {
        Path bad = folder.resolve("bad");
        CommandRun.in(data, "export", AFTER_ID, bad.toString());
        Path visit = bad.resolve("visit.toml");
        Files.writeString(visit, Files.readString(visit).replace("c01.wav", "c77.wav"));
        Path other = folder.resolve("other-data");
        CommandRun run = CommandRun.in(other, "import", bad.toString(), "--json");
        assertEquals(2, run.exitCode());
        assertEquals("", run.out());
        assertEquals(1, run.err().lines().count(), run.err());
        assertTrue(run.err().contains("c77.wav"), run.err());
        assertEquals(0, CommandRun.in(other, "visits", "--json").json().getAsJsonArray().size());
    }
}

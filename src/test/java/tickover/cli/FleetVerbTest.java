package tickover.cli;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.google.gson.JsonArray;
import com.google.gson.JsonElement;
import com.google.gson.JsonObject;
import com.google.gson.JsonParser;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import tickover.session.FleetStudy;
import tickover.store.LogPlace;

/** The verbs over visits, on a small fleet of simulated levels; the first vehicle wears. */
class FleetVerbTest {
    private static final int VEHICLES = 6;
    private static final int VISITS_EACH = 10;

    @TempDir private Path data;

    @BeforeEach
    void fillLog() {
        FleetStudy.fill(LogPlace.folder(data), VEHICLES, VISITS_EACH);
    }

    private CommandRun run(String... args) {
        CommandRun run = CommandRun.in(data, args);
        assertEquals(0, run.exitCode(), run.err());
        return run;
    }

    private JsonArray fleet(String... more) {
        String[] args = new String[more.length + 2];
        args[0] = "fleet";
        args[1] = "--json";
        System.arraycopy(more, 0, args, 2, more.length);
        return run(args).json().getAsJsonObject().getAsJsonArray("vehicles");
    }

    @Test
    void wornVehicleComesFirstWithItsReason() {
        JsonArray all = fleet();
        assertEquals(VEHICLES, all.size());
        JsonObject first = all.get(0).getAsJsonObject();
        assertEquals("ML-00000", first.get("unit").getAsString());
        assertEquals(2, first.get("urgency").getAsInt());
        JsonObject reason = first.getAsJsonArray("reasons").get(0).getAsJsonObject();
        assertEquals("rise", reason.get("kind").getAsString());
        assertEquals("crank", reason.get("part").getAsString());
        assertEquals("crank", reason.get("role").getAsString());
        assertTrue(reason.get("chance").getAsDouble() < 0.05, reason.toString());
        String text = run("fleet").out();
        assertTrue(text.startsWith("6 vehicles, 60 visits"), text);
        assertTrue(text.contains("crank is louder: +"), text);
    }

    @Test
    void filtersLeaveWhatTheySay() {
        assertEquals(1, fleet("ML-00003").size());
        assertEquals(0, fleet("--part", "gearbox").size());
        for (JsonElement e : fleet("--role", "crank")) {
            assertTrue(e.toString().contains("\"role\":\"crank\""), e.toString());
        }
        for (JsonElement e : fleet("--attention")) {
            assertTrue(e.getAsJsonObject().get("urgency").getAsInt() > 0);
        }
        assertEquals(0, fleet("--since", "2099-01-01").size());
        assertEquals(VEHICLES, fleet("--since", "2016-01-04").size());
        CommandRun unknown = CommandRun.in(data, "fleet", "ML-99");
        assertEquals(2, unknown.exitCode());
        assertTrue(unknown.err().contains("no vehicle ML-99"), unknown.err());
    }

    /** A repair mark makes the wear a thing of the past, and asks for a visit to prove it. */
    @Test
    void repairIsMarkedAndTakenBack() {
        String last = fleet("ML-00000").get(0).getAsJsonObject().get("lastSeen").getAsString();
        JsonObject mark =
                run(
                                "repair",
                                "ML-00000",
                                "new damper, \"tight\"",
                                "--part",
                                "crank",
                                "--date",
                                last.substring(0, 10),
                                "--json")
                        .json()
                        .getAsJsonObject();
        JsonObject repaired = fleet("ML-00000").get(0).getAsJsonObject();
        assertTrue(repaired.toString().contains("unproven"), repaired.toString());
        assertFalse(
                repaired.toString().contains("\"part\":\"crank\",\"role\":\"crank\",\"chance\":0"));
        String trend = run("trend", "ML-00000", "crank").out();
        assertTrue(trend.contains("-- repair of the crank: new damper"), trend);
        assertTrue(trend.contains("There was no visit since the repair"), trend);
        assertTrue(run("repair", "ML-00000").out().contains("new damper"));
        run("repair", "--withdraw", mark.get("id").getAsString());
        assertEquals(0, run("repair", "--json").json().getAsJsonArray().size());
        assertEquals(2, fleet("ML-00000").get(0).getAsJsonObject().get("urgency").getAsInt());
        assertEquals(
                1,
                CommandRun.in(data, "repair", "--withdraw", mark.get("id").getAsString())
                        .exitCode());
    }

    @Test
    void misspeltPartsVehiclesAndDatesAreNamed() {
        CommandRun part = CommandRun.in(data, "repair", "ML-00000", "x", "--part", "idle");
        assertEquals(2, part.exitCode());
        assertTrue(part.err().contains("there are crank, "), part.err());
        CommandRun date = CommandRun.in(data, "repair", "ML-00000", "x", "--date", "yesterday");
        assertEquals(2, date.exitCode());
        assertTrue(date.err().contains("write a day such as"), date.err());
        CommandRun unit = CommandRun.in(data, "note", "ML-99", "x");
        assertEquals(2, unit.exitCode());
        assertTrue(unit.err().contains("'tickover vehicles'"), unit.err());
    }

    @Test
    void notesAreWrittenAndListed() {
        run("note", "ML-00002", "grinds when cold", "--part", "idler");
        JsonArray notes = run("note", "--json").json().getAsJsonArray();
        assertEquals("grinds when cold", notes.get(0).getAsJsonObject().get("text").getAsString());
        assertTrue(run("note", "ML-00002").out().contains("grinds when cold"));
        assertTrue(run("note", "ML-00001").out().startsWith("There is no note"));
        JsonObject vehicle =
                run("vehicles", "--json").json().getAsJsonArray().get(2).getAsJsonObject();
        assertEquals("ML-00002", vehicle.get("unit").getAsString());
        assertEquals(1, vehicle.get("notes").getAsInt());
        assertEquals(VISITS_EACH, vehicle.get("visits").getAsInt());
    }

    @Test
    void trendSaysHowFastAndWhen() {
        JsonObject answer =
                run("trend", "ML-00000", "crank", "--rise", "9", "--json").json().getAsJsonObject();
        JsonObject series = answer.getAsJsonArray("series").get(0).getAsJsonObject();
        assertTrue(series.get("needsAttention").getAsBoolean(), series.toString());
        assertTrue(series.get("dbPerYearLow").getAsDouble() > 0, series.toString());
        assertTrue(
                List.of("reached", "expected", "not-borne")
                        .contains(answer.getAsJsonObject("reach").get("answer").getAsString()));
        assertEquals(
                VEHICLES - 1,
                answer.getAsJsonObject("sisters").getAsJsonArray("units").size()
                        + answer.getAsJsonObject("sisters").getAsJsonArray("leftOut").size());
        String text = run("trend", "ML-00000", "crank").out();
        assertTrue(text.contains("Not mixed in, because something differs"), text);
        assertTrue(text.contains("--place 2: aircon on; 10 visits"), text);
        assertTrue(run("trend", "ML-00000").out().contains("! look"));
    }

    @Test
    void csvHasOneRowPerLevel() throws IOException {
        String csv = run("trend", "ML-00000", "crank", "--csv", "-").out();
        List<String> rows = csv.lines().toList();
        assertEquals(1 + 4 * VISITS_EACH, rows.size());
        assertTrue(rows.get(0).startsWith("unit,part,point,"), rows.get(0));
        Path file = data.resolve("fleet.csv");
        run("fleet", "--csv", file.toString());
        assertTrue(Files.readString(file).contains("ML-00005"));
        Path png = data.resolve("t.png");
        run("trend", "ML-00000", "crank", "--png", png.toString());
        assertTrue(Files.size(png) > 0);
    }

    @Test
    void everyTableGoesOut() throws IOException {
        List<String> names = run("table").out().lines().toList();
        assertTrue(names.containsAll(List.of("visit", "part_level", "repair", "note")), "" + names);
        String lines = run("table", "visit", "--lines").out();
        assertEquals(VEHICLES * VISITS_EACH, lines.lines().count());
        lines.lines()
                .forEach(l -> assertTrue(JsonParser.parseString(l).getAsJsonObject().has("id")));
        String csv = run("table", "part_level").out();
        assertEquals(1 + 48 * VEHICLES * VISITS_EACH, csv.lines().count());
        run("table", "--all", data.resolve("tables").toString());
        for (String name : names) {
            assertTrue(Files.exists(data.resolve("tables").resolve(name + ".csv")), name);
        }
        CommandRun unknown = CommandRun.in(data, "table", "visits");
        assertEquals(2, unknown.exitCode());
        assertTrue(unknown.err().contains("there are attention, "), unknown.err());
    }
}

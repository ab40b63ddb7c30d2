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
import java.util.stream.StreamSupport;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class DriveVerbTest {
    private static final double ROUND_OFF = 1e-12;

    /** 150 mm crank, 78.4 mm idler on the belt's back with a 6203-size bearing, no positions. */
    private static final String VEHICLE =
            """
            [vehicle]
            unit = "ML-07"
            description = "Mobile library <with a & in its name>"
            [engine]
            cylinders = 4
            idle_rpm = 780
            [[belts]]
            name = "main"
            path = ["crank", "idler", "alternator"]
            [[pulleys]]
            name = "crank"
            role = "crank"
            diameter_mm = 154.0
            face = "grooved"
            [[pulleys]]
            name = "idler"
            role = "idler"
            diameter_mm = 78.4
            face = "flat"
            [[pulleys.bearings]]
            balls = 8
            ball_diameter_mm = 6.747
            pitch_diameter_mm = 28.5
            rotating_ring = "outer"
            [[pulleys]]
            name = "alternator"
            role = "alternator"
            diameter_mm = 60.0
            face = "grooved"
            lines = [{ name = "slots", per_turn = 36 }]
            """;

    @TempDir private Path folder;

    private String vehicle() throws IOException {
        return Files.writeString(folder.resolve("vehicle.toml"), VEHICLE).toString();
    }

    @Test
    void answersPartsLinesAndDirections() throws IOException {
        CommandRun run = CommandRun.in(folder, "drive", vehicle(), "--json");
        assertEquals(0, run.exitCode(), run.err());
        JsonObject idler = part(run.json().getAsJsonObject(), "idler");
        double ratio = 154.0 / 78.4;
        assertEquals(ratio, idler.get("turnsPerCrankTurn").getAsDouble(), ROUND_OFF);
        assertEquals("counter", idler.get("direction").getAsString());
        assertEquals("idler", idler.get("role").getAsString());
        double g = 6.747 / 28.5;
        JsonObject outer = line(idler, "bearing-outer-ring");
        assertEquals(ratio * 4 * (1 - g), outer.get("order").getAsDouble(), 1e-9);
        // The outer ring turns, so a spot on it passes the load once per pulley turn.
        JsonArray sidebands = outer.getAsJsonArray("sidebandOrders");
        assertEquals(2, sidebands.size());
        assertEquals(
                ratio,
                outer.get("order").getAsDouble() - sidebands.get(0).getAsDouble(),
                ROUND_OFF * 10);
        assertEquals(
                36 * 154.0 / 60,
                line(part(run.json().getAsJsonObject(), "alternator"), "slots")
                        .get("order")
                        .getAsDouble(),
                1e-9);
    }

    @Test
    void leavesOutWhatCannotBeComputed() throws IOException {
        JsonObject answer =
                CommandRun.in(folder, "drive", vehicle(), "--json").json().getAsJsonObject();
        JsonObject belt = answer.getAsJsonArray("belts").get(0).getAsJsonObject();
        assertEquals("main", belt.get("name").getAsString());
        assertFalse(belt.has("lengthMm"));
        assertFalse(belt.has("order"));
        assertFalse(part(answer, "idler").has("wrapDeg"));
    }

    /** The idler's outer race beside the crank's sixth order. */
    @Test
    void namesLinesThatCannotBeToldApart() throws IOException {
        JsonArray collisions =
                CommandRun.in(folder, "drive", vehicle(), "--json")
                        .json()
                        .getAsJsonObject()
                        .getAsJsonArray("collisions");
        JsonObject six =
                StreamSupport.stream(collisions.spliterator(), false)
                        .map(JsonElement::getAsJsonObject)
                        .filter(c -> c.get("aLine").getAsString().equals("bearing-outer-ring"))
                        .filter(c -> Math.abs(c.get("orderB").getAsDouble() - 6) < ROUND_OFF)
                        .findFirst()
                        .orElseThrow();
        assertEquals("idler", six.get("a").getAsString());
        assertEquals(5.997, six.get("orderA").getAsDouble(), 5e-4);
        String text = CommandRun.in(folder, "drive", vehicle()).out();
        assertTrue(text.contains("cannot tell them apart"), text);
    }

    @Test
    void tableNamesUnits() throws IOException {
        String text = CommandRun.in(folder, "drive", vehicle()).out();
        assertTrue(text.contains("Turns per crank turn"), text);
        assertTrue(text.contains("At idle, Hz"), text);
        assertTrue(text.contains("against it"), text);
    }

    @Test
    void drawsTheFrontAsWellFormedSvg() throws Exception {
        Path svg = folder.resolve("front.svg");
        CommandRun run = CommandRun.in(folder, "drive", vehicle(), "--svg", svg.toString());
        assertEquals(0, run.exitCode(), run.err());
        assertTrue(run.err().contains("wrote " + svg), run.err());
        org.w3c.dom.Document document =
                javax.xml.parsers.DocumentBuilderFactory.newInstance()
                        .newDocumentBuilder()
                        .parse(svg.toFile());
        assertEquals("svg", document.getDocumentElement().getTagName());
        assertEquals(5, document.getElementsByTagName("circle").getLength());
    }

    @Test
    void namesFileAndKeyOfABadVehicle() throws IOException {
        Path bad =
                Files.writeString(folder.resolve("bad.toml"), VEHICLE.replace("= 78.4", "= -78.4"));
        CommandRun run = CommandRun.in(folder, "drive", bad.toString(), "--json");
        assertEquals(2, run.exitCode());
        assertEquals("", run.out());
        assertEquals(1, run.err().lines().count(), run.err());
        assertTrue(run.err().contains("bad.toml"), run.err());
        assertTrue(run.err().contains("diameter_mm"), run.err());
    }

    @Test
    void refusesAFolderThatDoesNotExistForTheDrawing() throws IOException {
        Path svg = folder.resolve("nowhere").resolve("front.svg");
        CommandRun run = CommandRun.in(folder, "drive", vehicle(), "--svg", svg.toString());
        assertEquals(2, run.exitCode());
        assertTrue(run.err().contains("does not exist"), run.err());
    }

    private static JsonObject part(JsonObject answer, String name) {
        return find(answer.getAsJsonArray("parts"), "name", name);
    }

    private static JsonObject line(JsonObject part, String kind) {
        return find(part.getAsJsonArray("lines"), "kind", kind);
    }

    private static JsonObject find(JsonArray array, String key, String value) {
        return StreamSupport.stream(array.spliterator(), false)
                .map(JsonElement::getAsJsonObject)
                .filter(o -> o.get(key).getAsString().equals(value))
                .findFirst()
                .orElseThrow();
    }
}

package tickover.cli;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.google.gson.JsonObject;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Figures over a whole capture name the stretches that findings leave out. */
class BadStretchesTest {
    @TempDir private Path folder;
    private Path data;
    private Path visit;

    /** A walk of two captures, in the second of which a knock was noted. */
    @BeforeEach
    void knock() throws IOException {
        data = folder.resolve("data");
        visit = folder.resolve("visit");
        Path walk = folder.resolve("walk.tkr");
        WalkRecording.write(walk);
        JsonObject taken =
                CommandRun.in(data, "import", "--json", walk.toString())
                        .json()
                        .getAsJsonArray()
                        .get(0)
                        .getAsJsonObject();
        CommandRun.in(data, "export", taken.get("visit").getAsString(), visit.toString());
        Files.writeString(
                visit.resolve("visit.toml"),
                "\n[[captures.quality]]\nproblem = \"knock\"\nfrom_s = 3.0\nto_s = 3.4\n",
                StandardOpenOption.APPEND);
    }

    private CommandRun run(String verb, String capture, String... more) {
        String[] arguments = new String[more.length + 2];
        arguments[0] = verb;
        arguments[1] = visit + "#" + capture;
        System.arraycopy(more, 0, arguments, 2, more.length);
        CommandRun run = CommandRun.in(data, arguments);
        assertEquals(0, run.exitCode(), run.err());
        return run;
    }

    @Test
    void ordersNameThem() {
        String text = run("orders", "c02", "--orders", "1,2").out().replace('\n', ' ');
        assertTrue(text.contains("3.0 to 3.4 s (knock"), text);
        assertFalse(run("orders", "c01", "--orders", "1,2").out().contains("bad stretches"));
        JsonObject line =
                run("orders", "c02", "--orders", "1", "--json")
                        .json()
                        .getAsJsonArray()
                        .get(0)
                        .getAsJsonObject();
        JsonObject stretch = line.getAsJsonArray("badStretches").get(0).getAsJsonObject();
        assertEquals("knock", stretch.get("problem").getAsString());
        assertEquals(3.0, stretch.get("fromS").getAsDouble(), 0);
        assertEquals(3.4, stretch.get("toS").getAsDouble(), 0);
    }

    @Test
    void waterfallsNameThem() {
        CommandRun run = run("waterfall", "c02", "--max-order", "8", "--json");
        assertTrue(run.err().contains("3.0 to 3.4 s (knock"), run.err());
        JsonObject all = run.json().getAsJsonObject();
        assertEquals(1, all.getAsJsonArray("badStretches").size());
        JsonObject clean =
                run("waterfall", "c01", "--max-order", "8", "--json").json().getAsJsonObject();
        assertEquals(0, clean.getAsJsonArray("badStretches").size());
    }
}

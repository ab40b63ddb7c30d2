package tickover.cli;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.google.gson.JsonArray;
import com.google.gson.JsonObject;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import tickover.session.SimulatedFolders;
import tickover.sim.LibraryPool;
import tickover.sim.Workshop;

class DemoVerbTest {
    @TempDir private Path folder;

    @Test
    void runsTheWholeJobAndCanRunAgain() throws IOException {
        CommandRun first = CommandRun.in(folder, "demo");
        assertEquals(0, first.exitCode(), first.err());
        for (String said :
                List.of(
                        "1. Last year's service",
                        "2. Today's complaint",
                        "How sure that",
                        "What the simulator had put in: the idler, bearing inner ring.",
                        "3. After the repair",
                        "Levels after the repair against today's complaint",
                        "ML-07, level of ",
                        "the demo's log: " + folder.resolve("demo"))) {
            assertTrue(first.out().contains(said), said + " is missing in\n" + first.out());
        }
        for (String raw :
                List.of("water-pump", "valve-cover", "valve-train", "injector-", "belt:")) {
            assertFalse(first.out().contains(raw), raw + " is no word in\n" + first.out());
        }
        try (Stream<Path> left = Files.list(folder.resolve("demo"))) {
            assertTrue(left.noneMatch(p -> p.getFileName().toString().startsWith(".")));
        }
        CommandRun again = CommandRun.in(folder, "demo", "--json");
        assertEquals(0, again.exitCode(), again.err());
        JsonObject answer = again.json().getAsJsonObject();
        assertEquals(3, answer.getAsJsonArray("visits").size());
        JsonArray files = answer.getAsJsonArray("files");
        int pictureAndTwoReportsInTwoForms = 5;
        assertEquals(pictureAndTwoReportsInTwoForms, files.size());
        for (int i = 0; i < files.size(); i++) {
            assertTrue(Files.size(Path.of(files.get(i).getAsString())) > 0);
        }
    }

    @Test
    void leavesAFolderOfSomebodyElseAlone() {
        Path taken = folder.resolve("keep").resolve("ML-07-last-year");
        SimulatedFolders.write(Workshop.visit(3), taken);
        CommandRun run = CommandRun.in(folder, "demo", "--keep", folder.resolve("keep").toString());
        assertEquals(2, run.exitCode());
        assertTrue(run.err().contains("holds another visit"), run.err());
    }

    @Test
    void saysWhatToRemoveWhenAnotherVersionsDemoIsInTheLog() throws IOException {
        Path other = folder.resolve("other");
        SimulatedFolders.write(LibraryPool.lastYear(), other);
        Path toml = other.resolve("visit.toml");
        Files.writeString(toml, Files.readString(toml).replace("no complaint", "other words"));
        Path log = folder.resolve("demo");
        assertEquals(
                0,
                CommandRun.in(folder, "import", other.toString(), "--data", log.toString())
                        .exitCode());
        CommandRun run = CommandRun.in(folder, "demo", "--keep", folder.resolve("keep").toString());
        assertEquals(2, run.exitCode());
        assertTrue(run.err().contains("remove that folder"), run.err());
    }
}

package tickover.cli;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.google.gson.JsonObject;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Backup, verify, tidy, archives and analysing anew, as they are typed. */
class UpkeepVerbsTest {
    @TempDir private Path folder;

    private CommandRun run(String... args) {
        return CommandRun.in(folder.resolve("data"), args);
    }

    @Test
    void misuseIsOneSentenceAndMakesNoLog() {
        List<String[]> wrong =
                List.of(
                        new String[] {"there is no log", "verify"},
                        new String[] {"there is no log", "backup", "-o", path("b")},
                        new String[] {"there is no log", "export", "--log", path("a.zip")},
                        new String[] {"there is no log", "tidy", "--raw-older-than", "2y"},
                        new String[] {"is no age", "tidy", "--raw-older-than", "soon"},
                        new String[] {
                            "is no day", "export", "--log", path("a.zip"), "--since", "2026-13-01"
                        },
                        new String[] {"give --log FILE too", "export", "--vehicle", "ML-07"},
                        new String[] {"not both", "export", "x", "--log", path("a.zip")},
                        new String[] {"name a visit and a folder", "export"},
                        new String[] {"say which visits", "reanalyse"},
                        new String[] {"not both", "reanalyse", "--all", "0195f0c2"});
        for (String[] w : wrong) {
            CommandRun run = run(Stream.of(w).skip(1).toArray(String[]::new));
            String said = String.join(" ", w) + ": " + run.err();
            assertEquals(ExitCode.BAD_INPUT, run.exitCode(), said);
            assertTrue(run.err().contains(w[0]), said);
            assertEquals(1, run.err().lines().count(), said);
            assertEquals("", run.out(), said);
        }
        assertTrue(Files.notExists(folder.resolve("data/tickover.db")));
    }

    private String path(String name) {
        return folder.resolve(name).toString();
    }

    @Test
    void aDamagedLogIsSaidLineByLineAndStopsABackup() throws IOException {
        assertEquals(0, run("simulate", "--seed", "3", path("practice")).exitCode());
        assertEquals(0, run("import", path("practice/visit-3")).exitCode());
        CommandRun whole = run("verify");
        assertEquals(0, whole.exitCode(), whole.err());
        assertTrue(whole.out().startsWith("The log is whole: 1 visit"), whole.out());

        assertEquals(0, run("export", "--log", path("a.zip")).exitCode());
        Path wav;
        try (Stream<Path> all = Files.walk(folder.resolve("data/recordings"))) {
            wav = all.filter(p -> p.toString().endsWith("c01.wav")).findFirst().orElseThrow();
        }
        Files.delete(wav);
        CommandRun damaged = run("verify");
        assertEquals(ExitCode.NO, damaged.exitCode());
        assertTrue(damaged.out().lines().findFirst().orElseThrow().contains("c01.wav is missing"));
        JsonObject json = run("verify", "--json").json().getAsJsonObject();
        assertEquals(false, json.get("whole").getAsBoolean());
        assertEquals(1, json.getAsJsonArray("problems").size());
        assertEquals(ExitCode.OUTSIDE_FAILED, run("backup", "-o", path("b")).exitCode());
        assertEquals(ExitCode.NO, run("backup", "-o", path("b"), "--even-damaged").exitCode());

        // An archive that has the file puts it back.
        CommandRun mended = run("import", path("a.zip"));
        assertTrue(mended.out().contains("1 file put back; 1 visit known"), mended.out());
        assertEquals(0, run("verify").exitCode());
    }
}

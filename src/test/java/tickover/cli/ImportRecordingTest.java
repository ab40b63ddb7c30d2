package tickover.cli;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Recordings taken into the log: once, whole, whatever is said the second time. */
class ImportRecordingTest {
    @TempDir private Path folder;
    private Path data;
    private Path walk;

    @BeforeEach
    void record() {
        data = folder.resolve("data");
        walk = folder.resolve("walk.tkr");
        WalkRecording.write(walk);
    }

    private CommandRun run(String... arguments) {
        return CommandRun.in(data, arguments);
    }

    private String visits() {
        return run("visits", "--json").json().toString();
    }

    @Test
    void importingAgainChangesNothingWhateverIsSaidOfItThen() {
        CommandRun first = run("import", "--complaint", "grinds", walk.toString());
        assertEquals(0, first.exitCode(), first.err());
        String before = visits();
        CommandRun again = run("import", "--complaint", "rattles", walk.toString());
        assertEquals(0, again.exitCode(), again.err());
        assertTrue(again.out().contains("is in the log already"), again.out());
        assertTrue(again.err().contains("--complaint"), again.err());
        assertEquals(before, visits());
    }

    @Test
    void aRecordingThatHasGrownIsRefusedWithAWayOn() throws IOException {
        byte[] whole = Files.readAllBytes(walk);
        Files.write(walk, Arrays.copyOf(whole, whole.length * 3 / 4));
        assertEquals(0, run("import", walk.toString()).exitCode());
        String before = visits();
        Files.write(walk, whole);
        CommandRun again = run("import", walk.toString());
        assertEquals(ExitCode.BAD_INPUT, again.exitCode());
        assertTrue(again.err().contains("tickover findings"), again.err());
        assertFalse(again.err().contains("visit.toml"), again.err());
        assertEquals(before, visits());
    }
}

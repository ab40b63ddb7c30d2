package tickover.cli;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

class TickoverCommandTest {
    @TempDir private Path data;

    static List<String> verbs() {
        return TickoverCommand.verbNames();
    }

    @Test
    void helpNamesEveryVerb() {
        CommandRun run = CommandRun.in(data, "--help");
        assertEquals(0, run.exitCode());
        assertEquals("", run.err());
        for (String verb : verbs()) {
            assertTrue(run.out().contains("\n  " + verb + " "), verb);
        }
    }

    @ParameterizedTest
    @MethodSource("verbs")
    void everyVerbTeachesByExampleAndSaysItsExitCodes(String verb) {
        CommandRun run = CommandRun.in(data, verb, "--help");
        assertEquals(0, run.exitCode());
        assertTrue(run.out().startsWith("Usage: tickover " + verb), run.out());
        assertTrue(run.out().contains("Examples:\n  tickover " + verb), run.out());
        assertTrue(run.out().contains("Exit codes:\n  0 "), run.out());
        assertEquals(run.out(), CommandRun.in(data, "help", verb).out());
    }

    @Test
    void missingVerbIsBadUsage() {
        CommandRun run = CommandRun.in(data);
        assertEquals(2, run.exitCode());
        assertEquals("tickover: a verb is missing; see 'tickover --help'.\n", run.err());
        assertEquals("", run.out());
    }

    @Test
    void unknownVerbIsBadUsageInOneSentence() {
        CommandRun run = CommandRun.in(data, "lisen");
        assertEquals(2, run.exitCode());
        assertTrue(run.err().startsWith("tickover: there is no verb 'lisen'; "), run.err());
        assertEquals(1, run.err().lines().count());
    }

    @Test
    void unknownOptionSuggestsTheNearest() {
        CommandRun run = CommandRun.in(data, "drive", "vehicle.toml", "--jsn");
        assertEquals(2, run.exitCode());
        assertTrue(run.err().contains("did you mean --json?"), run.err());
    }

    @Test
    void versionIsAnswered() {
        CommandRun run = CommandRun.in(data, "--version");
        assertEquals(0, run.exitCode());
        assertTrue(run.out().startsWith("tickover "), run.out());
    }

    @Test
    void traceIsShownOnlyOnRequest() {
        String missing = data.resolve("nothing.toml").toString();
        CommandRun silent = CommandRun.in(data, "drive", missing);
        CommandRun asked = CommandRun.in(java.util.Map.of("TICKOVER_DEBUG", "1"), "drive", missing);
        assertEquals(2, silent.exitCode());
        assertEquals(1, silent.err().lines().count(), silent.err());
        assertFalse(silent.err().contains("\tat "), silent.err());
        assertTrue(asked.err().contains("\tat "), asked.err());
    }
}

package tickover.cli;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Runs every command of {@code docs/cli.md}, in its order, in one folder. */
class CommandPageTest {
    private static final Path PAGE = Path.of("docs", "cli.md");
    private static final Pattern BLOCK = Pattern.compile("```sh\n(.*?)```", Pattern.DOTALL);

    /** Words of the page that name something in the reader's folder. */
    private static final Pattern FILE =
            Pattern.compile(
                    "(library-demo|library-backup|practice|copy-of-today)(/.*)?|.*\\.(svg|png|html|pdf|zip|wav|csv|tkr(#.*)?)");

    @TempDir private Path folder;

    private static List<String> commands() throws IOException {
        List<String> commands = new ArrayList<>();
        Matcher block = BLOCK.matcher(Files.readString(PAGE));
        while (block.find()) {
            block.group(1).lines().forEach(commands::add);
        }
        return commands;
    }

    private String[] arguments(String command) {
        List<String> words = List.of(command.split(" ", -1));
        assertEquals("tickover", words.get(0), command);
        return words.stream()
                .skip(1)
                .map(w -> FILE.matcher(w).matches() ? folder.resolve(w).toString() : w)
                .toArray(String[]::new);
    }

    @Test
    void everyExampleRuns() throws IOException {
        List<String> commands = commands();
        assertFalse(commands.isEmpty());
        WalkRecording.write(folder.resolve("walk.tkr"));
        BenchRecording.write(folder.resolve("idler.wav"), folder.resolve("idler.tach.csv"));
        for (String command : commands) {
            CommandRun run = CommandRun.in(folder.resolve("data"), arguments(command));
            assertEquals(0, run.exitCode(), command + "\n" + run.err());
            if (command.contains("--json")) {
                assertTrue(run.json().isJsonArray() || run.json().isJsonObject(), command);
            } else if (!command.matches(".*--(png|svg) .*|.* report .*")) {
                assertFalse(run.out().isBlank(), command);
            }
        }
        for (String file :
                List.of(
                        "front.svg",
                        "ML-07.html",
                        "ML-07.pdf",
                        "proof.pdf",
                        "waterfall.png",
                        "waterfall.svg",
                        "trend.png",
                        "copy-of-today/visit.toml",
                        "library-demo/ML-07-proof.html")) {
            assertTrue(Files.size(folder.resolve(file)) > 0, file);
        }
    }

    @Test
    void pageShowsEveryVerb() throws IOException {
        Set<String> shown = new java.util.HashSet<>();
        commands().forEach(c -> shown.add(c.split(" ", -1)[1]));
        for (String verb : TickoverCommand.verbNames()) {
            assertTrue(shown.contains(verb), verb);
        }
    }
}

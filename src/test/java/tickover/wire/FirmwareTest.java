package tickover.wire;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import java.io.File;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;

/**
 * Runs the tests of {@code firmware-protocol}, which are C programs of their own. Where a compiler
 * is missing, they are skipped and say so.
 */
class FirmwareTest {
    private static final Path SIMULATOR = Path.of("/usr/include/simavr/sim_avr.h");
    private static final Pattern VERDICT = Pattern.compile("(\\d+) checks, (\\d+) failed");

    /** RAM that calls and interrupts need on the example board; 146 bytes were seen in use. */
    private static final int STACK_BYTES = 400;

    private static final int FLASH_BYTES = 32_768;
    private static final int RAM_BYTES = 2_048;

    @Test
    @Timeout(300)
    void referenceImplementationKeepsVectorsLawsAndByteAccounts() throws Exception {
        need("make", "cc");
        String output = make("test");
        assertEquals(1, verdicts(output), output);
        assertTrue(output.contains("protocol.md: 0 lines missing"), output);
    }

    @Test
    @Timeout(300)
    void exampleFirmwareCompilesWithoutWarningAndFitsItsBoard() throws Exception {
        need("make", "avr-gcc");
        String output = make("avr");
        assertTrue(number(output, "Program: +(\\d+) bytes") < FLASH_BYTES, output);
        assertTrue(number(output, "Data: +(\\d+) bytes") <= RAM_BYTES - STACK_BYTES, output);
    }

    @Test
    @Timeout(300)
    void exampleFirmwareTellsWhatIsPlayedToItInASimulatedController() throws Exception {
        need("make", "cc", "avr-gcc");
        assumeTrue(
                Files.exists(SIMULATOR), "skipped: no " + SIMULATOR + " (Debian: libsimavr-dev)");
        assertEquals(2, verdicts(make("check-simulated")));
    }

    private static void need(String... commands) {
        String path = System.getenv("PATH");
        for (String command : commands) {
            boolean found =
                    Stream.of(path.split(File.pathSeparator))
                            .anyMatch(folder -> Files.isExecutable(Path.of(folder, command)));
            assumeTrue(found, "skipped: " + command + " is not installed");
        }
    }

    private static String make(String target) throws IOException, InterruptedException {
        Process process =
                new ProcessBuilder("make", "-C", "firmware-protocol", target)
                        .redirectErrorStream(true)
                        .start();
        process.getOutputStream().close();
        String output = new String(process.getInputStream().readAllBytes(), StandardCharsets.UTF_8);
        assertEquals(0, process.waitFor(), output);
        return output;
    }

    /** Counts the programs that have checked something and found nothing wrong. */
    private static int verdicts(String output) {
        Matcher verdict = VERDICT.matcher(output);
        int programs = 0;
        while (verdict.find()) {
            assertTrue(Integer.parseInt(verdict.group(1)) > 0, output);
            assertEquals("0", verdict.group(2), output);
            programs++;
        }
        return programs;
    }

    private static int number(String output, String pattern) {
        Matcher found = Pattern.compile(pattern).matcher(output);
        assertTrue(found.find(), output);
        return Integer.parseInt(found.group(1));
    }
}

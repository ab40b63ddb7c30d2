package tickover.dsp;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** The stored numbers of scipy are what their scripts still make. Skipped where scipy is absent. */
class ReferenceScriptsTest {
    /** Values of the size of one, of which some have nine digits. */
    private static final double PRINTED = 2e-8;

    @ParameterizedTest
    @CsvSource({
        "dsp_reference.py, /tickover/dsp/scipy.txt",
        "order_reference.py, /tickover/order/scipy.txt"
    })
    void scriptsMakeTheStoredNumbers(String script, String resource)
            throws IOException, InterruptedException {
        assumeTrue(hasScipy(), "python3 with scipy is not installed");
        Path path = Path.of("src", "test", "python", script);
        ReferenceNumbers made = ReferenceNumbers.of(output(List.of("python3", path.toString())));
        ReferenceNumbers stored = ReferenceNumbers.read(resource);
        assertEquals(stored.names(), made.names());
        for (String name : stored.names()) {
            assertArrayEquals(stored.get(name), made.get(name), PRINTED, name);
        }
    }

    private static boolean hasScipy() throws InterruptedException {
        try {
            return output(List.of("python3", "-c", "import scipy.signal; print('yes')"))
                    .contains("yes");
        } catch (IOException e) {
            return false;
        }
    }

    private static String output(List<String> command) throws IOException, InterruptedException {
        Process process =
                new ProcessBuilder(command).redirectError(ProcessBuilder.Redirect.DISCARD).start();
        try (InputStream in = process.getInputStream()) {
            String text = new String(in.readAllBytes(), StandardCharsets.UTF_8);
            process.waitFor();
            return text;
        }
    }
}

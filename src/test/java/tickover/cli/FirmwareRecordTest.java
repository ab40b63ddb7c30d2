package tickover.cli;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import com.google.gson.JsonArray;
import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStreamReader;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.concurrent.TimeUnit;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/**
 * The example probe's own binary, in a simulated controller, behind a pseudo-terminal, recorded and
 * asked for its orders as a person would.
 */
class FirmwareRecordTest {
    private static final Path MAKEFILE = Path.of("firmware-protocol", "Makefile");
    private static final Path BUILT = Path.of("target", "firmware");
    private static final double PLAYED_MPS2 = 0.8;

    @TempDir private Path folder;

    private static boolean toolsAreThere() {
        return Files.exists(Path.of("/usr/include/simavr/sim_avr.h"))
                && Files.exists(Path.of("/usr/bin/avr-gcc"))
                && Files.exists(Path.of("/usr/bin/make"))
                && Files.exists(Path.of("/usr/include/libelf.h"));
    }

    private static void build() throws IOException, InterruptedException {
        Process make =
                new ProcessBuilder(
                                "make", "-C", MAKEFILE.getParent().toString(), "simulated", "avr")
                        .redirectErrorStream(true)
                        .start();
        String said = new String(make.getInputStream().readAllBytes(), StandardCharsets.UTF_8);
        assertEquals(0, make.waitFor(), said);
    }

    @Test
    void anOrderPlayedToTheFirmwareIsFoundWithItsAmplitude()
            throws IOException, InterruptedException {
        assumeTrue(
                toolsAreThere(),
                "skipped: needs gcc-avr, avr-libc, libsimavr-dev, libelf-dev and make");
        build();
        Process controller =
                new ProcessBuilder(
                                BUILT.resolve("simulated_probe").toString(),
                                "--rpm",
                                "780",
                                "--order",
                                "5.997:" + PLAYED_MPS2,
                                "--order",
                                "2:1.5",
                                "--noise",
                                "0.3",
                                BUILT.resolve("probe_avr.elf").toString())
                        .redirectError(ProcessBuilder.Redirect.DISCARD)
                        .start();
        try (BufferedReader said =
                new BufferedReader(
                        new InputStreamReader(
                                controller.getInputStream(), StandardCharsets.UTF_8))) {
            String port = said.readLine();
            Path data = folder.resolve("data");
            Path file = folder.resolve("probe.tkr");
            CommandRun recorded =
                    CommandRun.in(
                            data,
                            "record",
                            "--port",
                            port,
                            "--point",
                            "idler",
                            "--seconds",
                            "8",
                            "--to",
                            file.toString(),
                            "--json");
            assertEquals(0, recorded.exitCode(), recorded.err());
            CommandRun asked =
                    CommandRun.in(data, "orders", file.toString(), "--orders", "5.997", "--json");
            assertEquals(0, asked.exitCode(), recorded.out() + asked.err());
            JsonArray orders = asked.json().getAsJsonArray();
            double rms = orders.get(0).getAsJsonObject().get("rmsMps2").getAsDouble();
            // One part in a hundred is what the whole way from the pin to the answer may cost.
            assertEquals(PLAYED_MPS2, rms, 0.01 * PLAYED_MPS2);
            assertTrue(
                    orders.get(0).getAsJsonObject().get("phaseIsFromMark").getAsBoolean(),
                    "the tach's edges came along");
        } finally {
            controller.destroy();
            controller.waitFor(10, TimeUnit.SECONDS);
        }
    }
}

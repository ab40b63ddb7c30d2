package tickover.cli;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.concurrent.TimeUnit;
import org.junit.jupiter.api.condition.EnabledOnOs;
import org.junit.jupiter.api.condition.OS;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import tickover.session.RecordingContent;
import tickover.session.SimulatedLink;
import tickover.session.SimulatedPort;
import tickover.sim.EndlessScene;
import tickover.sim.LineTrouble;
import tickover.sim.SimulatedProbe;

/** A recording ends in order when its terminal is closed, as it does by Ctrl-C. */
@EnabledOnOs(value = OS.LINUX, disabledReason = "needs signals and /proc")
class RecordSignalTest {
    private static final double PATIENCE_S = 60;

    /** So much of a recording proves that samples flow. */
    private static final int FLOWING_BYTES = 20_000;

    @TempDir private Path folder;

    /** Whoever runs the tests may have told the system to keep a signal from them. */
    private static boolean reaches(int signal) throws IOException {
        List<String> status = Files.readAllLines(Path.of("/proc/self/status"));
        String ignored =
                status.stream().filter(l -> l.startsWith("SigIgn:")).findFirst().orElseThrow();
        long mask = Long.parseUnsignedLong(ignored.substring(7).strip(), 16);
        return (mask >> (signal - 1) & 1) == 0;
    }

    private static SimulatedPort probe() {
        EndlessScene scene =
                new EndlessScene(
                        new EndlessScene.Turning(780, 0.01, 5),
                        List.of(new EndlessScene.Tone(2, 1, 0)),
                        0.1,
                        1);
        return new SimulatedPort(
                new SimulatedLink(
                        "simulated",
                        new SimulatedProbe(SimulatedProbe.Spec.ordinary(8000, 40), scene),
                        new LineTrouble(LineTrouble.Spec.NONE, 1),
                        System.nanoTime()));
    }

    @ParameterizedTest
    @CsvSource({"HUP, 1", "INT, 2"})
    void theRecordingIsClosedAndTheAnswerGiven(String name, int number)
            throws IOException, InterruptedException {
        assumeTrue(reaches(number), "skipped: SIG" + name + " is kept from the tests");
        Path file = folder.resolve("a.tkr");
        Path said = folder.resolve("said.txt");
        try (SimulatedPort port = probe()) {
            Process record =
                    new ProcessBuilder(
                                    Path.of(System.getProperty("java.home"), "bin", "java")
                                            .toString(),
                                    "-XX:TieredStopAtLevel=1",
                                    "-cp",
                                    System.getProperty("java.class.path"),
                                    "tickover.Main",
                                    "record",
                                    "--port",
                                    port.path(),
                                    "--baud",
                                    "500000",
                                    "--point",
                                    "idler",
                                    "--to",
                                    file.toString())
                            .redirectErrorStream(true)
                            .redirectOutput(said.toFile())
                            .start();
            try {
                long until = System.nanoTime() + Math.round(PATIENCE_S * 1e9);
                while (!(Files.exists(file) && Files.size(file) > FLOWING_BYTES)) {
                    assertTrue(
                            record.isAlive() && System.nanoTime() < until,
                            () -> "nothing recorded: " + text(said));
                    Thread.sleep(50);
                }
                new ProcessBuilder("kill", "-" + name, Long.toString(record.pid()))
                        .start()
                        .waitFor();
                assertTrue(record.waitFor(30, TimeUnit.SECONDS), () -> "goes on: " + text(said));
            } finally {
                record.destroyForcibly();
            }
            RecordingContent content = RecordingContent.of(file);
            assertTrue(content.closed(), () -> "not closed: " + text(said));
            assertEquals(1, content.captures().size());
            assertEquals(List.of(), content.gaps(), "the port stayed open to the end");
            assertTrue(text(said).contains("idler"), () -> "no answer: " + text(said));
        }
    }

    private static String text(Path said) {
        try {
            return Files.readString(said, StandardCharsets.UTF_8);
        } catch (IOException e) {
            return e.toString();
        }
    }
}

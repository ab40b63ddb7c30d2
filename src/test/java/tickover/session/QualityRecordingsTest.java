package tickover.session;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import tickover.diagnose.CaptureInput;
import tickover.diagnose.CaptureLabel;
import tickover.diagnose.Mount;
import tickover.diagnose.QualityNote;
import tickover.diagnose.QualityProblem;
import tickover.diagnose.Regime;
import tickover.diagnose.SignalQuality;
import tickover.drive.Condition;
import tickover.order.ShaftAngle;
import tickover.store.WavFile;

/**
 * Public recordings of sound and damaged bearings, looked for beside the checkout; skipped where
 * they are absent. Their sensors were screwed or glued on and stayed where they were.
 */
class QualityRecordingsTest {
    private static final Path DATA = Path.of("..", "shared", "datasets");

    /** Their speeds lie near 1800 rpm; only turns are counted with it. */
    private static final double SPEED_HZ = 30;

    private static final Set<QualityProblem> OF_A_HAND =
            Set.of(QualityProblem.LOST_CONTACT, QualityProblem.TILT, QualityProblem.MOUNT_CHANGE);

    @Test
    void noFixedSensorIsSaidToHaveMoved() throws IOException {
        assumeTrue(Files.isDirectory(DATA), "no " + DATA);
        List<Path> files;
        try (Stream<Path> all = Files.list(DATA)) {
            files = all.filter(f -> f.toString().endsWith(".wav")).sorted().toList();
        }
        assumeTrue(!files.isEmpty(), "no recordings in " + DATA);
        List<String> claims = new ArrayList<>();
        for (Path file : files) {
            for (QualityNote note : notes(file)) {
                if (OF_A_HAND.contains(note.problem())) {
                    claims.add(file.getFileName() + ": " + note);
                }
            }
        }
        assertEquals(List.of(), claims);
    }

    private static List<QualityNote> notes(Path file) {
        WavFile wav = WavFile.read(file, 1);
        double durationS = wav.valuesMps2()[0].length / wav.sampleRateHz();
        return SignalQuality.of(
                        new CaptureInput(
                                new CaptureLabel(
                                        file.getFileName().toString(),
                                        "",
                                        "",
                                        Mount.STUD,
                                        Regime.HOLD,
                                        Condition.UNLOADED),
                                wav.sampleRateHz(),
                                wav.valuesMps2(),
                                ShaftAngle.steady(SPEED_HZ, durationS),
                                "known"))
                .notes();
    }
}

package tickover.report;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import tickover.diagnose.Candidate;
import tickover.diagnose.CaptureLabel;
import tickover.diagnose.CaptureSummary;
import tickover.diagnose.Evidence;
import tickover.diagnose.EvidenceKind;
import tickover.diagnose.Fault;
import tickover.diagnose.Findings;
import tickover.diagnose.LineLevel;
import tickover.diagnose.Mount;
import tickover.diagnose.NextTest;
import tickover.diagnose.PartLevel;
import tickover.diagnose.QualityNote;
import tickover.diagnose.QualityProblem;
import tickover.diagnose.Regime;
import tickover.diagnose.Verdict;
import tickover.diagnose.VisitResult;
import tickover.drive.Condition;
import tickover.drive.DriveModel;
import tickover.store.Visit;
import tickover.store.VisitFolder;
import tickover.store.WavEncoding;
import tickover.store.WavWriter;

/** A small visit on disk and a result made by hand, with texts of the test's choosing. */
final class SampleReport {
    private static final double SAMPLE_RATE_HZ = 1000;

    private SampleReport() {}

    /** Writes a visit of a second of silence and reads it back. */
    static Visit visit(Path dir, String unit, String complaint, String date) throws IOException {
        Files.createDirectories(dir);
        Files.writeString(
                dir.resolve("vehicle.toml"),
                """
                [vehicle]
                unit = %s
                description = "mobile library"
                [engine]
                cylinders = 4
                [[belts]]
                name = "main"
                path = ["crank", "idler", "alternator"]
                [[pulleys]]
                name = "crank"
                role = "crank"
                diameter_mm = 154.0
                face = "grooved"
                x_mm = 0.0
                y_mm = 0.0
                [[pulleys]]
                name = "idler"
                role = "idler"
                diameter_mm = 78.4
                face = "flat"
                x_mm = 150.0
                y_mm = 160.0
                [[pulleys]]
                name = "alternator"
                role = "alternator"
                diameter_mm = 60.0
                face = "grooved"
                x_mm = 120.0
                y_mm = 320.0
                """
                        .formatted(quoted(unit)));
        Files.writeString(
                dir.resolve("visit.toml"),
                """
                [visit]
                date = %s
                odometer_km = 182340
                complaint = %s
                [[captures]]
                file = "c01.wav"
                point = "idler"
                axis = "radial"
                mount = "hand"
                regime = "idle"
                """
                        .formatted(date, quoted(complaint)));
        try (WavWriter wav = new WavWriter(dir.resolve("c01.wav"), 1, WavEncoding.FLOAT_32, 1.0)) {
            wav.add(new double[(int) SAMPLE_RATE_HZ]);
            wav.finish(SAMPLE_RATE_HZ);
        }
        return VisitFolder.read(dir);
    }

    private static String quoted(String text) {
        return '"' + text.replace("\\", "\\\\").replace("\"", "\\\"") + '"';
    }

    /** The idler is named; every text of the result is the given one, numbered. */
    static VisitResult result(String text, double idlerRmsMps2) {
        CaptureLabel label =
                new CaptureLabel(
                        "c01",
                        "idler",
                        text + "-axis",
                        Mount.HAND,
                        Regime.IDLE,
                        Condition.UNLOADED);
        Candidate idler =
                new Candidate(
                        "idler",
                        Fault.BEARING_INNER_RING,
                        0.8,
                        List.of(
                                new Evidence(EvidenceKind.PATTERN, text + "-pattern", 12),
                                new Evidence(EvidenceKind.PLACE, text + "-place", 4)));
        Candidate none = new Candidate(Candidate.NONE, Fault.NONE, 0.2, List.of());
        return new VisitResult(
                new Findings(
                        Verdict.COMPONENT,
                        List.of(idler, none),
                        List.of(new NextTest("belt-off", text + "-test", 10, 0.4)),
                        List.of(
                                QualityNote.ofWhole(
                                        "c01", QualityProblem.CLIPPED, text + "-quality"))),
                List.of(new CaptureSummary(label, "tach", 8, 780, 775, 785, 1.2)),
                List.of(
                        new PartLevel(
                                "idler",
                                "c01",
                                idlerRmsMps2,
                                0.01,
                                List.of(
                                        new LineLevel(
                                                "bearing-inner-ring",
                                                9.684,
                                                idlerRmsMps2,
                                                0.01,
                                                List.of())))),
                "0.1.0",
                text + "-settings");
    }

    static VisitReport report(Visit visit, VisitResult result) {
        return VisitReport.of(visit, DriveModel.of(visit.vehicle()), result);
    }
}

package tickover.cli;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.stream.Stream;
import org.junit.jupiter.api.Assumptions;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import tickover.store.WavEncoding;
import tickover.store.WavWriter;

/** The report verb on visits of a second of silence, in which no speed is found. */
class ReportVerbTest {
    private static final double SAMPLE_RATE_HZ = 1000;

    @TempDir private Path folder;
    private Path visit;

    @BeforeEach
    void writesAVisit() throws IOException {
        visit = folder.resolve("visit");
        write(visit, "2020-10-14T09:30:00");
    }

    private static void write(Path dir, String date) throws IOException {
        Files.createDirectories(dir);
        Files.writeString(
                dir.resolve("vehicle.toml"),
                """
                [vehicle]
                unit = "ML-07"
                [engine]
                cylinders = 4
                [[pulleys]]
                name = "crank"
                role = "crank"
                diameter_mm = 154.0
                face = "grooved"
                [[pulleys]]
                name = "idler"
                role = "idler"
                diameter_mm = 78.4
                face = "flat"
                """);
        Files.writeString(
                dir.resolve("visit.toml"),
                """
                [visit]
                date = %s
                complaint = "whine"
                [[captures]]
                file = "c01.wav"
                point = "idler"
                axis = "radial"
                mount = "hand"
                regime = "idle"
                """
                        .formatted(date));
        try (WavWriter wav = new WavWriter(dir.resolve("c01.wav"), 1, WavEncoding.FLOAT_32, 1.0)) {
            wav.add(new double[(int) SAMPLE_RATE_HZ]);
            wav.finish(SAMPLE_RATE_HZ);
        }
    }

    private CommandRun run(String... args) {
        String[] all = Stream.concat(Stream.of("report"), Stream.of(args)).toArray(String[]::new);
        return CommandRun.in(folder.resolve("data"), all);
    }

    private String path(String name) {
        return folder.resolve(name).toString();
    }

    @Test
    void fileNamesSayTheForm() throws IOException {
        CommandRun run =
                run(visit.toString(), "-o", path("a.html"), "--out", path("b.PDF"), "--json");
        assertEquals(ExitCode.DONE, run.exitCode(), run.err());
        assertTrue(Files.readString(folder.resolve("a.html")).startsWith("<!DOCTYPE html>"));
        assertEquals("%PDF-", head(folder.resolve("b.PDF")));
        assertEquals(2, run.json().getAsJsonObject().getAsJsonArray("files").size(), run.out());
    }

    private static String head(Path file) throws IOException {
        return new String(Files.readAllBytes(file), 0, 5, StandardCharsets.ISO_8859_1);
    }

    @Test
    void formatStandsForAnEnding() throws IOException {
        CommandRun run = run(visit.toString(), "-o", path("page"), "--format", "html");
        assertEquals(ExitCode.DONE, run.exitCode(), run.err());
        assertTrue(Files.readString(folder.resolve("page")).startsWith("<!DOCTYPE html>"));
    }

    @Test
    void visitWithoutAUsableRecordingSaysWhyThereAreNoPlots() throws IOException {
        CommandRun run = run(visit.toString(), "-o", path("a.html"));
        assertEquals(ExitCode.DONE, run.exitCode(), run.err());
        String html = Files.readString(folder.resolve("a.html"));
        assertTrue(html.contains("There are no plots: "), html);
        assertTrue(html.contains("No recording of this visit could be used."));
    }

    @Test
    void wrongUseIsRefusedInOneSentenceBeforeAnythingIsComputed() {
        String v = visit.toString();
        List<String[]> wrong =
                List.of(
                        new String[] {"does not say the form", v, "-o", path("report.docx")},
                        new String[] {"does not say the form", v, "-o", path("report")},
                        new String[] {"html and pdf", v, "-o", path("r.html"), "--format", "odt"},
                        new String[] {"does not exist", v, "-o", path("no/r.pdf")},
                        new String[] {"is a folder", v, "-o", folder.toString()},
                        new String[] {"name a file", v, "-o", folder.toString()},
                        new String[] {"drop one", v, v, "--alone", "-o", path("r.pdf")},
                        new String[] {"two earlier", v, v, "--against", v, "-o", path("r.pdf")},
                        new String[] {"--against", v, "--repaired", "idler", "-o", path("r.pdf")},
                        new String[] {"neither a folder", path("nothing"), "-o", path("r.pdf")});
        for (String[] w : wrong) {
            CommandRun run = run(Stream.of(w).skip(1).toArray(String[]::new));
            String said = String.join(" ", w) + ": " + run.err();
            assertEquals(ExitCode.BAD_INPUT, run.exitCode(), said);
            assertTrue(run.err().contains(w[0]), said);
            assertEquals(1, run.err().lines().count(), said);
            assertFalse(Files.exists(folder.resolve("r.pdf")), said);
        }
    }

    @Test
    void placeThatCannotBeWrittenToIsTheOutsidesFault() {
        Path place = Path.of("/proc");
        Assumptions.assumeTrue(Files.isDirectory(place), "no folder that refuses files");
        CommandRun run = run(visit.toString(), "-o", "/proc/report.html");
        assertEquals(ExitCode.OUTSIDE_FAILED, run.exitCode(), run.err());
        assertTrue(run.err().contains("/proc/report.html"), run.err());
    }

    @Test
    void recordingsThatWereTidiedAwayAreSaidToBe() throws IOException {
        Path data = folder.resolve("data");
        Path later = folder.resolve("later");
        write(later, "2020-11-14T09:30:00");
        CommandRun.in(data, "import", visit.toString(), later.toString());
        String id =
                CommandRun.in(data, "visits", "--json")
                        .json()
                        .getAsJsonArray()
                        .get(0)
                        .getAsJsonObject()
                        .get("visit")
                        .getAsString();
        CommandRun.in(data, "findings", id);
        CommandRun tidy = CommandRun.in(data, "tidy", "--raw-older-than", "1d");
        CommandRun run = run(id, "-o", path("a.html"), "-o", path("a.pdf"));
        assertEquals(ExitCode.DONE, run.exitCode(), tidy.err() + run.err());
        String html = Files.readString(folder.resolve("a.html"));
        assertTrue(
                html.matches("(?s).*There are no plots: [^<]*were removed on [^<]*by the rule.*"),
                tidy.out() + tidy.err() + html.substring(html.indexOf("plots")));
    }
}

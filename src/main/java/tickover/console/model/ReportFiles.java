package tickover.console.model;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.format.DateTimeFormatter;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import tickover.diagnose.VehicleTrend;
import tickover.session.ReportMaker;
import tickover.store.Visit;

/** Writes a report as a page and as a PDF beside it. */
final class ReportFiles {
    private static final DateTimeFormatter WHEN =
            DateTimeFormatter.ofPattern("uuuu-MM-dd-HHmm", Locale.ROOT);

    private ReportFiles() {}

    /** An earlier visit and what was repaired since, empty if nothing is known to have been. */
    record Held(KeptStory before, String repairedPart) {}

    /** Gathers what the report says and writes both forms; returns what to tell of them. */
    static String write(ConsoleModel console, KeptStory story, List<Held> against)
            throws IOException {
        ReportMaker maker = new ReportMaker(story.visit(), story.result());
        for (Held held : against) {
            maker.against(held.before().visit(), held.before().result(), held.repairedPart());
        }
        String unit = story.visit().vehicle().unit();
        console.<Optional<VehicleTrend>>fromLog(
                        log ->
                                log.visits(unit).stream()
                                        .filter(v -> v.id().equals(story.visit().id()))
                                        .findFirst()
                                        .map(v -> log.history().trend(unit)))
                .ifPresent(maker::trend);
        return write(maker, place(console, story.visit()));
    }

    /** One file per visit: a repair may bring two of them on one day. */
    private static Path place(ConsoleModel console, Visit visit) {
        String unit = ConsoleModel.fileNameOf(visit.vehicle().unit());
        return console.options()
                .dataDir()
                .resolve("reports")
                .resolve(unit + "-" + WHEN.format(visit.date()) + ".html");
    }

    private static String write(ReportMaker maker, Path html) throws IOException {
        Files.createDirectories(html.toAbsolutePath().getParent());
        Files.writeString(html, maker.html(), StandardCharsets.UTF_8);
        String name = html.getFileName().toString().replaceFirst("\\.html$", ".pdf");
        Path pdf = html.resolveSibling(name);
        Files.write(pdf, maker.pdf());
        return "The report is " + pdf + ", to print or hand over, and " + html + ", to look at.";
    }
}

package tickover.cli;

import com.google.gson.JsonObject;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.Callable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import tickover.diagnose.VisitResult;
import tickover.session.ReportMaker;
import tickover.store.KeptVisit;
import tickover.store.Log;

/** One HTML page about one visit. */
@Command(
        name = "report",
        description = {
            "Writes one HTML file about a visit: the answer in plain words, the drawing of this"
                    + " engine's front, the reasons and the next test; behind it the plots, levels"
                    + " and data quality for whoever checks the work.",
            "",
            "The file needs nothing from the network and prints well. An imported visit is held"
                    + " against the vehicle's visit before it, or against --against."
        },
        footerHeading = "%nExamples:%n",
        footer = {
            "  tickover report ML-07-today -o ML-07.html",
            "  tickover report ML-07-after-repair --against ML-07-today -o proof.html"
        })
final class ReportVerb implements Callable<Integer> {
    private final Terminal terminal;

    @Mixin private final SharedOptions shared;

    @Parameters(paramLabel = "VISIT", description = "A visit folder, or the id of a visit.")
    private String visit;

    @Option(
            names = {"-o", "--output"},
            required = true,
            paramLabel = "FILE",
            description = "The HTML file to write.")
    private Path file;

    @Option(
            names = "--against",
            paramLabel = "VISIT",
            description = "An earlier visit of the same vehicle to hold it against.")
    private String against;

    ReportVerb(Terminal terminal) {
        this.terminal = terminal;
        this.shared = new SharedOptions(terminal);
    }

    @Override
    public Integer call() {
        Visits visits = new Visits(terminal, shared.dataFolder());
        VisitHandle handle = visits.find(visit);
        VisitResult result = visits.result(handle);
        ReportMaker maker = new ReportMaker(handle.visit(), result);
        earlier(handle, visits).ifPresent(e -> maker.against(e.visit(), visits.result(e)));
        terminal.progress("drawing");
        byte[] page = maker.html().getBytes(StandardCharsets.UTF_8);
        terminal.progressDone();
        OutputFile.write(file, page, terminal);
        if (shared.json()) {
            JsonObject o = new JsonObject();
            o.addProperty("visit", handle.visit().id().toString());
            o.addProperty("file", file.toString());
            terminal.json(o);
        }
        return ExitCode.DONE;
    }

    private Optional<VisitHandle> earlier(VisitHandle handle, Visits visits) {
        if (against != null) {
            return Optional.of(visits.find(against));
        }
        if (!handle.stored()) {
            return Optional.empty();
        }
        List<KeptVisit> kept;
        try (Log log = visits.openLog()) {
            kept = log.visits(handle.visit().vehicle().unit());
        }
        return kept.stream()
                .filter(k -> k.date().isBefore(handle.visit().date()))
                .max(Comparator.comparing(KeptVisit::date))
                .map(k -> visits.find(k.id().toString()));
    }
}

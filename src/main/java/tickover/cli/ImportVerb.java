package tickover.cli;

import com.google.gson.JsonArray;
import com.google.gson.JsonObject;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.Callable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Parameters;
import tickover.store.ImportOutcome;
import tickover.store.Log;
import tickover.store.Visit;
import tickover.store.VisitFolder;

/** Takes visit folders into the log. */
@Command(
        name = "import",
        description = {
            "Takes visit folders into the log: each of them whole, or not at all.",
            "",
            "A folder that is in the log already changes nothing. If one folder is refused, those"
                    + " named before it stay imported."
        },
        footerHeading = "%nExamples:%n",
        footer = {
            "  tickover import ML-07-today",
            "  tickover import --data /srv/fleet ML-07-last-year ML-07-today"
        })
final class ImportVerb implements Callable<Integer> {
    private final Terminal terminal;

    @Mixin private final SharedOptions shared;

    @Parameters(paramLabel = "DIR", arity = "1..*", description = "Visit folders.")
    private List<Path> folders;

    ImportVerb(Terminal terminal) {
        this.terminal = terminal;
        this.shared = new SharedOptions(terminal);
    }

    /** One folder and what became of it. */
    private record Taken(Path folder, Visit visit, ImportOutcome outcome) {}

    @Override
    public Integer call() {
        List<Taken> taken = new ArrayList<>();
        try (Log log = new Visits(terminal, shared.dataFolder()).openLog()) {
            for (Path folder : folders) {
                terminal.progress("importing " + folder);
                Visit visit = VisitFolder.read(folder);
                taken.add(new Taken(folder, visit, log.importVisit(visit)));
                if (!shared.json()) {
                    terminal.progressDone();
                    terminal.line(sentence(taken.get(taken.size() - 1)));
                }
            }
        } finally {
            terminal.progressDone();
        }
        if (shared.json()) {
            terminal.json(json(taken));
        }
        return ExitCode.DONE;
    }

    private static String sentence(Taken taken) {
        String id = taken.visit().id() + " (" + new VisitHandle(taken.visit(), true).title() + ")";
        return switch (taken.outcome()) {
            case IMPORTED -> "imported " + taken.folder() + " as " + id;
            case ALREADY_KEPT -> taken.folder() + " is in the log already as " + id;
        };
    }

    private static JsonArray json(List<Taken> all) {
        return Json.array(
                all,
                taken -> {
                    JsonObject o = new JsonObject();
                    o.addProperty("folder", taken.folder().toString());
                    o.addProperty("visit", taken.visit().id().toString());
                    o.addProperty("unit", taken.visit().vehicle().unit());
                    o.addProperty("isNew", taken.outcome() == ImportOutcome.IMPORTED);
                    return o;
                });
    }
}

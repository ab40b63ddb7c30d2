package tickover.cli;

import com.google.gson.JsonArray;
import com.google.gson.JsonObject;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.UUID;
import java.util.concurrent.Callable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import tickover.session.RecordingVisit;
import tickover.store.ArchiveImport;
import tickover.store.ImportOutcome;
import tickover.store.Log;
import tickover.store.LogArchive;
import tickover.store.Visit;
import tickover.store.VisitFolder;

/** Takes visit folders, recordings and archives of other logs into the log. */
@Command(
        name = "import",
        description = {
            "Takes visit folders, recordings and archives of other logs into the log: each visit"
                    + " whole, or not at all.",
            "",
            "An archive ('tickover export --log') brings visits, results, notes, repair marks and"
                    + " saved drives. It may be taken in again, and it does not matter which of two"
                    + " logs takes the other in. Of a drive saved in both, the newest counts.",
            "",
            "A recording (.tkr) becomes a visit: its captures are cut out, and the recording itself"
                    + " is kept beside them. What is in the log already changes nothing. If one is"
                    + " refused, those named before it stay imported."
        },
        footerHeading = "%nExamples:%n",
        footer = {
            "  tickover import ML-07-today",
            "  tickover import --data /srv/fleet ML-07-last-year ML-07-today",
            "  tickover import laptop-2.zip",
            "  tickover import --vehicle ML-07.toml --complaint \"grinds when cold\" round.tkr"
        })
final class ImportVerb implements Callable<Integer> {
    private final Terminal terminal;

    @Mixin private final SharedOptions shared;

    @Parameters(
            paramLabel = "DIR",
            arity = "1..*",
            description = "Visit folders, recordings (.tkr), or archives of a log (.zip).")
    private List<Path> folders;

    @Option(
            names = "--vehicle",
            paramLabel = "FILE",
            description =
                    "For recordings: the vehicle's description, a vehicle.toml. Default: the one in"
                            + " the recording.")
    private Path vehicle;

    @Option(
            names = "--complaint",
            paramLabel = "TEXT",
            description = "For recordings: what the driver says.")
    private String complaint = "";

    @Option(
            names = "--odometer",
            paramLabel = "KM",
            description = "For recordings: how far the vehicle has run, km.")
    private double odometerKm = Double.NaN;

    ImportVerb(Terminal terminal) {
        this.terminal = terminal;
        this.shared = new SharedOptions(terminal);
    }

    /** One folder and what became of it. */
    private record Taken(Path folder, Visit visit, ImportOutcome outcome) {}

    @Override
    public Integer call() {
        JsonArray answer = new JsonArray();
        boolean whole = true;
        Visits visits = new Visits(terminal, shared.log());
        try {
            for (Path from : folders) {
                terminal.progress("importing " + from);
                if (LogArchive.isOne(from)) {
                    ArchiveImport.Taken taken = ArchiveText.take(terminal, shared, from);
                    answer.add(ArchiveText.json(from, taken));
                    whole &= taken.refused().isEmpty();
                    continue;
                }
                try (Log log = visits.openLog()) {
                    Taken taken = take(from, visits, log);
                    answer.add(json(taken));
                    if (!shared.json()) {
                        terminal.progressDone();
                        terminal.line(sentence(taken));
                    }
                }
            }
        } finally {
            terminal.progressDone();
        }
        if (shared.json()) {
            terminal.json(answer);
        }
        return whole ? ExitCode.DONE : ExitCode.NO;
    }

    private Taken take(Path from, Visits visits, Log log) {
        if (!Files.exists(from)) {
            throw CliException.badInput(
                    "there is no " + from + "; name a visit folder, a recording or an archive");
        }
        if (!RecordingVisit.isNamedBy(from)) {
            Visit visit = VisitFolder.read(from);
            return new Taken(from, visit, log.importVisit(visit));
        }
        UUID id = RecordingVisit.idOf(from);
        return switch (log.holds(id, RecordingVisit.RECORDING_FILE, from)) {
            case NO_VISIT -> {
                Visit visit =
                        visits.recorded(
                                from, new RecordingVisit.About(vehicle, complaint, odometerKm));
                yield new Taken(from, visit, log.importVisit(visit));
            }
            case SAME -> {
                if (vehicle != null || !complaint.isEmpty() || !Double.isNaN(odometerKm)) {
                    terminal.note(
                            from
                                    + " is in the log already, with what was said of it then;"
                                    + " --vehicle, --complaint and --odometer change nothing now.");
                }
                yield new Taken(from, log.visit(id).orElseThrow(), ImportOutcome.ALREADY_KEPT);
            }
            case OTHER ->
                    throw CliException.badInput(
                            from
                                    + " was longer, shorter or otherwise different when it was"
                                    + " taken into the log as visit "
                                    + id
                                    + "; the log keeps that one, and 'tickover findings "
                                    + from
                                    + "' shows what this one says");
        };
    }

    private static String sentence(Taken taken) {
        String id = taken.visit().id() + " (" + new VisitHandle(taken.visit(), true).title() + ")";
        return switch (taken.outcome()) {
            case IMPORTED -> "imported " + taken.folder() + " as " + id;
            case ALREADY_KEPT -> taken.folder() + " is in the log already as " + id;
        };
    }

    private static JsonObject json(Taken taken) {
        JsonObject o = new JsonObject();
        o.addProperty("folder", taken.folder().toString());
        o.addProperty("visit", taken.visit().id().toString());
        o.addProperty("unit", taken.visit().vehicle().unit());
        o.addProperty("isNew", taken.outcome() == ImportOutcome.IMPORTED);
        return o;
    }
}

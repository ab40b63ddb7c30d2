package tickover.cli;

import com.google.gson.JsonObject;
import java.nio.file.Path;
import java.time.Clock;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.Callable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import tickover.store.Log;
import tickover.store.LogArchive;

/** Writes an imported visit's folder, or the whole log as one file. */
@Command(
        name = "export",
        description = {
            "Writes an imported visit as a visit folder, byte for byte as it was imported; or, with"
                    + " --log, the whole log or a part of it as one file for another laptop.",
            "",
            "'tickover import FILE' takes such a file in: visits, results, notes, repair marks and"
                    + " saved drives. Two laptops that take each other's file in have the same log"
                    + " then."
        },
        footerHeading = "%nExamples:%n",
        footer = {
            "  tickover export 0195f0c2 copy-of-ML-07",
            "  tickover export --log laptop-2.zip",
            "  tickover export --log ML-07.zip --vehicle ML-07 --since 2026-01-01"
        })
final class ExportVerb implements Callable<Integer> {
    private final Terminal terminal;

    @Mixin private final SharedOptions shared;

    @Parameters(
            index = "0",
            paramLabel = "VISIT",
            arity = "0..1",
            description = "Id of an imported visit, or its first characters.")
    private String visit;

    @Parameters(
            index = "1",
            paramLabel = "DIR",
            arity = "0..1",
            description = "A folder that is empty or does not exist yet.")
    private Path folder;

    @Option(
            names = "--log",
            paramLabel = "FILE",
            description = "Write the log as an archive: a ZIP file that does not exist yet.")
    private Path archive;

    @Option(
            names = "--vehicle",
            paramLabel = "UNIT",
            description = "With --log: only this vehicle; may be given more than once.")
    private List<String> units = new ArrayList<>();

    @Option(
            names = "--since",
            paramLabel = "DATE",
            description =
                    "With --log: only visits, notes and repair marks of this day (2026-03-04) and"
                            + " later.")
    private LocalDate since;

    ExportVerb(Terminal terminal) {
        this.terminal = terminal;
        this.shared = new SharedOptions(terminal);
    }

    @Override
    public Integer call() {
        if (archive != null) {
            if (visit != null) {
                throw CliException.badInput(
                        "name either a visit and a folder, or --log and a file, not both");
            }
            return exportLog();
        }
        if (!units.isEmpty() || since != null) {
            throw CliException.badInput(
                    "--vehicle and --since choose what goes into an archive; give --log FILE too");
        }
        if (visit == null || folder == null) {
            throw CliException.badInput(
                    "name a visit and a folder for it, or --log and a file for the whole log");
        }
        return exportVisit();
    }

    private int exportLog() {
        LogArchive.Filter filter =
                new LogArchive.Filter(units, since == null ? LocalDate.MIN : since);
        LogArchive.Written written;
        terminal.progress("exporting");
        try {
            written =
                    LogArchive.write(
                            shared.log(),
                            archive,
                            filter,
                            Clock.systemUTC(),
                            (done, total) ->
                                    terminal.progress("exporting visit " + done + " of " + total));
        } finally {
            terminal.progressDone();
        }
        if (shared.json()) {
            JsonObject o = new JsonObject();
            o.addProperty("archive", written.file().toString());
            o.addProperty("visits", written.visits());
            o.addProperty("results", written.findings());
            o.addProperty("notes", written.notes());
            o.addProperty("bytes", written.bytes());
            terminal.json(o);
        } else {
            terminal.line(
                    "exported "
                            + Amounts.count(written.visits(), "visit")
                            + " with "
                            + Amounts.count(written.findings(), "result")
                            + " ("
                            + Amounts.bytes(written.bytes())
                            + ") to "
                            + archive
                            + "; take it in elsewhere with 'tickover import "
                            + archive.getFileName()
                            + "'");
        }
        return ExitCode.DONE;
    }

    private int exportVisit() {
        Visits visits = new Visits(terminal, shared.log());
        VisitHandle handle = visits.find(visit);
        if (!handle.stored()) {
            throw CliException.badInput(
                    "'" + visit + "' is a folder already; name the id of an imported visit");
        }
        try (Log log = visits.openLog()) {
            log.export(handle.visit().id(), folder);
        }
        if (shared.json()) {
            JsonObject o = new JsonObject();
            o.addProperty("visit", handle.visit().id().toString());
            o.addProperty("folder", folder.toString());
            terminal.json(o);
        } else {
            terminal.line("exported " + handle.title() + " to " + folder);
        }
        return ExitCode.DONE;
    }
}

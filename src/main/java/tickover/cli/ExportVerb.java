package tickover.cli;

import com.google.gson.JsonObject;
import java.nio.file.Path;
import java.util.concurrent.Callable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Parameters;
import tickover.store.Log;

/** Writes an imported visit's folder. */
@Command(
        name = "export",
        description =
                "Writes an imported visit as a visit folder, byte for byte as it was imported.",
        footerHeading = "%nExamples:%n",
        footer = {"  tickover export 0195f0c2 copy-of-ML-07"})
final class ExportVerb implements Callable<Integer> {
    private final Terminal terminal;

    @Mixin private final SharedOptions shared;

    @Parameters(
            index = "0",
            paramLabel = "VISIT",
            description = "Id of an imported visit, or its first characters.")
    private String visit;

    @Parameters(
            index = "1",
            paramLabel = "DIR",
            description = "A folder that is empty or does not exist yet.")
    private Path folder;

    ExportVerb(Terminal terminal) {
        this.terminal = terminal;
        this.shared = new SharedOptions(terminal);
    }

    @Override
    public Integer call() {
        Visits visits = new Visits(terminal, shared.dataFolder());
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

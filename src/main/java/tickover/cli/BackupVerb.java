package tickover.cli;

import com.google.gson.JsonObject;
import java.nio.file.Path;
import java.util.concurrent.Callable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import tickover.store.Backup;

/** Copies the whole log to a safe place. */
@Command(
        name = "backup",
        description = {
            "Copies the whole log, database and recordings, to a folder or a ZIP file.",
            "",
            "Others may go on writing meanwhile: the copy is the log as it was at one moment. Every"
                    + " file is checked on its way; the copy gets its name when it is whole. To go"
                    + " back to it, name the folder with --data, or unpack the ZIP file and name"
                    + " that folder.",
            "",
            "A log on a server (--data jdbc:postgresql:...) is copied as an archive: name a .zip"
                    + " file, which 'tickover import' takes into any log. The server's own backup"
                    + " is pg_dump."
        },
        footerHeading = "%nExamples:%n",
        footer = {
            "  tickover backup -o /media/stick/tickover-2026-03-04",
            "  tickover backup -o tickover-2026-03-04.zip",
            "  tickover verify --data /media/stick/tickover-2026-03-04"
        })
final class BackupVerb implements Callable<Integer> {
    private final Terminal terminal;

    @Mixin private final SharedOptions shared;

    @Option(
            names = {"-o", "--output"},
            paramLabel = "FILE|DIR",
            required = true,
            description =
                    "A file to make if the name ends in .zip, else a folder that is empty or does"
                            + " not exist yet.")
    private Path target;

    @Option(
            names = "--even-damaged",
            description =
                    "Leave out files that are missing or damaged, and name them, instead of making"
                            + " no backup at all; the exit code is 1 then.")
    private boolean evenDamaged;

    BackupVerb(Terminal terminal) {
        this.terminal = terminal;
        this.shared = new SharedOptions(terminal);
    }

    @Override
    public Integer call() {
        Backup.Made made;
        terminal.progress("copying the database");
        try {
            made =
                    Backup.make(
                            shared.log(),
                            target,
                            evenDamaged,
                            (done, total) ->
                                    terminal.progress("copying visit " + done + " of " + total));
        } finally {
            terminal.progressDone();
        }
        made.leftOut()
                .forEach(f -> terminal.note(f + " is missing or damaged and not in the backup."));
        if (shared.json()) {
            JsonObject o = new JsonObject();
            o.addProperty("target", made.target().toString());
            o.addProperty("visits", made.visits());
            o.addProperty("files", made.files());
            o.addProperty("bytes", made.bytes());
            o.add("leftOut", Json.words(made.leftOut()));
            terminal.json(o);
        } else {
            terminal.line(
                    "backed up "
                            + Amounts.count(made.visits(), "visit")
                            + " with "
                            + Amounts.count(made.files(), "file")
                            + " ("
                            + Amounts.bytes(made.bytes())
                            + ") to "
                            + made.target());
        }
        return made.leftOut().isEmpty() ? ExitCode.DONE : ExitCode.NO;
    }
}

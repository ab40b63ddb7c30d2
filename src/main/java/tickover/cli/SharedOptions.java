package tickover.cli;

import java.nio.file.Path;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import tickover.store.LogPlace;

/** What every verb that answers understands. */
@Command
final class SharedOptions {
    private final Terminal terminal;

    @Option(
            names = {"-h", "--help"},
            usageHelp = true,
            description = "Show this help and exit.")
    private boolean help;

    @Option(
            names = "--json",
            description =
                    "Answer with one JSON document on standard output; messages go to standard"
                            + " error.")
    private boolean json;

    @Option(
            names = "--data",
            paramLabel = "DIR|ADDRESS",
            description = {
                "Folder of the log, or a PostgreSQL database to be shared:",
                "jdbc:postgresql://HOST/DATABASE?user=NAME",
                "with its password in PGPASSWORD or the file .pgpass. Default: the environment"
                        + " variable TICKOVER_DATA, else the platform's own data folder."
            })
    private String data = "";

    SharedOptions(Terminal terminal) {
        this.terminal = terminal;
    }

    /** True if only the help was asked for, which is then shown without running the verb. */
    boolean help() {
        return help;
    }

    /** True if the answer is to be one JSON document. */
    boolean json() {
        return json;
    }

    /** Returns where the log lives; there may be none yet. */
    LogPlace log() {
        return log(data);
    }

    /** Reads where a log lives, said in the way of {@code --data}. */
    LogPlace log(String said) {
        return DataFolder.place(
                said,
                terminal.environment(),
                System.getProperty("os.name"),
                System.getProperty("user.home"));
    }

    /** Returns the folder for what belongs to this machine alone; it may not exist yet. */
    Path dataFolder() {
        return log().local();
    }
}

package tickover.cli;

import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import tickover.store.LogPlace;

/** What every verb understands: help, and where the log lives. */
@Command
final class LogOptions {
    private final Terminal terminal;

    @Option(
            names = {"-h", "--help"},
            usageHelp = true,
            description = "Show this help and exit.")
    private boolean help;

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

    LogOptions(Terminal terminal) {
        this.terminal = terminal;
    }

    /** True if only the help was asked for, which is then shown without running the verb. */
    boolean help() {
        return help;
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
}

package tickover.cli;

import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import tickover.store.LogPlace;

/** What a verb that opens a window understands: as {@link SharedOptions}, but nothing answers. */
@Command
final class WindowOptions {
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

    WindowOptions(Terminal terminal) {
        this.terminal = terminal;
    }

    /** True if only the help was asked for, which is then shown without running the verb. */
    boolean help() {
        return help;
    }

    /** Returns where the log lives; there may be none yet. */
    LogPlace log() {
        return DataFolder.place(
                data,
                terminal.environment(),
                System.getProperty("os.name"),
                System.getProperty("user.home"));
    }
}

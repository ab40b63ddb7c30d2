package tickover.cli;

import java.nio.file.Path;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;

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
            paramLabel = "DIR",
            description =
                    "Folder of the log. Default: the environment variable TICKOVER_DATA, else the"
                            + " platform's own data folder.")
    private String data = "";

    WindowOptions(Terminal terminal) {
        this.terminal = terminal;
    }

    /** True if only the help was asked for, which is then shown without running the verb. */
    boolean help() {
        return help;
    }

    /** Returns where the log lives; the folder may not exist yet. */
    Path dataFolder() {
        return DataFolder.choose(
                data,
                terminal.environment(),
                System.getProperty("os.name"),
                System.getProperty("user.home"));
    }
}

package tickover.cli;

import java.nio.file.Path;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import tickover.store.LogPlace;

/** What every verb that answers understands. */
@Command
final class SharedOptions {
    @Mixin private final LogOptions where;

    @Option(
            names = "--json",
            description =
                    "Answer with one JSON document on standard output; messages go to standard"
                            + " error.")
    private boolean json;

    SharedOptions(Terminal terminal) {
        this.where = new LogOptions(terminal);
    }

    /** True if the answer is to be one JSON document. */
    boolean json() {
        return json;
    }

    /** Returns where the log lives; there may be none yet. */
    LogPlace log() {
        return where.log();
    }

    /** Reads where a log lives, said in the way of {@code --data}. */
    LogPlace log(String said) {
        return where.log(said);
    }

    /** Returns the folder for what belongs to this machine alone; it may not exist yet. */
    Path dataFolder() {
        return log().local();
    }
}

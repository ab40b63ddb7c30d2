package tickover.cli;

import java.nio.file.Path;
import java.util.Objects;

/** Opens the desktop console. The two front ends do not know each other, so the caller gives it. */
public interface ConsoleOpener {
    /**
     * Opens the console and returns when it is closed.
     *
     * @param choice what was asked for
     * @return the exit code
     */
    int open(Choice choice);

    /**
     * What the command line asked for.
     *
     * @param dataDir folder of the log
     * @param simulated whether a simulated van plays the part of the engine
     */
    record Choice(Path dataDir, boolean simulated) {
        public Choice {
            Objects.requireNonNull(dataDir, "dataDir");
        }
    }
}

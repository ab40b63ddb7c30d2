package tickover.cli;

import java.nio.file.Path;

/** Opens the desktop console. The two front ends do not know each other, so the caller gives it. */
public interface ConsoleOpener {
    /**
     * Opens the console and returns when it is closed.
     *
     * @param dataDir folder of the log
     * @param simulated whether a simulated van plays the part of the engine
     * @return the exit code
     */
    int open(Path dataDir, boolean simulated);
}

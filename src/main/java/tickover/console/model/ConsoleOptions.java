package tickover.console.model;

import java.nio.file.Path;
import java.util.Objects;

/**
 * How the console starts.
 *
 * @param dataDir folder of the log
 * @param simulated whether a simulated van plays the part of the engine
 */
public record ConsoleOptions(Path dataDir, boolean simulated) {
    public ConsoleOptions {
        Objects.requireNonNull(dataDir, "dataDir");
    }
}

package tickover.console.model;

import java.nio.file.Path;
import java.util.List;
import java.util.Objects;

/**
 * How the console starts.
 *
 * @param dataDir folder of the log
 * @param simulated whether a simulated van plays the part of the engine
 * @param recordings recordings to play instead of live lines, one after another; may be empty
 */
public record ConsoleOptions(Path dataDir, boolean simulated, List<Path> recordings) {
    public ConsoleOptions {
        Objects.requireNonNull(dataDir, "dataDir");
        recordings = List.copyOf(recordings);
        if (simulated && !recordings.isEmpty()) {
            throw new IllegalArgumentException(
                    "simulated=true and recordings=" + recordings + ", need one of them");
        }
    }
}

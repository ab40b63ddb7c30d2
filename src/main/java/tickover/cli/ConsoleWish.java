package tickover.cli;

import java.nio.file.Path;
import java.util.Objects;

/**
 * How somebody wants the console.
 *
 * @param dataDir folder of the log
 * @param simulated whether a simulated van plays the part of the engine
 * @param replayed a recording that runs again in place of a probe; empty for none
 * @param pace how many times as fast as it was
 */
public record ConsoleWish(Path dataDir, boolean simulated, String replayed, double pace) {
    public ConsoleWish {
        Objects.requireNonNull(dataDir, "dataDir");
        Objects.requireNonNull(replayed, "replayed");
    }
}

package tickover.cli;

import java.util.Objects;
import tickover.store.LogPlace;

/**
 * How somebody wants the console.
 *
 * @param log where the log lives
 * @param simulated whether a simulated van plays the part of the engine
 * @param replayed a recording that runs again in place of a probe; empty for none
 * @param pace how many times as fast as it was
 * @param port the probe's port; empty to take the one that answers like a probe
 */
public record ConsoleWish(
        LogPlace log, boolean simulated, String replayed, double pace, String port) {
    public ConsoleWish {
        Objects.requireNonNull(log, "log");
        Objects.requireNonNull(replayed, "replayed");
        Objects.requireNonNull(port, "port");
    }
}

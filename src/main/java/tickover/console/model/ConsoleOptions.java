package tickover.console.model;

import java.nio.file.Path;
import java.util.Objects;
import tickover.store.LogPlace;

/**
 * How the console starts.
 *
 * @param log where the log lives
 * @param simulated whether a simulated van plays the part of the engine
 * @param replayed a recording that runs again in place of a probe; empty for none
 * @param pace how many times as fast as it was
 * @param port the probe's port; empty to take the one that answers like a probe
 */
public record ConsoleOptions(
        LogPlace log, boolean simulated, String replayed, double pace, String port) {
    public ConsoleOptions {
        Objects.requireNonNull(log, "log");
        Objects.requireNonNull(replayed, "replayed");
        Objects.requireNonNull(port, "port");
        if (!(pace > 0 && Double.isFinite(pace))) {
            throw new IllegalArgumentException("pace=" + pace + ", need > 0");
        }
    }

    /**
     * A console without a recording that runs again.
     *
     * @param dataDir folder of the log
     * @param simulated whether a simulated van plays the part of the engine
     */
    public ConsoleOptions(Path dataDir, boolean simulated) {
        this(LogPlace.folder(dataDir), simulated, "", 1, "");
    }

    /**
     * Returns the folder for what belongs to this machine alone.
     *
     * @return the log's own folder, or of a log on a server this machine's data folder
     */
    public Path dataDir() {
        return log.local();
    }

    /**
     * Returns where recordings are made.
     *
     * @return a folder on this machine, which may not exist yet
     */
    public Path recordings() {
        return dataDir().resolve("recordings-raw");
    }

    /**
     * Returns whether a recording runs again in place of a probe.
     *
     * @return true if so
     */
    public boolean replays() {
        return !replayed.isEmpty();
    }
}

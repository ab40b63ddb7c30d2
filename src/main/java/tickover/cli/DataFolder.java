package tickover.cli;

import java.nio.file.Path;
import java.util.Locale;
import java.util.Map;
import tickover.store.LogPlace;
import tickover.store.StoreException;

/** Where the log lives. */
final class DataFolder {
    private DataFolder() {}

    /**
     * Chooses where the log lives: {@code --data}, then {@code TICKOVER_DATA}, then the platform's
     * own folder.
     *
     * @param option what {@code --data} says, a folder or an address; empty if absent
     * @param environment the process's environment
     * @param system name of the operating system
     * @param userHome the user's home folder
     * @return the place, where there may be no log yet
     * @throws tickover.store.StoreException if it is an address that cannot be read
     */
    static LogPlace place(
            String option, Map<String, String> environment, String system, String userHome) {
        Path own = own(environment, system, userHome);
        String said = option.isEmpty() ? environment.getOrDefault("TICKOVER_DATA", "") : option;
        return said.isEmpty() ? LogPlace.folder(own) : LogPlace.of(said, environment, own);
    }

    /** The folder for what belongs to this machine alone, whatever {@code TICKOVER_DATA} says. */
    static Path local(Map<String, String> environment, String system, String userHome) {
        try {
            return place("", environment, system, userHome).local();
        } catch (StoreException e) {
            // A wrong address is told where the log is asked for.
            return own(environment, system, userHome);
        }
    }

    private static Path own(Map<String, String> environment, String system, String userHome) {
        Path home = Path.of(userHome);
        String name = system.toLowerCase(Locale.ROOT);
        if (name.startsWith("windows")) {
            String local = environment.getOrDefault("LOCALAPPDATA", "");
            Path base = local.isEmpty() ? home.resolve("AppData").resolve("Local") : Path.of(local);
            return base.resolve("tickover");
        }
        if (name.startsWith("mac")) {
            return home.resolve("Library").resolve("Application Support").resolve("tickover");
        }
        String xdg = environment.getOrDefault("XDG_DATA_HOME", "");
        Path base =
                xdg.isEmpty() || !Path.of(xdg).isAbsolute()
                        ? home.resolve(".local").resolve("share")
                        : Path.of(xdg);
        return base.resolve("tickover");
    }
}

package tickover.cli;

import java.nio.file.Path;
import java.util.Locale;
import java.util.Map;

/** Where the log lives. */
final class DataFolder {
    private DataFolder() {}

    /**
     * Chooses the folder: {@code --data}, then {@code TICKOVER_DATA}, then the platform's own.
     *
     * @param option what {@code --data} says, empty if absent
     * @param environment the process's environment
     * @param system name of the operating system
     * @param userHome the user's home folder
     * @return the folder, which may not exist yet
     */
    static Path choose(
            String option, Map<String, String> environment, String system, String userHome) {
        if (!option.isEmpty()) {
            return Path.of(option).toAbsolutePath();
        }
        String variable = environment.getOrDefault("TICKOVER_DATA", "");
        if (!variable.isEmpty()) {
            return Path.of(variable).toAbsolutePath();
        }
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

package tickover.session;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Comparator;
import java.util.stream.Stream;

/** Folders of what is derived and can be made again. */
final class WorkFolder {
    private WorkFolder() {}

    /** Removes a folder with all that is in it, as far as that can be done. */
    static void remove(Path folder) {
        try (Stream<Path> all = Files.walk(folder)) {
            for (Path path : all.sorted(Comparator.reverseOrder()).toList()) {
                Files.deleteIfExists(path);
            }
        } catch (IOException | UncheckedIOException e) {
            // Temporary folders are the system's to clean as well.
        }
    }
}

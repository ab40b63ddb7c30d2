package tickover.cli;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Comparator;
import java.util.List;
import java.util.stream.Stream;

/** Folders that are gone when the program has ended. */
final class TemporaryFolder {
    private TemporaryFolder() {}

    /** Makes an empty folder. */
    static Path make() {
        try {
            Path folder = Files.createTempDirectory("tickover");
            Runtime.getRuntime()
                    .addShutdownHook(new Thread(() -> remove(folder), "tickover-remove"));
            return folder;
        } catch (IOException e) {
            throw CliException.outsideFailed(
                    "no temporary folder can be made: " + e.getMessage(), e);
        }
    }

    private static void remove(Path folder) {
        try (Stream<Path> all = Files.walk(folder)) {
            List<Path> deepestFirst = all.sorted(Comparator.reverseOrder()).toList();
            for (Path path : deepestFirst) {
                Files.deleteIfExists(path);
            }
        } catch (IOException | UncheckedIOException e) {
            // Temporary folders are the system's to clean as well.
        }
    }
}

package tickover.store;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.stream.Stream;

/** Folders that a visit is written to: new, or empty. */
final class NewFolder {
    private NewFolder() {}

    /** Makes sure that a folder is there, and empty. */
    static void require(Path dir) throws IOException {
        requireFree(dir);
        Files.createDirectories(dir);
    }

    /** Makes sure that a path has a name of its own within a folder. */
    static void requireName(Path path) {
        if (path.getFileName() == null) {
            throw new StoreException(
                    StoreException.Reason.FOLDER_NOT_EMPTY,
                    path + " is a whole disk; give a name within it");
        }
    }

    /** Makes sure that nothing is there, or an empty folder. */
    static void requireFree(Path dir) throws IOException {
        if (Files.exists(dir) && !Files.isDirectory(dir)) {
            throw new StoreException(
                    StoreException.Reason.FOLDER_NOT_EMPTY,
                    dir + " is a file; give a folder that does not exist yet");
        }
        if (!Files.exists(dir)) {
            return;
        }
        try (Stream<Path> entries = Files.list(dir)) {
            if (entries.findAny().isPresent()) {
                throw new StoreException(
                        StoreException.Reason.FOLDER_NOT_EMPTY,
                        dir + " is not empty; give a folder that is, or that does not exist yet");
            }
        }
    }
}

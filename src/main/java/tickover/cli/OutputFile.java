package tickover.cli;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;

/** Writes what a verb makes: whole or not at all. */
final class OutputFile {
    private OutputFile() {}

    /** Writes the file and says so beside the answer. */
    static void write(Path file, byte[] bytes, Terminal terminal) {
        writeSilently(file, bytes);
        terminal.note("wrote " + file);
    }

    /** Writes the file. */
    static void writeSilently(Path file, byte[] bytes) {
        requirePlace(file);
        try {
            replace(file, bytes);
        } catch (IOException e) {
            throw CliException.outsideFailed(file + " cannot be written: " + e.getMessage(), e);
        }
    }

    /** Refuses a file that has no folder to stand in, before anything is computed for it. */
    static void requirePlace(Path file) {
        Path folder = file.toAbsolutePath().getParent();
        if (folder == null || !Files.isDirectory(folder)) {
            throw CliException.badInput(
                    file + ": the folder " + folder + " does not exist; make it first");
        }
        if (Files.isDirectory(file)) {
            throw CliException.badInput(file + " is a folder; name a file");
        }
    }

    /** A regular file is replaced whole; a pipe or a device is written to as it is. */
    private static void replace(Path file, byte[] bytes) throws IOException {
        if (Files.exists(file) && !Files.isRegularFile(file)) {
            Files.write(file, bytes);
            return;
        }
        Path target = Files.exists(file) ? file.toRealPath() : file.toAbsolutePath();
        Path part =
                target.resolveSibling(
                        "." + target.getFileName() + "." + ProcessHandle.current().pid());
        try {
            Files.write(part, bytes);
            Files.move(part, target, StandardCopyOption.REPLACE_EXISTING);
        } finally {
            Files.deleteIfExists(part);
        }
    }
}

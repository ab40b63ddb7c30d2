package tickover.cli;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;

/** Writes what a verb makes: whole or not at all. */
final class OutputFile {
    private OutputFile() {}

    /** Writes the file and says so beside the answer. */
    static void write(Path file, byte[] bytes, Terminal terminal) {
        Path folder = file.toAbsolutePath().getParent();
        if (folder == null || !Files.isDirectory(folder)) {
            throw CliException.badInput(
                    file + ": the folder " + folder + " does not exist; make it first");
        }
        if (Files.isDirectory(file)) {
            throw CliException.badInput(file + " is a folder; name a file");
        }
        try {
            Path part = Files.createTempFile(folder, ".tickover", ".part");
            try {
                Files.write(part, bytes);
                Files.move(part, file, java.nio.file.StandardCopyOption.REPLACE_EXISTING);
            } finally {
                Files.deleteIfExists(part);
            }
        } catch (IOException e) {
            throw CliException.outsideFailed(file + " cannot be written: " + e.getMessage(), e);
        }
        terminal.note("wrote " + file);
    }
}

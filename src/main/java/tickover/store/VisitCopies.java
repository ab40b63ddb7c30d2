package tickover.store;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.FileSystemException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.nio.file.attribute.FileTime;
import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Set;
import java.util.UUID;
import java.util.stream.Stream;

/**
 * Copies on this machine of recordings that are kept on a server: those looked at last, up to a
 * limit. They may be deleted at any time. A copy is looked through before it is used, so a damaged
 * one is made anew.
 */
final class VisitCopies {
    /** Room for some hundred visits. */
    private static final long MOST_BYTES = 2L << 30;

    /** A copy used so lately may still be read by another process. */
    private static final Duration IN_USE = Duration.ofHours(1);

    private final Path root;
    private final FolderRecordings folders;

    VisitCopies(Path root) throws IOException {
        this.root = root;
        this.folders = new FolderRecordings(root);
    }

    /** What reading a visit takes: the files that its texts name and that were not removed. */
    static List<KeptFile> needed(List<KeptFile> files, Set<String> removed) {
        return files.stream().filter(f -> f.named() && !removed.contains(f.name())).toList();
    }

    Recordings.Stage stage(List<KeptFile> files, Recordings.FileSource source) throws IOException {
        return folders.stage(files, source);
    }

    /**
     * Gives a folder with the wanted files.
     *
     * @throws StoreException if the server's bytes are not the expected ones
     */
    Path folder(UUID visitId, List<KeptFile> wanted, Recordings.FileSource source)
            throws IOException {
        Path folder = folders.of(visitId);
        if (!isWhole(folder, wanted)) {
            makeRoom();
            try (Recordings.Stage stage = folders.stage(wanted, source)) {
                FolderRecordings.delete(folder);
                Files.move(stage.dir(), folder, StandardCopyOption.ATOMIC_MOVE);
            } catch (VisitFolderException e) {
                throw new StoreException(
                        StoreException.Reason.DAMAGED,
                        e.getMessage().split(":", 2)[0]
                                + " of visit "
                                + visitId
                                + " is not as it was imported; 'tickover verify' lists all that is"
                                + " wrong",
                        e);
            } catch (FileSystemException e) {
                // Another process may have made the same copy at the same moment.
                if (!isWhole(folder, wanted)) {
                    throw e;
                }
            }
        }
        Files.setLastModifiedTime(folder, FileTime.from(Instant.now()));
        return folder;
    }

    private static boolean isWhole(Path folder, List<KeptFile> wanted) {
        for (KeptFile file : wanted) {
            Path path = folder.resolve(file.name());
            try {
                if (!Files.isRegularFile(path) || !KeptFile.of(path, file.named()).equals(file)) {
                    return false;
                }
            } catch (VisitFolderException e) {
                return false;
            }
        }
        return Files.isDirectory(folder);
    }

    private record Copy(Path folder, Instant used, long bytes) {
        static Copy of(Path folder) {
            try (Stream<Path> files = Files.list(folder)) {
                long bytes = 0;
                for (Path file : (Iterable<Path>) files::iterator) {
                    bytes += Files.size(file);
                }
                return new Copy(folder, Files.getLastModifiedTime(folder).toInstant(), bytes);
            } catch (IOException e) {
                throw new UncheckedIOException(e);
            }
        }
    }

    private void makeRoom() throws IOException {
        List<Copy> copies = new ArrayList<>();
        try {
            for (Path entry : folders.entries()) {
                if (!entry.getFileName().toString().startsWith(".")) {
                    copies.add(Copy.of(entry));
                }
            }
        } catch (UncheckedIOException e) {
            // Another process is making room at this moment.
            return;
        }
        copies.sort(Comparator.comparing(Copy::used));
        long bytes = copies.stream().mapToLong(Copy::bytes).sum();
        Instant inUse = Instant.now().minus(IN_USE);
        for (Copy copy : copies) {
            if (bytes <= MOST_BYTES || copy.used().isAfter(inUse)) {
                return;
            }
            FolderRecordings.delete(copy.folder());
            bytes -= copy.bytes();
        }
    }

    /** Removes copies that a crash cut short. */
    void sweep() {
        try {
            folders.sweep();
        } catch (IOException e) {
            throw StoreException.of(e, root);
        }
    }
}

package tickover.store;

import java.io.BufferedOutputStream;
import java.io.IOException;
import java.io.InputStream;
import java.io.OutputStream;
import java.nio.channels.Channels;
import java.nio.channels.FileChannel;
import java.nio.file.Files;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.nio.file.StandardOpenOption;
import java.security.DigestInputStream;
import java.security.MessageDigest;
import java.time.Clock;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HexFormat;
import java.util.List;
import java.util.Locale;
import java.util.Objects;
import java.util.Set;
import java.util.UUID;
import java.util.stream.Stream;
import java.util.zip.Deflater;
import java.util.zip.ZipEntry;
import java.util.zip.ZipOutputStream;

/**
 * Copies a whole log to a folder or a ZIP file while others may go on writing to it: the database
 * as it was at one moment, and every file that it speaks of, each checked on its way. The copy gets
 * its name when it is whole.
 *
 * <p>Files of visits are only ever added, so those that the copied database speaks of are there
 * after it was copied, unless a rule removes them meanwhile; then the backup is refused.
 */
public final class Backup implements AutoCloseable {
    private static final String ZIP_ENDING = ".zip";

    private final LogFolder log;
    private final FolderRecordings recordings;
    private final Path target;
    private final Path part;
    private final Path snapshot;
    private final boolean evenDamaged;
    private final List<String> leftOut = new ArrayList<>();
    private int files;
    private long bytes;

    private Backup(LogFolder log, FolderRecordings recordings, Path target, boolean evenDamaged) {
        this.log = log;
        this.recordings = recordings;
        this.target = target;
        this.evenDamaged = evenDamaged;
        this.part = target.resolveSibling("." + target.getFileName() + ".part");
        this.snapshot =
                isZip(target)
                        ? target.resolveSibling("." + target.getFileName() + ".db.part")
                        : part.resolve(Log.DATABASE_FILE);
    }

    /**
     * What was made.
     *
     * @param target the folder or file
     * @param visits visits in it
     * @param files files of visits in it
     * @param bytes of those
     * @param leftOut files that were not whole any more and so are not in it
     */
    public record Made(Path target, int visits, int files, long bytes, List<String> leftOut) {
        public Made {
            Objects.requireNonNull(target, "target");
            leftOut = List.copyOf(leftOut);
        }
    }

    /**
     * Makes a backup: all of it, or nothing. Of a log on a server it is an archive, which any log
     * can take in, see {@link LogArchive}.
     *
     * @param place where the log lives
     * @param to a file to make if its name ends in {@code .zip}, else a folder, which does not
     *     exist yet or is empty. The folder is a log of its own. Of a log on a server: a file
     * @param evenDamaged true to leave out files that are missing or changed instead of refusing
     * @param progress hears of every visit
     * @return what was made
     * @throws StoreException if there is no log, the target is taken, a file is not as it was taken
     *     in, or a disk fails
     */
    public static Made make(LogPlace place, Path to, boolean evenDamaged, WorkProgress progress) {
        Objects.requireNonNull(progress, "progress");
        Path target = to.toAbsolutePath().normalize();
        if (!place.isFolder()) {
            return archive(place, target, evenDamaged, progress);
        }
        Path dir = place.local();
        LogFolder.requireLog(place);
        NewFolder.requireName(target);
        if (target.startsWith(dir.toAbsolutePath().normalize())) {
            throw new StoreException(
                    StoreException.Reason.FOLDER_NOT_EMPTY,
                    to
                            + " lies within the log's own folder; choose a place outside it, best"
                            + " on another disk");
        }
        try (LogFolder log = LogFolder.open(place);
                Backup backup =
                        new Backup(log, (FolderRecordings) log.recordings(), target, evenDamaged)) {
            return backup.run(progress);
        } catch (IOException e) {
            throw StoreException.of(e, to);
        }
    }

    private static Made archive(
            LogPlace place, Path target, boolean evenDamaged, WorkProgress progress) {
        if (evenDamaged || target.getFileName() == null || !isZip(target)) {
            throw new StoreException(
                    StoreException.Reason.FOLDER_NOT_EMPTY,
                    (evenDamaged
                                    ? "a backup of a log on a server cannot leave out what is"
                                            + " damaged, for it is an archive"
                                    : "a backup of a log on a server is an archive; give it a name"
                                            + " that ends in .zip")
                            + ", or have the server's own backup made (pg_dump)");
        }
        LogArchive.Written written =
                LogArchive.write(place, target, LogArchive.Filter.ALL, Clock.systemUTC(), progress);
        return new Made(target, written.visits(), written.files(), written.fileBytes(), List.of());
    }

    private static boolean isZip(Path target) {
        return target.getFileName().toString().toLowerCase(Locale.ROOT).endsWith(ZIP_ENDING);
    }

    private Made run(WorkProgress progress) throws IOException {
        requireFree();
        deleteTree(part);
        Files.deleteIfExists(snapshot);
        Files.createDirectories(target.getParent());
        if (!isZip(target)) {
            Files.createDirectory(part);
        }
        log.database().copyTo(snapshot);
        int visits;
        try (Database copy = Database.openFile(snapshot, Schema.CURRENT)) {
            visits = isZip(target) ? 0 : copyFolder(copy, progress);
        }
        if (isZip(target)) {
            visits = writeZip(progress);
        } else {
            force(snapshot);
            FolderRecordings.flushFolder(part);
            Files.deleteIfExists(target);
        }
        Files.move(part, target, StandardCopyOption.ATOMIC_MOVE);
        FolderRecordings.flushFolder(target.getParent());
        return new Made(target, visits, files, bytes, leftOut);
    }

    private void requireFree() throws IOException {
        if (isZip(target) && Files.exists(target)) {
            throw new StoreException(
                    StoreException.Reason.FOLDER_NOT_EMPTY,
                    target + " is there already; give the backup a name of its own");
        }
        if (!isZip(target)) {
            NewFolder.requireFree(target);
        }
    }

    /** Takes one file of a visit. */
    private interface Taker {
        boolean take(UUID visit, KeptFile file) throws IOException;
    }

    private int copyFolder(Database copy, WorkProgress progress) throws IOException {
        Path root = part.resolve(Log.RECORDINGS_FOLDER);
        Files.createDirectory(root);
        int visits =
                each(
                        copy,
                        progress,
                        (visit, file) -> {
                            Path to = root.resolve(visit.toString());
                            Files.createDirectories(to);
                            return FolderRecordings.copy(recordings.open(visit, file), to, file);
                        });
        FolderRecordings.flushFolder(root);
        return visits;
    }

    private int writeZip(WorkProgress progress) throws IOException {
        try (FileChannel channel =
                        FileChannel.open(
                                part, StandardOpenOption.CREATE_NEW, StandardOpenOption.WRITE);
                OutputStream out = new BufferedOutputStream(Channels.newOutputStream(channel));
                ZipOutputStream zip = new ZipOutputStream(out)) {
            zip.setLevel(Deflater.BEST_SPEED);
            zip.putNextEntry(new ZipEntry(Log.DATABASE_FILE));
            Files.copy(snapshot, zip);
            zip.closeEntry();
            int visits;
            try (Database copy = Database.openFile(snapshot, Schema.CURRENT)) {
                visits =
                        each(
                                copy,
                                progress,
                                (visit, file) -> {
                                    zip.putNextEntry(
                                            new ZipEntry(
                                                    Log.RECORDINGS_FOLDER
                                                            + "/"
                                                            + visit
                                                            + "/"
                                                            + file.name()));
                                    boolean whole = pour(visit, file, zip);
                                    zip.closeEntry();
                                    return whole;
                                });
            }
            zip.finish();
            out.flush();
            channel.force(true);
            return visits;
        }
    }

    private boolean pour(UUID visit, KeptFile file, OutputStream out) throws IOException {
        MessageDigest digest = KeptFile.newDigest();
        try (InputStream in = new DigestInputStream(recordings.open(visit, file), digest)) {
            in.transferTo(out);
        }
        return HexFormat.of().formatHex(digest.digest()).equals(file.sha256());
    }

    private int each(Database copy, WorkProgress progress, Taker taker) throws IOException {
        List<String> ids = copy.read(VisitRows::ids);
        int done = 0;
        for (String text : ids) {
            UUID visit = UUID.fromString(text);
            Set<String> removed = copy.read(c -> Removals.names(c, visit));
            for (KeptFile file : copy.read(c -> VisitRows.files(c, visit))) {
                if (!removed.contains(file.name())) {
                    one(visit, file, taker);
                }
            }
            progress.at(++done, ids.size());
        }
        return done;
    }

    private void one(UUID visit, KeptFile file, Taker taker) throws IOException {
        Path from = recordings.of(visit).resolve(file.name());
        // A ZIP file cannot take back what it was given, so doubtful files are read twice.
        boolean whole = Files.isRegularFile(from) && (!evenDamaged || isWhole(from, file));
        if (whole && take(visit, file, taker)) {
            files++;
            bytes += file.sizeBytes();
            return;
        }
        if (log.isRemoved(visit, file)) {
            throw log.tidiedMeanwhile(visit, file);
        }
        if (whole || !evenDamaged) {
            throw new StoreException(
                    StoreException.Reason.DAMAGED,
                    from
                            + " is not as it was imported, so no backup was made; 'tickover verify'"
                            + " lists all that is wrong, --even-damaged backs up the rest");
        }
        leftOut.add(log.place().local().relativize(from).toString());
    }

    private static boolean take(UUID visit, KeptFile file, Taker taker) throws IOException {
        try {
            return taker.take(visit, file);
        } catch (NoSuchFileException e) {
            // It went between the look and the copy.
            return false;
        }
    }

    private static boolean isWhole(Path path, KeptFile file) {
        try {
            return KeptFile.of(path, file.named()).equals(file);
        } catch (VisitFolderException e) {
            return false;
        }
    }

    private static void force(Path file) throws IOException {
        try (FileChannel channel = FileChannel.open(file, StandardOpenOption.WRITE)) {
            channel.force(true);
        }
    }

    private static void deleteTree(Path root) throws IOException {
        if (!Files.exists(root)) {
            return;
        }
        List<Path> all;
        try (Stream<Path> walk = Files.walk(root)) {
            all = walk.sorted(Comparator.reverseOrder()).toList();
        }
        for (Path p : all) {
            Files.delete(p);
        }
    }

    /** Removes what did not get its name. */
    @Override
    public void close() throws IOException {
        deleteTree(part);
        if (isZip(target)) {
            Files.deleteIfExists(snapshot);
            for (String ending : List.of("-wal", "-shm")) {
                Files.deleteIfExists(snapshot.resolveSibling(snapshot.getFileName() + ending));
            }
        }
    }
}

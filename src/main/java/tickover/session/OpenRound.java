package tickover.session;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.ByteBuffer;
import java.nio.channels.FileChannel;
import java.nio.charset.StandardCharsets;
import java.nio.file.DirectoryIteratorException;
import java.nio.file.DirectoryStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.time.LocalDateTime;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.Set;
import java.util.UUID;
import java.util.concurrent.ConcurrentHashMap;
import tickover.store.Log;
import tickover.store.LogPlace;
import tickover.store.Visit;

/**
 * A round whose recording is not in the log yet: the window was closed, or the program ended, in
 * mid-round.
 *
 * <p>A mark lies beside the recording from its first byte until the log has it, and holds what the
 * driver said, which the recording does not. While the round is under way its program holds a lock
 * on the mark, so that no other program takes in half a round.
 *
 * @param recording the file
 * @param complaint what the driver said; may be empty
 * @param lastWritten when it was last written, local time
 */
public record OpenRound(Path recording, String complaint, LocalDateTime lastWritten) {
    private static final String MARK = ".open";

    /**
     * Marks that this program holds. It may not look at their locks: to close a second channel of a
     * file lets go of the first one's lock as well, on some systems.
     */
    private static final Set<Path> HELD_HERE = ConcurrentHashMap.newKeySet();

    public OpenRound {
        Objects.requireNonNull(recording, "recording");
        Objects.requireNonNull(complaint, "complaint");
        Objects.requireNonNull(lastWritten, "lastWritten");
    }

    /** The mark of a round that is under way, held until it is closed or the program is gone. */
    static final class Mark implements AutoCloseable {
        private final Map<Path, FileChannel> held;

        private Mark(Map<Path, FileChannel> held) {
            this.held = held;
        }

        /** Of a recording that runs again: there is nothing to mark. */
        static Mark none() {
            return new Mark(Map.of());
        }

        /** Says that a recording is to come into the log. */
        static Mark on(Path recording, String complaint) throws IOException {
            Path file = markOf(recording).toAbsolutePath().normalize();
            FileChannel channel =
                    FileChannel.open(file, StandardOpenOption.CREATE, StandardOpenOption.WRITE);
            channel.write(ByteBuffer.wrap(complaint.getBytes(StandardCharsets.UTF_8)));
            channel.force(true);
            isTaken(channel);
            HELD_HERE.add(file);
            return new Mark(Map.of(file, channel));
        }

        /** Lets go of it; the mark itself stays until the recording is settled. */
        @Override
        public void close() {
            for (Map.Entry<Path, FileChannel> mark : held.entrySet()) {
                try {
                    mark.getValue().close();
                } catch (IOException e) {
                    throw new UncheckedIOException(e);
                } finally {
                    HELD_HERE.remove(mark.getKey());
                }
            }
        }
    }

    /** Whether another program holds a mark; takes it otherwise, until the channel is closed. */
    private static boolean isTaken(FileChannel channel) {
        try {
            return channel.tryLock() == null;
        } catch (IOException e) {
            // A file system without locks: it cannot be told, and whoever asks decides.
            return false;
        }
    }

    private static boolean isUnderWay(Path mark) throws IOException {
        if (HELD_HERE.contains(mark.toAbsolutePath().normalize())) {
            return true;
        }
        try (FileChannel channel = FileChannel.open(mark, StandardOpenOption.WRITE)) {
            return isTaken(channel);
        }
    }

    /** Says that nothing more is to become of it. */
    static void settle(Path recording) {
        try {
            Files.deleteIfExists(markOf(recording));
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    private static Path markOf(Path recording) {
        return recording.resolveSibling(recording.getFileName() + MARK);
    }

    /**
     * Finds the rounds that were left open and are not under way.
     *
     * @param folder where recordings are made
     * @return oldest first; empty if there is no such folder
     * @throws UncheckedIOException if it cannot be read
     */
    public static List<OpenRound> in(Path folder) {
        List<OpenRound> out = new ArrayList<>();
        if (!Files.isDirectory(folder)) {
            return out;
        }
        try (DirectoryStream<Path> marks = Files.newDirectoryStream(folder, "*" + MARK)) {
            for (Path mark : marks) {
                String name = mark.getFileName().toString();
                Path recording =
                        mark.resolveSibling(name.substring(0, name.length() - MARK.length()));
                if (Files.exists(recording) && !isUnderWay(mark)) {
                    out.add(
                            new OpenRound(
                                    recording,
                                    Files.readString(mark),
                                    LocalDateTime.ofInstant(
                                            Files.getLastModifiedTime(recording).toInstant(),
                                            ZoneId.systemDefault())));
                }
            }
        } catch (DirectoryIteratorException e) {
            throw new UncheckedIOException(e.getCause());
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
        out.sort(Comparator.comparing(OpenRound::lastWritten));
        return out;
    }

    /**
     * Takes the recording into the log, with what it says.
     *
     * @param place where the log lives
     * @return the visit
     * @throws AcquisitionException if the recording cannot be read or holds nothing usable
     * @throws tickover.store.StoreException if the log fails
     */
    public Visit takeInto(LogPlace place) {
        UUID id = RecordingVisit.idOf(recording);
        Optional<Visit> known;
        try (Log log = Log.open(place)) {
            known = log.visit(id);
        }
        if (known.isPresent()) {
            settle(recording);
            return known.orElseThrow();
        }
        Path work = workFolder();
        try {
            return take(recording, complaint, work.resolve("kept"), place);
        } finally {
            WorkFolder.remove(work);
        }
    }

    private static Path workFolder() {
        try {
            return Files.createTempDirectory("tickover-round");
        } catch (IOException e) {
            throw new AcquisitionException(
                    AcquisitionException.Kind.OUTSIDE,
                    "no temporary folder can be made: " + e.getMessage(),
                    e);
        }
    }

    /** Leaves the recording out of the log for good; the file stays. */
    public void leaveOut() {
        settle(recording);
    }

    /** Makes a visit of a recording, in a folder that does not exist yet, and keeps it. */
    static Visit take(Path recording, String complaint, Path folder, LogPlace place) {
        RecordingVisit.Made made =
                RecordingVisit.write(
                        recording, new RecordingVisit.About(null, complaint, Double.NaN), folder);
        try (Log log = Log.open(place)) {
            log.importVisit(made.visit());
        }
        settle(recording);
        KeptResults.of(place, made.visit(), v -> VisitAnalysis.analyse(v, (done, total) -> {}));
        return made.visit();
    }
}

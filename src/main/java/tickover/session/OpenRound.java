package tickover.session;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.DirectoryIteratorException;
import java.nio.file.DirectoryStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.time.Instant;
import java.time.LocalDateTime;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Objects;
import java.util.Optional;
import java.util.UUID;
import tickover.store.Log;
import tickover.store.LogPlace;
import tickover.store.Visit;

/**
 * A round whose recording is not in the log yet: the window was closed, or the program ended, in
 * mid-round.
 *
 * <p>A mark lies beside the recording from its first byte until the log has it, and holds what the
 * driver said, which the recording does not.
 *
 * @param recording the file
 * @param complaint what the driver said; may be empty
 * @param lastWritten when it was last written, local time
 */
public record OpenRound(Path recording, String complaint, LocalDateTime lastWritten) {
    private static final String MARK = ".open";

    /** A recording that was written to so lately is still being made: it is, each second. */
    private static final Duration QUIET = Duration.ofSeconds(5);

    public OpenRound {
        Objects.requireNonNull(recording, "recording");
        Objects.requireNonNull(complaint, "complaint");
        Objects.requireNonNull(lastWritten, "lastWritten");
    }

    /** Says that a recording is to come into the log. */
    static void mark(Path recording, String complaint) throws IOException {
        Files.writeString(markOf(recording), complaint);
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
     * Finds the rounds that were left open.
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
        Instant quietSince = Instant.now().minus(QUIET);
        try (DirectoryStream<Path> marks = Files.newDirectoryStream(folder, "*" + MARK)) {
            for (Path mark : marks) {
                String name = mark.getFileName().toString();
                Path recording =
                        mark.resolveSibling(name.substring(0, name.length() - MARK.length()));
                if (Files.exists(recording)) {
                    Instant written = Files.getLastModifiedTime(recording).toInstant();
                    if (written.isBefore(quietSince)) {
                        out.add(
                                new OpenRound(
                                        recording,
                                        Files.readString(mark),
                                        LocalDateTime.ofInstant(written, ZoneId.systemDefault())));
                    }
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

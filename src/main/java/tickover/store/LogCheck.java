package tickover.store;

import java.io.IOException;
import java.io.InputStream;
import java.nio.file.Files;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.util.ArrayList;
import java.util.HexFormat;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.Set;
import java.util.UUID;

/**
 * Checks a whole log: the database against its own rules, every kept file against the size and
 * SHA-256 that it came with, and the folders against the rows. Changes nothing but the version of
 * an older log's tables.
 */
public final class LogCheck {
    private static final String RECORDING_ENDING = ".tkr";

    private static final String LIST_REMOVALS =
            """
            SELECT removed_at_ms, rule, COUNT(*) AS files, SUM(size_bytes) AS bytes
            FROM removal JOIN kept_file ON kept_file.visit_id = removal.visit_id
                AND kept_file.name = removal.name
            GROUP BY removed_at_ms, rule ORDER BY removed_at_ms\
            """;

    private final LogPlace place;
    private final RecordingCheck recordingCheck;
    private final List<Problem> problems = new ArrayList<>();
    private final List<String> remarks = new ArrayList<>();
    private final List<Removed> removed = new ArrayList<>();
    private int visits;
    private int files;
    private long bytes;

    private LogCheck(LogPlace place, RecordingCheck recordingCheck) {
        this.place = place;
        this.recordingCheck = recordingCheck;
    }

    /** Looks into a recording ({@code .tkr}) for damage by the file's own checksums. */
    @FunctionalInterface
    public interface RecordingCheck {
        /**
         * Looks.
         *
         * @param recording the file
         * @return what is wrong with it, as the end of a sentence; empty if nothing is
         */
        Optional<String> damage(Path recording);
    }

    /** What kind of thing is wrong. */
    public enum Kind {
        /** The database is damaged in itself. */
        DATABASE,
        /** A row refers to one that is not there. */
        REFERENCE,
        /** A file is gone without a rule having removed it. */
        MISSING,
        /** A file does not hold what it came with. */
        CHANGED,
        /** A file cannot be read. */
        UNREADABLE,
        /** A file or folder that nothing in the log speaks of. */
        LEFTOVER
    }

    /**
     * One thing that is wrong.
     *
     * @param kind what kind
     * @param place the file or table
     * @param sentence what is wrong and what to do, without its full stop
     */
    public record Problem(Kind kind, String place, String sentence) {}

    /**
     * Raw recordings that were removed by rule, which is as it should be.
     *
     * @param date when, local, such as 2026-03-04
     * @param rule by which
     * @param files how many
     * @param bytes how much room they took
     */
    public record Removed(String date, String rule, int files, long bytes) {}

    /**
     * What a check came to.
     *
     * @param problems what is wrong; empty if the log is whole
     * @param remarks what is worth knowing and no fault of the log; whole sentences
     * @param removed what was removed by rule
     * @param visits visits looked at
     * @param files files looked at
     * @param bytes of those, read to the last
     */
    public record Answer(
            List<Problem> problems,
            List<String> remarks,
            List<Removed> removed,
            int visits,
            int files,
            long bytes) {
        public Answer {
            problems = List.copyOf(problems);
            remarks = List.copyOf(remarks);
            removed = List.copyOf(removed);
        }
    }

    /**
     * Checks a log.
     *
     * @param place where it lives
     * @param recordingCheck knows recordings
     * @param progress hears of every visit
     * @return what is wrong
     * @throws StoreException if there is no log, or a newer version wrote it
     */
    public static Answer run(LogPlace place, RecordingCheck recordingCheck, WorkProgress progress) {
        Objects.requireNonNull(recordingCheck, "recordingCheck");
        Objects.requireNonNull(progress, "progress");
        LogCheck check = new LogCheck(place, recordingCheck);
        try (LogFolder log = LogFolder.open(place)) {
            check.rules(log.database());
            check.files(log, progress);
            check.leftovers(log);
        } catch (StoreException e) {
            if (e.reason() != StoreException.Reason.DAMAGED) {
                throw e;
            }
            check.add(
                    Kind.DATABASE,
                    place.isFolder()
                            ? place.local().resolve(Log.DATABASE_FILE).toString()
                            : place.shown(),
                    "cannot be read to its end; put a backup in its place");
        }
        return new Answer(
                check.problems,
                check.remarks,
                check.removed,
                check.visits,
                check.files,
                check.bytes);
    }

    private void add(Kind kind, String place, String what) {
        problems.add(new Problem(kind, place, Wording.oneLine(place + " " + what)));
    }

    private void rules(Database database) {
        database.read(
                c -> {
                    for (String said : database.dialect().damage(c)) {
                        add(
                                Kind.DATABASE,
                                place.isFolder() ? Log.DATABASE_FILE : place.shown(),
                                "is damaged: " + said);
                    }
                    Map<String, Integer> broken = database.dialect().danglingRows(c);
                    broken.forEach(
                            (table, rows) ->
                                    add(
                                            Kind.REFERENCE,
                                            "table " + table,
                                            "has "
                                                    + rows
                                                    + " rows that refer to nothing; put a backup in"
                                                    + " its place"));
                    removed.addAll(
                            Row.list(
                                    c,
                                    LIST_REMOVALS,
                                    r ->
                                            new Removed(
                                                    Removals.date(r.getLong("removed_at_ms")),
                                                    r.getString("rule"),
                                                    r.getInt("files"),
                                                    r.getLong("bytes"))));
                    return broken;
                });
    }

    private void files(LogFolder log, WorkProgress progress) {
        List<String> ids = log.database().read(VisitRows::ids);
        for (String text : ids) {
            UUID id = UUID.fromString(text);
            List<KeptFile> kept = log.database().read(c -> VisitRows.files(c, id));
            Set<String> gone = log.database().read(c -> Removals.names(c, id));
            String content = log.database().read(c -> VisitRows.content(c, id)).orElse("");
            if (!content.equals(HexFormat.of().formatHex(KeptFile.contentDigest(kept)))) {
                add(
                        Kind.DATABASE,
                        "visit " + id,
                        "has rows of files that do not fit it; put a backup in its place");
            }
            for (KeptFile file : kept) {
                if (!gone.contains(file.name())) {
                    file(log, id, file);
                }
            }
            visits++;
            progress.at(visits, ids.size());
        }
    }

    private void file(LogFolder log, UUID id, KeptFile file) {
        String name = log.recordings().shown(id, file.name());
        files++;
        KeptFile now;
        try {
            now = KeptFile.of(log.recordings().open(id, file), file);
        } catch (NoSuchFileException e) {
            // A removal by rule may run beside the check.
            if (!log.isRemoved(id, file)) {
                add(
                        Kind.MISSING,
                        name,
                        "is missing; import an archive that has it, or put it back from a backup");
            }
            return;
        } catch (IOException e) {
            add(Kind.UNREADABLE, name, "cannot be read: " + Wording.reason(e));
            return;
        }
        bytes += now.sizeBytes();
        Optional<String> damage =
                file.name().endsWith(RECORDING_ENDING) ? damage(log, id, file) : Optional.empty();
        if (!now.equals(file)) {
            String how =
                    now.sizeBytes() == file.sizeBytes()
                            ? "holds other bytes than it came with"
                            : "has " + now.sizeBytes() + " bytes and came with " + file.sizeBytes();
            add(
                    Kind.CHANGED,
                    name,
                    how
                            + damage.map(d -> " (" + d + ")").orElse("")
                            + "; import an archive that has it, or put it back from a backup");
        } else if (damage.isPresent()) {
            remarks.add(name + " is as it came, and was damaged before: " + damage.get() + ".");
        }
    }

    /** Looks into a recording; on a server it has to be copied here first. */
    private Optional<String> damage(LogFolder log, UUID id, KeptFile file) {
        Path alone = null;
        try {
            if (log.place().isFolder()) {
                Path folder = log.recordings().folder(id, List.of());
                return recordingCheck.damage(folder.resolve(file.name()));
            }
            alone = Files.createTempFile("tickover-", RECORDING_ENDING);
            try (InputStream in = log.recordings().open(id, file)) {
                Files.copy(in, alone, StandardCopyOption.REPLACE_EXISTING);
            }
            return recordingCheck.damage(alone);
        } catch (IOException e) {
            return Optional.of("it cannot be read: " + Wording.reason(e));
        } finally {
            forget(alone);
        }
    }

    private static void forget(Path file) {
        try {
            if (file != null) {
                Files.deleteIfExists(file);
            }
        } catch (IOException e) {
            // It lies in the folder for such files, which the system clears.
            return;
        }
    }

    private void leftovers(LogFolder log) {
        Map<String, Set<String>> foreign = log.recordings().leftovers(log.database());
        foreign.forEach(
                (folder, names) -> {
                    if (names.isEmpty()) {
                        add(
                                Kind.LEFTOVER,
                                folder,
                                "belongs to no visit of the log: an import that was cut off left"
                                        + " it, or the database is older than it; the next import"
                                        + " removes it, so copy it away first if it is wanted");
                    }
                    names.forEach(
                            name ->
                                    add(
                                            Kind.LEFTOVER,
                                            folder + "/" + name,
                                            "is no file of that visit; move it away"));
                });
    }
}

package tickover.store;

import com.google.gson.JsonArray;
import com.google.gson.JsonElement;
import com.google.gson.JsonObject;
import com.google.gson.JsonParseException;
import com.google.gson.JsonParser;
import java.io.BufferedReader;
import java.io.FileNotFoundException;
import java.io.IOException;
import java.io.InputStream;
import java.io.InputStreamReader;
import java.nio.charset.StandardCharsets;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import java.util.UUID;
import java.util.zip.ZipEntry;
import java.util.zip.ZipException;
import java.util.zip.ZipFile;

/**
 * Takes an archive into a log. What is there already changes nothing, and it does not matter which
 * of two logs takes the other in, or how often: both end up with the same.
 *
 * <p>Notes and repair marks come first, in one piece; then each visit with its results and files,
 * each in one piece. An import that is cut off leaves whole visits, and the same import again adds
 * the rest.
 */
public final class ArchiveImport {
    private final ZipFile zip;
    private final LogFolder log;
    private final Tally tally = new Tally();

    private ArchiveImport(ZipFile zip, LogFolder log) {
        this.zip = zip;
        this.log = log;
    }

    /** What was new, counted while it goes in. */
    static final class Tally {
        int visits;
        int knownVisits;
        int findings;
        int notes;
        int drives;
        int files;
        final List<String> said = new ArrayList<>();
        final List<String> refused = new ArrayList<>();
    }

    /**
     * What became of an archive.
     *
     * @param visits visits that are new to the log
     * @param knownVisits visits that were in it already
     * @param findings results that are new to it, those of new visits included
     * @param notes notes, repair marks and withdrawals of such that are new to it
     * @param drives vehicles whose saved drive is another now
     * @param files files that were put back into visits that were there already
     * @param said what a person should know; whole sentences
     * @param refused visits that were not taken in, and why; whole sentences
     */
    public record Taken(
            int visits,
            int knownVisits,
            int findings,
            int notes,
            int drives,
            int files,
            List<String> said,
            List<String> refused) {
        public Taken {
            said = List.copyOf(said);
            refused = List.copyOf(refused);
        }

        /**
         * Tells whether the log is another than before.
         *
         * @return false if everything was there already
         */
        public boolean changed() {
            return visits + findings + notes + drives + files > 0;
        }
    }

    /**
     * Takes an archive in.
     *
     * @param place where the log lives; a log is made there if there is none
     * @param file the archive
     * @param progress hears of every visit
     * @return what was new
     * @throws StoreException if the file is no archive, is damaged or newer than this program, or
     *     the log or its disk fails; visits taken in before that stay
     */
    public static Taken take(LogPlace place, Path file, WorkProgress progress) {
        Objects.requireNonNull(progress, "progress");
        try (ZipFile zip = new ZipFile(file.toFile(), StandardCharsets.UTF_8)) {
            requireKnown(zip);
            Log.open(place).close();
            try (LogFolder log = LogFolder.open(place)) {
                return new ArchiveImport(zip, log).run(progress);
            }
        } catch (ZipException e) {
            throw new StoreException(
                    StoreException.Reason.BAD_ARCHIVE,
                    file
                            + " is no archive of a log, or was cut off ("
                            + e.getMessage()
                            + "); copy"
                            + " it again",
                    e);
        } catch (VisitFolderException e) {
            throw new StoreException(
                    StoreException.Reason.BAD_ARCHIVE, file + " is damaged: " + e.getMessage(), e);
        } catch (FileNotFoundException | NoSuchFileException e) {
            throw new StoreException(
                    StoreException.Reason.BAD_ARCHIVE, "there is no file " + file, e);
        } catch (StoreException e) {
            throw e.reason() == StoreException.Reason.BAD_ARCHIVE
                    ? new StoreException(e.reason(), file + ": " + e.getMessage(), e)
                    : e;
        } catch (IOException e) {
            throw StoreException.of(e, file);
        }
    }

    private static void requireKnown(ZipFile zip) throws IOException {
        if (zip.getEntry(LogArchive.HEAD) == null) {
            String what =
                    zip.getEntry(Log.DATABASE_FILE) == null
                            ? "is a ZIP file of another program"
                            : "is a backup: unpack it and name its folder with --data. It";
            throw new StoreException(
                    StoreException.Reason.BAD_ARCHIVE,
                    "it " + what + " holds no " + LogArchive.HEAD);
        }
        JsonObject head = lines(zip, LogArchive.HEAD).get(0);
        int version = number(head, "tickoverArchive");
        if (version > LogArchive.VERSION || number(head, "logVersion") > Schema.CURRENT.version()) {
            throw new StoreException(
                    StoreException.Reason.BAD_ARCHIVE,
                    "a newer version of Tickover wrote it (archive version "
                            + version
                            + ", log version "
                            + number(head, "logVersion")
                            + "; this one knows up to "
                            + LogArchive.VERSION
                            + " and "
                            + Schema.CURRENT.version()
                            + "); update Tickover");
        }
    }

    private static int number(JsonObject o, String key) {
        try {
            return o.get(key).getAsInt();
        } catch (RuntimeException e) {
            throw ArchiveRows.bad("has no whole number " + key + " in " + LogArchive.HEAD);
        }
    }

    private static List<JsonObject> lines(ZipFile zip, String name) throws IOException {
        ZipEntry entry = zip.getEntry(name);
        if (entry == null) {
            throw ArchiveRows.bad("has no " + name);
        }
        List<JsonObject> lines = new ArrayList<>();
        try (BufferedReader reader =
                new BufferedReader(
                        new InputStreamReader(zip.getInputStream(entry), StandardCharsets.UTF_8))) {
            for (String line = reader.readLine(); line != null; line = reader.readLine()) {
                try {
                    lines.add(JsonParser.parseString(line).getAsJsonObject());
                } catch (JsonParseException | IllegalStateException e) {
                    throw ArchiveRows.bad(
                            "cannot be read in " + name + ", line " + (lines.size() + 1));
                }
            }
        }
        if (lines.isEmpty() && !name.equals(LogArchive.LOG_ROWS)) {
            throw ArchiveRows.bad("has nothing in " + name);
        }
        return lines;
    }

    private Taken run(WorkProgress progress) throws IOException {
        List<JsonObject> rows = lines(zip, LogArchive.LOG_ROWS);
        log.database()
                .write(
                        c -> {
                            FindingOrder.putAllRight(c);
                            for (JsonObject line : rows) {
                                MarkMerge.take(c, line, tally);
                            }
                            return rows;
                        });
        List<UUID> visits = visits();
        int done = 0;
        for (UUID visit : visits) {
            visit(visit);
            progress.at(++done, visits.size());
        }
        return new Taken(
                tally.visits,
                tally.knownVisits,
                tally.findings,
                tally.notes,
                tally.drives,
                tally.files,
                tally.said,
                tally.refused);
    }

    private List<UUID> visits() throws IOException {
        List<UUID> visits = new ArrayList<>();
        for (ZipEntry entry : (Iterable<ZipEntry>) zip.stream().map(e -> (ZipEntry) e)::iterator) {
            String name = entry.getName();
            if (name.startsWith(LogArchive.RESULTS) && name.endsWith(LogArchive.ROWS_ENDING)) {
                String id =
                        name.substring(
                                LogArchive.RESULTS.length(),
                                name.length() - LogArchive.ROWS_ENDING.length());
                try {
                    visits.add(UUID.fromString(id));
                } catch (IllegalArgumentException e) {
                    throw ArchiveRows.bad("has results of " + Wording.quoted(id) + ", no visit");
                }
            }
        }
        int promised = number(lines(zip, LogArchive.HEAD).get(0), "visits");
        if (visits.size() != promised) {
            throw ArchiveRows.bad("has " + visits.size() + " visits of " + promised);
        }
        return visits;
    }

    private void visit(UUID id) throws IOException {
        List<JsonObject> lines = lines(zip, LogArchive.RESULTS + id + LogArchive.ROWS_ENDING);
        VisitMerge merge = new VisitMerge(log, tally, id, lines, file -> open(id, file));
        merge.run();
    }

    private InputStream open(UUID visit, KeptFile file) throws IOException {
        ZipEntry entry = zip.getEntry(LogArchive.VISITS + visit + "/" + file.name());
        if (entry == null) {
            throw ArchiveRows.bad("lacks the file " + file.name() + " of visit " + visit);
        }
        return zip.getInputStream(entry);
    }

    /** A row of one of the archive's objects. */
    static JsonObject object(JsonObject o, String key) {
        JsonElement e = o.get(key);
        if (e instanceof JsonObject row) {
            return row;
        }
        throw ArchiveRows.bad("has no row " + key + " where one has to be");
    }

    /** The rows of one table. */
    static JsonArray rows(JsonObject o, String key) {
        JsonElement e = o.get(key);
        if (e == null) {
            return new JsonArray();
        }
        if (e instanceof JsonArray rows) {
            return rows;
        }
        throw ArchiveRows.bad("has no rows " + key + " where some have to be");
    }

    /** A text of a row. */
    static String text(JsonObject row, String column) {
        JsonElement e = row.get(column);
        if (e != null && e.isJsonPrimitive() && e.getAsJsonPrimitive().isString()) {
            return e.getAsString();
        }
        throw ArchiveRows.bad("has a row without the text " + column);
    }

    /** A whole number of a row. */
    static long whole(JsonObject row, String column) {
        try {
            return row.get(column).getAsLong();
        } catch (RuntimeException e) {
            throw ArchiveRows.bad("has a row without the number " + column);
        }
    }
}

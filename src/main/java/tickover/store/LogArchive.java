package tickover.store;

import com.google.gson.JsonArray;
import com.google.gson.JsonObject;
import java.io.BufferedOutputStream;
import java.io.IOException;
import java.io.InputStream;
import java.io.OutputStream;
import java.nio.channels.Channels;
import java.nio.channels.FileChannel;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.nio.file.StandardOpenOption;
import java.security.DigestInputStream;
import java.security.MessageDigest;
import java.sql.Connection;
import java.sql.SQLException;
import java.time.Clock;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.HexFormat;
import java.util.List;
import java.util.Objects;
import java.util.Set;
import java.util.UUID;
import java.util.zip.Deflater;
import java.util.zip.ZipEntry;
import java.util.zip.ZipOutputStream;

/**
 * Writes a log, or a part of it, as one file that other logs can take in: {@code docs/log.md}
 * describes the form. {@link ArchiveImport} reads it.
 */
public final class LogArchive {
    static final int VERSION = 1;
    static final String HEAD = "archive.json";
    static final String LOG_ROWS = "log.jsonl";
    static final String VISITS = "visits/";
    static final String RESULTS = "results/";
    static final String ROWS_ENDING = ".jsonl";

    private static final byte[] ZIP_START = {'P', 'K', 3, 4};

    private final LogFolder log;
    private final Filter filter;
    private int findings;
    private int files;
    private long fileBytes;

    private LogArchive(LogFolder log, Filter filter) {
        this.log = log;
        this.filter = filter;
    }

    /**
     * What goes into an archive.
     *
     * @param units of these vehicles, as the fleet calls them; empty for all
     * @param since visits, notes and repairs of this day and later; {@link LocalDate#MIN} for all
     */
    public record Filter(List<String> units, LocalDate since) {
        /** The whole log. */
        public static final Filter ALL = new Filter(List.of(), LocalDate.MIN);

        public Filter {
            units = List.copyOf(units);
            Objects.requireNonNull(since, "since");
        }

        private boolean has(JsonObject row, String dateColumn) {
            return hasUnit(row.get("unit").getAsString())
                    && (since.equals(LocalDate.MIN)
                            || row.get(dateColumn).getAsString().compareTo(since.toString()) >= 0);
        }

        private boolean hasUnit(String unit) {
            return units.isEmpty() || units.contains(unit);
        }
    }

    /**
     * What was written.
     *
     * @param file the archive
     * @param visits visits in it
     * @param findings results of those
     * @param notes notes and repair marks in it
     * @param files files of visits in it
     * @param fileBytes of those
     * @param bytes its size
     */
    public record Written(
            Path file,
            int visits,
            int findings,
            int notes,
            int files,
            long fileBytes,
            long bytes) {}

    /**
     * Tells whether a file looks like an archive, by its first bytes.
     *
     * @param file any path
     * @return true for ZIP files
     */
    public static boolean isOne(Path file) {
        if (!Files.isRegularFile(file)) {
            return false;
        }
        try (InputStream in = Files.newInputStream(file)) {
            return java.util.Arrays.equals(in.readNBytes(ZIP_START.length), ZIP_START);
        } catch (IOException e) {
            return false;
        }
    }

    /**
     * Writes an archive: all of it, or nothing.
     *
     * @param place where the log lives
     * @param to the file, which does not exist yet
     * @param filter what goes into it
     * @param clock says when it was made
     * @param progress hears of every visit
     * @return what was written
     * @throws StoreException if there is no log, the log knows no vehicle of the filter, the file
     *     exists, a kept file is not as it was taken in, or a disk fails
     */
    public static Written write(
            LogPlace place, Path to, Filter filter, Clock clock, WorkProgress progress) {
        Objects.requireNonNull(filter, "filter");
        Objects.requireNonNull(progress, "progress");
        Path file = to.toAbsolutePath().normalize();
        NewFolder.requireName(file);
        Path part = file.resolveSibling("." + file.getFileName() + ".part");
        try (LogFolder log = LogFolder.open(place)) {
            if (Files.exists(file)) {
                throw new StoreException(
                        StoreException.Reason.FOLDER_NOT_EMPTY,
                        to + " is there already; give the archive a name of its own");
            }
            for (String unit : filter.units()) {
                log.database().read(c -> VisitRows.knownVehicle(c, unit));
            }
            Files.createDirectories(file.getParent());
            Files.deleteIfExists(part);
            try {
                LogArchive archive = new LogArchive(log, filter);
                Written written = archive.write(part, file, clock, progress);
                Files.move(part, file, StandardCopyOption.ATOMIC_MOVE);
                FolderRecordings.flushFolder(file.getParent());
                return written;
            } finally {
                Files.deleteIfExists(part);
            }
        } catch (IOException e) {
            throw StoreException.of(e, to);
        }
    }

    private Written write(Path part, Path file, Clock clock, WorkProgress progress)
            throws IOException {
        try (FileChannel channel =
                        FileChannel.open(
                                part, StandardOpenOption.CREATE_NEW, StandardOpenOption.WRITE);
                OutputStream out = new BufferedOutputStream(Channels.newOutputStream(channel));
                ZipOutputStream zip = new ZipOutputStream(out, StandardCharsets.UTF_8)) {
            zip.setLevel(Deflater.BEST_SPEED);
            List<UUID> visits = log.database().read(this::visits);
            text(zip, HEAD, List.of(head(clock, visits.size())));
            List<JsonObject> rows = log.database().read(this::logRows);
            text(zip, LOG_ROWS, rows);
            int done = 0;
            for (UUID visit : visits) {
                visit(zip, visit);
                progress.at(++done, visits.size());
            }
            zip.finish();
            out.flush();
            channel.force(true);
            int notes = (int) rows.stream().filter(r -> r.has("note") || r.has("repair")).count();
            return new Written(
                    file, visits.size(), findings, notes, files, fileBytes, Files.size(part));
        }
    }

    private JsonObject head(Clock clock, int visits) {
        JsonObject head = new JsonObject();
        head.addProperty("tickoverArchive", VERSION);
        head.addProperty("logVersion", Schema.CURRENT.version());
        head.addProperty("madeAt", clock.instant().toString());
        head.addProperty("visits", visits);
        if (!filter.units().isEmpty()) {
            JsonArray units = new JsonArray();
            filter.units().forEach(units::add);
            head.add("units", units);
        }
        if (!filter.since().equals(LocalDate.MIN)) {
            head.addProperty("since", filter.since().toString());
        }
        return head;
    }

    private static void text(ZipOutputStream zip, String name, List<JsonObject> lines)
            throws IOException {
        zip.putNextEntry(new ZipEntry(name));
        for (JsonObject line : lines) {
            zip.write((line + "\n").getBytes(StandardCharsets.UTF_8));
        }
        zip.closeEntry();
    }

    private List<UUID> visits(Connection c) throws SQLException {
        String sql =
                "SELECT visit.id AS id, unit, visited_at FROM visit"
                        + " JOIN vehicle ON vehicle.id = visit.vehicle_id"
                        + " ORDER BY visited_at, visit.id";
        return Row.list(c, sql, r -> ArchiveRows.of(r, Set.of())).stream()
                .filter(row -> filter.has(row, "visited_at"))
                .map(row -> UUID.fromString(row.get("id").getAsString()))
                .toList();
    }

    /** What is kept beside visits, one object per line with its table's name as the only key. */
    private List<JsonObject> logRows(Connection c) throws SQLException {
        List<JsonObject> lines = new ArrayList<>();
        Row.list(c, "SELECT * FROM vehicle ORDER BY unit", r -> ArchiveRows.of(r, Set.of("id")))
                .stream()
                .filter(row -> filter.hasUnit(row.get("unit").getAsString()))
                .forEach(row -> lines.add(wrap("vehicle", row)));
        Set<String> marked = new java.util.HashSet<>();
        for (String table : List.of("note", "repair")) {
            String date = table.equals("note") ? "noted_at" : "repaired_at";
            String sql =
                    "SELECT t.*, unit FROM "
                            + table
                            + " t JOIN vehicle ON vehicle.id = t.vehicle_id ORDER BY t.id";
            Row.list(c, sql, r -> ArchiveRows.of(r, Set.of("vehicle_id"))).stream()
                    .filter(row -> filter.has(row, date))
                    .forEach(
                            row -> {
                                marked.add(row.get("id").getAsString());
                                lines.add(wrap(table, row));
                            });
        }
        Row.list(c, "SELECT * FROM withdrawal ORDER BY id", r -> ArchiveRows.of(r, Set.of()))
                .stream()
                .filter(
                        row ->
                                filter.equals(Filter.ALL)
                                        || marked.contains(row.get("id").getAsString()))
                .forEach(row -> lines.add(wrap("withdrawal", row)));
        return lines;
    }

    private static JsonObject wrap(String table, JsonObject row) {
        JsonObject line = new JsonObject();
        line.add(table, row);
        return line;
    }

    /** What the log has of a visit at one moment. */
    private record VisitState(List<JsonObject> lines, List<KeptFile> files) {}

    private void visit(ZipOutputStream zip, UUID visit) throws IOException {
        VisitState state =
                log.database()
                        .read(
                                c -> {
                                    Set<String> removed = Removals.names(c, visit);
                                    return new VisitState(
                                            visitRows(c, visit),
                                            VisitRows.files(c, visit).stream()
                                                    .filter(f -> !removed.contains(f.name()))
                                                    .toList());
                                });
        findings += state.lines().size() - 1;
        text(zip, RESULTS + visit + ROWS_ENDING, state.lines());
        for (KeptFile file : state.files()) {
            zip.putNextEntry(new ZipEntry(VISITS + visit + "/" + file.name()));
            pour(visit, file, zip);
            files++;
            fileBytes += file.sizeBytes();
            zip.closeEntry();
        }
    }

    /** The visit's own rows in the first line, a finding in each of the others. */
    private static List<JsonObject> visitRows(Connection c, UUID visit) throws SQLException {
        String id = visit.toString();
        JsonObject own = new JsonObject();
        own.add(
                "visit",
                Row.first(
                                c,
                                "SELECT visit.*, unit FROM visit JOIN vehicle ON vehicle.id ="
                                        + " visit.vehicle_id WHERE visit.id = ?",
                                r -> ArchiveRows.of(r, Set.of("vehicle_id")),
                                id)
                        .orElseThrow());
        for (String table : List.of("kept_file", "capture", "removal")) {
            own.add(table, ArchiveRows.all(c, table, "visit_id", id, Set.of("visit_id")));
        }
        List<JsonObject> lines = new ArrayList<>(List.of(own));
        for (long finding : FindingOrder.ids(c, visit)) {
            lines.add(ArchiveRows.finding(c, finding));
        }
        return lines;
    }

    private void pour(UUID visit, KeptFile file, OutputStream out) throws IOException {
        MessageDigest digest = KeptFile.newDigest();
        try (InputStream in = new DigestInputStream(log.recordings().open(visit, file), digest)) {
            in.transferTo(out);
        } catch (NoSuchFileException e) {
            throw notWhole(visit, file);
        }
        if (!HexFormat.of().formatHex(digest.digest()).equals(file.sha256())) {
            throw notWhole(visit, file);
        }
    }

    private StoreException notWhole(UUID visit, KeptFile file) {
        return log.isRemoved(visit, file)
                ? log.tidiedMeanwhile(visit, file)
                : new StoreException(
                        StoreException.Reason.DAMAGED,
                        log.recordings().shown(visit, file.name())
                                + " is not as it was imported, so nothing was exported; 'tickover"
                                + " verify' lists all that is wrong: put it back from a backup");
    }
}

package tickover.store;

import com.google.gson.JsonArray;
import com.google.gson.JsonElement;
import com.google.gson.JsonObject;
import java.io.IOException;
import java.nio.file.Path;
import java.sql.Connection;
import java.sql.SQLException;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.HashSet;
import java.util.HexFormat;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.UUID;

/**
 * Takes one visit of an archive in: its rows, files and results in one piece. Of a visit that is
 * there already, results that are new are added, and files that a rule removed here come back; a
 * file that is anywhere counts more than its removal elsewhere.
 */
final class VisitMerge {
    private static final String EARLIER_IMPORT =
            "UPDATE visit SET imported_at_ms = ? WHERE id = ? AND imported_at_ms > ?";

    private static final String DELETE_REMOVAL =
            "DELETE FROM removal WHERE visit_id = ? AND name = ?";

    private static final String FIND_REMOVAL =
            "SELECT removed_at_ms, rule FROM removal WHERE visit_id = ? AND name = ?";

    private final LogFolder log;
    private final ArchiveImport.Tally tally;
    private final UUID id;
    private final JsonObject own;
    private final JsonObject visit;
    private final List<JsonObject> findings;
    private final Recordings.FileSource source;
    private final List<KeptFile> files;
    private final Map<String, Removal> removals;

    /** When and by which rule a file went. */
    private record Removal(long atMs, String rule) {
        boolean isBefore(Removal other) {
            return atMs != other.atMs ? atMs < other.atMs : rule.compareTo(other.rule) < 0;
        }
    }

    VisitMerge(
            LogFolder log,
            ArchiveImport.Tally tally,
            UUID id,
            List<JsonObject> lines,
            Recordings.FileSource source) {
        this.log = log;
        this.tally = tally;
        this.id = id;
        this.own = lines.get(0);
        this.visit = ArchiveImport.object(own, "visit");
        this.findings = lines.subList(1, lines.size());
        this.source = source;
        this.files = keptFiles(ArchiveImport.rows(own, "kept_file"));
        this.removals = removals(ArchiveImport.rows(own, "removal"));
        String content = HexFormat.of().formatHex(KeptFile.contentDigest(files));
        if (!ArchiveImport.text(visit, "id").equals(id.toString())
                || !ArchiveImport.text(visit, "content_sha256").equals(content)
                || ArchiveImport.rows(own, "capture").isEmpty()) {
            throw ArchiveRows.bad("has rows of visit " + id + " that do not fit each other");
        }
    }

    private static List<KeptFile> keptFiles(JsonArray rows) {
        List<KeptFile> files = new ArrayList<>();
        for (JsonElement e : rows) {
            JsonObject row = e.getAsJsonObject();
            String name = ArchiveImport.text(row, "name");
            if (!FolderFiles.isPlain(name)) {
                throw ArchiveRows.bad("has the file name " + Wording.quoted(name));
            }
            files.add(
                    new KeptFile(
                            name,
                            ArchiveImport.text(row, "sha256"),
                            ArchiveImport.whole(row, "size_bytes"),
                            ArchiveImport.whole(row, "named") != 0));
        }
        return files;
    }

    private static Map<String, Removal> removals(JsonArray rows) {
        Map<String, Removal> removals = new HashMap<>();
        for (JsonElement e : rows) {
            JsonObject row = e.getAsJsonObject();
            removals.put(
                    ArchiveImport.text(row, "name"),
                    new Removal(
                            ArchiveImport.whole(row, "removed_at_ms"),
                            ArchiveImport.text(row, "rule")));
        }
        return removals;
    }

    void run() throws IOException {
        // Another process may take the same visit in meanwhile; then it is a known one.
        while (!attempt()) {
            Thread.onSpinWait();
        }
    }

    private boolean attempt() throws IOException {
        Optional<String> content = log.database().read(c -> VisitRows.content(c, id));
        if (content.isEmpty()) {
            return takeNew();
        }
        if (!content.get().equals(ArchiveImport.text(visit, "content_sha256"))) {
            tally.refused.add(
                    "Visit "
                            + id
                            + " ("
                            + ArchiveImport.text(visit, "unit")
                            + ") is in the log with other content; the log keeps its own.");
            return true;
        }
        addToKnown();
        return true;
    }

    private boolean takeNew() throws IOException {
        List<KeptFile> there = files.stream().filter(f -> !removals.containsKey(f.name())).toList();
        try (Recordings.Stage stage = log.recordings().stage(there, source)) {
            boolean done = false;
            try {
                requireReadable(stage.dir());
                boolean taken =
                        write(
                                c -> stage.send(c, id),
                                c -> {
                                    if (VisitRows.content(c, id).isPresent()) {
                                        stage.abandon(c);
                                        return false;
                                    }
                                    stage.promote(id);
                                    insertNew(c);
                                    return true;
                                });
                done = true;
                return taken;
            } finally {
                if (!done) {
                    stage.undo(id);
                }
            }
        }
    }

    private void requireReadable(Path folder) {
        try {
            Visit read =
                    VisitFolder.readKept(
                            folder, id, files, new Removals.Of(removals.keySet(), "removed"));
            if (!read.vehicle().unit().equals(ArchiveImport.text(visit, "unit"))) {
                throw ArchiveRows.bad("has visit " + id + " under another vehicle than its own");
            }
            Set<String> named = new HashSet<>();
            read.captures().forEach(capture -> named.add(capture.label().id()));
            Set<String> rows = new HashSet<>();
            ArchiveImport.rows(own, "capture")
                    .forEach(e -> rows.add(ArchiveImport.text(e.getAsJsonObject(), "capture")));
            if (!rows.equals(named)) {
                throw ArchiveRows.bad("has visit " + id + " with other captures than its own");
            }
        } catch (VisitFolderException e) {
            throw ArchiveRows.bad("has a visit " + id + " that cannot be read: " + e.getMessage());
        }
    }

    private void insertNew(Connection c) throws SQLException {
        String unit = ArchiveImport.text(visit, "unit");
        JsonObject row = visit.deepCopy();
        row.remove("unit");
        JsonArray rows = new JsonArray();
        rows.add(row);
        ArchiveRows.insert(
                c, "visit", rows, Map.of("vehicle_id", VisitRows.requireVehicle(c, unit)));
        for (String table : List.of("kept_file", "capture", "removal")) {
            ArchiveRows.insert(
                    c, table, ArchiveImport.rows(own, table), Map.of("visit_id", id.toString()));
        }
        int added = addFindings(c);
        Standings.forget(c, unit);
        tally.visits++;
        tally.findings += added;
    }

    /** Files of a known visit that this log lacks, or has damaged, and the archive has. */
    private List<KeptFile> lacking() {
        Set<KeptFile> here = new HashSet<>(log.database().read(c -> VisitRows.files(c, id)));
        Set<String> names = new HashSet<>();
        here.forEach(f -> names.add(f.name()));
        List<KeptFile> lacking = new ArrayList<>();
        for (KeptFile file : files) {
            boolean known = here.contains(file);
            if (!known && names.contains(file.name())) {
                tally.said.add(
                        "The file "
                                + file.name()
                                + " beside visit "
                                + id
                                + " holds other bytes here; each log keeps its own.");
            } else if (!removals.containsKey(file.name())) {
                boolean held = known && log.recordings().holds(id, file.name());
                boolean damaged = held && !isWhole(file);
                if (damaged) {
                    tally.said.add(
                            log.recordings().shown(id, file.name())
                                    + " was damaged; the archive's bytes, which are those it came"
                                    + " with, are in its place now.");
                }
                if (damaged || !held) {
                    lacking.add(file);
                }
            }
        }
        return lacking;
    }

    /** Whether a file still holds the bytes that it came with; one that cannot be read does not. */
    private boolean isWhole(KeptFile file) {
        try {
            return KeptFile.of(log.recordings().open(id, file), file).equals(file);
        } catch (IOException e) {
            return false;
        }
    }

    private void addToKnown() throws IOException {
        List<KeptFile> lacking = lacking();
        // Without files there is nothing to stage, which matters to a log of many known visits.
        try (Recordings.Stage stage =
                lacking.isEmpty() ? null : log.recordings().stage(lacking, source)) {
            int[] added = {0, 0};
            write(
                    c -> {
                        if (stage != null) {
                            stage.send(c, id);
                        }
                    },
                    c -> {
                        added[0] = lacking.isEmpty() ? 0 : putBack(c, stage, lacking);
                        mergeRemovals(c);
                        long importedAtMs = ArchiveImport.whole(visit, "imported_at_ms");
                        Row.insert(c, EARLIER_IMPORT, importedAtMs, id.toString(), importedAtMs);
                        added[1] = addFindings(c);
                        if (added[1] > 0) {
                            Standings.forget(c, VisitRows.vehicleOf(c, id));
                        }
                        return added;
                    });
            tally.knownVisits++;
            tally.files += added[0];
            tally.findings += added[1];
        }
    }

    private int putBack(Connection c, Recordings.Stage stage, List<KeptFile> lacking)
            throws SQLException, IOException {
        Set<String> rows = new HashSet<>();
        VisitRows.files(c, id).forEach(f -> rows.add(f.name()));
        stage.putBack(c, id, lacking);
        for (KeptFile file : lacking) {
            Row.insert(c, DELETE_REMOVAL, id.toString(), file.name());
            if (!rows.contains(file.name())) {
                insertFile(c, file);
            }
        }
        return lacking.size();
    }

    private void insertFile(Connection c, KeptFile file) throws SQLException {
        Row.insert(
                c,
                Sql.INSERT_FILE,
                id.toString(),
                file.name(),
                file.sha256(),
                file.sizeBytes(),
                file.named());
    }

    /** A file that went in both logs went when it went first. */
    private void mergeRemovals(Connection c) throws SQLException {
        Map<String, KeptFile> here = new HashMap<>();
        VisitRows.files(c, id).forEach(f -> here.put(f.name(), f));
        for (KeptFile file : files) {
            Removal theirs = removals.get(file.name());
            if (theirs == null) {
                continue;
            }
            boolean unknown = !here.containsKey(file.name());
            if (unknown) {
                insertFile(c, file);
            }
            Optional<Removal> ours =
                    Row.first(
                            c,
                            FIND_REMOVAL,
                            r -> new Removal(r.getLong(1), r.getString(2)),
                            id.toString(),
                            file.name());
            if (unknown || (ours.isPresent() && theirs.isBefore(ours.get()))) {
                Row.insert(c, DELETE_REMOVAL, id.toString(), file.name());
                Row.insert(
                        c, Removals.INSERT, id.toString(), file.name(), theirs.atMs, theirs.rule);
            }
        }
    }

    private int addFindings(Connection c) throws SQLException {
        Set<String> known = new HashSet<>();
        for (long finding : FindingOrder.ids(c, id)) {
            known.add(ArchiveRows.digest(ArchiveRows.finding(c, finding)));
        }
        Set<String> captures = new HashSet<>(VisitRows.captures(c, id));
        int added = 0;
        for (JsonObject finding : findings) {
            if (known.add(ArchiveRows.digest(finding))) {
                add(c, finding, captures);
                added++;
            }
        }
        if (added > 0) {
            FindingOrder.putRight(c, id);
        }
        return added;
    }

    private void add(Connection c, JsonObject finding, Set<String> captures) throws SQLException {
        long number = Row.first(c, Sql.NEXT_FINDING, r -> r.getLong(1)).orElseThrow();
        Map<String, Object> given = new LinkedHashMap<>();
        given.put("id", number);
        given.put("visit_id", id.toString());
        JsonArray rows = new JsonArray();
        rows.add(ArchiveImport.object(finding, "finding"));
        ArchiveRows.insert(c, "finding", rows, given);
        for (String table : ArchiveRows.BELOW_FINDING) {
            ArchiveRows.insert(
                    c,
                    table,
                    ArchiveImport.rows(finding, table),
                    Map.of(ArchiveRows.FINDING_ID, number));
        }
        try {
            ResultRows.requireWhole(ResultRows.of(c, number), captures);
        } catch (RuntimeException e) {
            throw ArchiveRows.bad(
                    "has a result of visit "
                            + id
                            + " that cannot be read ("
                            + e.getMessage()
                            + ")");
        }
    }

    /** Rows that the tables refuse are the archive's fault. */
    private <T> T write(Database.Sending sending, Database.Work<T> work) {
        try {
            return log.database().write(sending, work);
        } catch (StoreException e) {
            if (log.database().refusesRows(e)) {
                throw ArchiveRows.bad("has rows of visit " + id + " that the log refuses");
            }
            throw e;
        }
    }
}

package tickover.store;

import com.google.gson.JsonArray;
import com.google.gson.JsonElement;
import com.google.gson.JsonNull;
import com.google.gson.JsonObject;
import java.sql.Connection;
import java.sql.SQLException;
import java.time.DateTimeException;
import java.time.Instant;
import java.time.LocalDateTime;
import java.util.Map;
import java.util.Optional;
import java.util.UUID;

/**
 * Takes what an archive has beside visits into the log: vehicles with the drives that were saved of
 * them, notes, repair marks, and what was taken back.
 */
final class MarkMerge {
    private static final String FIND_DRIVE =
            "SELECT drive_toml, drive_saved_at_ms FROM vehicle WHERE unit = ?";

    /** Who is told to forget how a vehicle stands when a repair is taken back. */
    private static final String FIND_REPAIRED = "SELECT vehicle_id FROM repair WHERE id = ?";

    private static final String EARLIER_WITHDRAWAL =
            "UPDATE withdrawal SET made_at_ms = ? WHERE id = ? AND made_at_ms > ?";

    private MarkMerge() {}

    private record Drive(String toml, long savedAtMs) {}

    static void take(Connection c, JsonObject line, ArchiveImport.Tally tally) throws SQLException {
        if (line.has("vehicle")) {
            vehicle(c, ArchiveImport.object(line, "vehicle"), tally);
        } else if (line.has("note")) {
            mark(c, "note", "noted_at", ArchiveImport.object(line, "note"), tally);
        } else if (line.has("repair")) {
            mark(c, "repair", "repaired_at", ArchiveImport.object(line, "repair"), tally);
        } else if (line.has("withdrawal")) {
            withdrawal(c, ArchiveImport.object(line, "withdrawal"), tally);
        } else {
            throw ArchiveRows.bad("has a line that is of no kind known here");
        }
    }

    /** Of two drives the one saved last counts; saved at the same moment, the greater text. */
    private static void vehicle(Connection c, JsonObject row, ArchiveImport.Tally tally)
            throws SQLException {
        String unit = ArchiveImport.text(row, "unit");
        VisitRows.requireVehicle(c, unit);
        JsonElement toml = row.get("drive_toml");
        if (toml == null || toml instanceof JsonNull) {
            return;
        }
        Drive theirs =
                new Drive(
                        ArchiveImport.text(row, "drive_toml"),
                        ArchiveImport.whole(row, "drive_saved_at_ms"));
        Optional<Drive> ours =
                Row.list(
                                c,
                                FIND_DRIVE,
                                r ->
                                        new Drive(
                                                r.getString(1) == null ? "" : r.getString(1),
                                                r.getLong(2)),
                                unit)
                        .stream()
                        .filter(d -> !d.toml().isEmpty())
                        .findFirst();
        if (ours.isPresent() && ours.get().equals(theirs)) {
            return;
        }
        try {
            VisitFolder.vehicleOf(theirs.toml());
        } catch (VisitFolderException e) {
            throw ArchiveRows.bad("has a drive of " + unit + " that cannot be read");
        }
        boolean theirsCounts = ours.isEmpty() || isNewer(theirs, ours.get());
        if (theirsCounts) {
            Row.insert(c, Sql.SAVE_DRIVE, theirs.toml(), theirs.savedAtMs(), unit);
            Standings.forget(c, unit);
            tally.drives++;
        }
        if (ours.isPresent() && !ours.get().toml().equals(theirs.toml())) {
            tally.said.add(
                    "Two different drives of "
                            + unit
                            + " were saved; the newer one counts, from "
                            + (theirsCounts ? "the archive" : "this log")
                            + " ("
                            + Instant.ofEpochMilli((theirsCounts ? theirs : ours.get()).savedAtMs())
                            + " against "
                            + Instant.ofEpochMilli((theirsCounts ? ours.get() : theirs).savedAtMs())
                            + ").");
        }
    }

    private static boolean isNewer(Drive a, Drive b) {
        return a.savedAtMs() != b.savedAtMs()
                ? a.savedAtMs() > b.savedAtMs()
                : a.toml().compareTo(b.toml()) > 0;
    }

    private static void mark(
            Connection c,
            String table,
            String dateColumn,
            JsonObject row,
            ArchiveImport.Tally tally)
            throws SQLException {
        String id = ArchiveImport.text(row, "id");
        String unit = ArchiveImport.text(row, "unit");
        String find = "SELECT id FROM " + table + " WHERE id = ?";
        if (Row.first(c, find, r -> r.getString(1), id).isPresent()) {
            return;
        }
        try {
            LocalDateTime.parse(ArchiveImport.text(row, dateColumn));
            if (!UUID.fromString(id).toString().equals(id)) {
                throw ArchiveRows.bad("has a " + table + " with the id " + Wording.quoted(id));
            }
        } catch (DateTimeException | IllegalArgumentException e) {
            throw ArchiveRows.bad("has a " + table + " whose date or id cannot be read");
        }
        JsonObject own = row.deepCopy();
        own.remove("unit");
        JsonArray rows = new JsonArray();
        rows.add(own);
        ArchiveRows.insert(c, table, rows, Map.of("vehicle_id", VisitRows.requireVehicle(c, unit)));
        Standings.forget(c, unit);
        tally.notes++;
    }

    /** Taken back is taken back; the first time counts. */
    private static void withdrawal(Connection c, JsonObject row, ArchiveImport.Tally tally)
            throws SQLException {
        String id = ArchiveImport.text(row, "id");
        long madeAtMs = ArchiveImport.whole(row, "made_at_ms");
        Optional<String> known =
                Row.first(c, "SELECT id FROM withdrawal WHERE id = ?", r -> r.getString(1), id);
        if (known.isPresent()) {
            Row.insert(c, EARLIER_WITHDRAWAL, madeAtMs, id, madeAtMs);
            return;
        }
        Row.insert(c, HistorySql.INSERT_WITHDRAWAL, id, madeAtMs);
        tally.notes++;
        Optional<Long> vehicle = Row.first(c, FIND_REPAIRED, r -> r.getLong(1), id);
        if (vehicle.isPresent()) {
            Standings.forget(c, vehicle.get());
        }
    }
}

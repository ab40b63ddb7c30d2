package tickover.store;

import java.util.List;
import java.util.Map;
import java.util.TreeMap;

/** Everything that a log holds, in words that are the same for logs that hold the same. */
final class LogContent {
    /** Every table but the derived ones, without the numbers that only one log uses. */
    private static final Map<String, String> CONTENT = content();

    private LogContent() {}

    private static Map<String, String> content() {
        Map<String, String> sql = new TreeMap<>();
        sql.put("vehicle", "SELECT unit, drive_toml, drive_saved_at_ms FROM vehicle");
        sql.put(
                "visit",
                "SELECT t.id, unit, visited_at, odometer_km, complaint, vehicle_description,"
                        + " vehicle_toml, visit_toml, content_sha256, imported_at_ms FROM visit t"
                        + " JOIN vehicle v ON v.id = t.vehicle_id");
        for (String table : List.of("kept_file", "capture", "removal", "withdrawal")) {
            sql.put(table, "SELECT * FROM " + table);
        }
        for (String table : List.of("note", "repair")) {
            sql.put(
                    table,
                    "SELECT unit, t.* FROM (SELECT id, vehicle_id, part, sentence, made_at_ms, "
                            + (table.equals("note") ? "visit_id, noted_at" : "repaired_at")
                            + " FROM "
                            + table
                            + ") t JOIN vehicle v ON v.id = t.vehicle_id");
        }
        // A finding's place among those of its visit stands for its number, and decides which
        // counts.
        String rank =
                "(SELECT COUNT(*) FROM finding o WHERE o.visit_id = f.visit_id AND o.id <= f.id)";
        sql.put(
                "finding",
                "SELECT "
                        + rank
                        + ", visit_id, made_at_ms, code_version, settings, verdict FROM finding f");
        for (String table : ArchiveRows.BELOW_FINDING) {
            sql.put(
                    table,
                    "SELECT f.visit_id, "
                            + rank
                            + ", t.* FROM "
                            + table
                            + " t JOIN finding f ON f.id = t.finding_id");
        }
        return sql;
    }

    /** All that a log holds: rows in an order of their own, and files. */
    static Map<String, List<String>> of(LogPlace place) throws Exception {
        Map<String, List<String>> all = new TreeMap<>();
        try (Raw raw = Raw.open(place)) {
            for (Map.Entry<String, String> e : CONTENT.entrySet()) {
                String local = "finding_id|vehicle_id";
                String columns = columns(raw, e.getValue(), local);
                all.put(
                        e.getKey(),
                        raw.rows("SELECT " + columns + " FROM (" + e.getValue() + ") x")
                                .lines()
                                .sorted()
                                .toList());
            }
        }
        all.put("files", Store.files(place));
        return all;
    }

    private static String columns(Raw raw, String sql, String but) throws Exception {
        return String.join(
                ", ",
                raw.columns(sql).stream()
                        .filter(c -> !c.matches(but))
                        .map(c -> '"' + c + '"')
                        .toList());
    }
}

package tickover.store;

import com.google.gson.JsonArray;
import com.google.gson.JsonElement;
import com.google.gson.JsonNull;
import com.google.gson.JsonObject;
import com.google.gson.JsonPrimitive;
import java.nio.charset.StandardCharsets;
import java.security.MessageDigest;
import java.sql.Connection;
import java.sql.ResultSet;
import java.sql.ResultSetMetaData;
import java.sql.SQLException;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HexFormat;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;

/**
 * Rows of tables as JSON objects, one key per column, and back. Numbers that only this log uses to
 * tell rows apart are left out on the way out and put in anew on the way in.
 */
final class ArchiveRows {
    /** The tables below {@code finding}, each after what it refers to. */
    static final List<String> BELOW_FINDING =
            List.of(
                    "candidate",
                    "evidence",
                    "next_test",
                    "quality_note",
                    "quality_range",
                    "capture_summary",
                    "part_level",
                    "line_level",
                    "shared_line");

    static final String FINDING_ID = "finding_id";

    private ArchiveRows() {}

    /** One row, the columns of {@code leaveOut} left out. */
    static JsonObject of(ResultSet r, Set<String> leaveOut) throws SQLException {
        ResultSetMetaData meta = r.getMetaData();
        JsonObject row = new JsonObject();
        for (int i = 1; i <= meta.getColumnCount(); i++) {
            String column = meta.getColumnLabel(i);
            if (!leaveOut.contains(column)) {
                row.add(column, value(r.getObject(i)));
            }
        }
        return row;
    }

    private static JsonElement value(Object value) {
        if (value == null) {
            return JsonNull.INSTANCE;
        }
        return value instanceof Number n ? new JsonPrimitive(n) : new JsonPrimitive((String) value);
    }

    /** Rows of a table, in an order that depends on nothing but what they hold. */
    static JsonArray all(
            Connection c, String table, String column, Object value, Set<String> leaveOut)
            throws SQLException {
        String sql = "SELECT * FROM " + table + " WHERE " + column + " = ?";
        JsonArray rows = new JsonArray();
        Row.list(c, sql, r -> of(r, leaveOut), value).stream()
                .sorted(Comparator.comparing(ArchiveRows::canonical))
                .forEach(rows::add);
        return rows;
    }

    /** A finding with everything below it. */
    static JsonObject finding(Connection c, long id) throws SQLException {
        JsonObject whole = new JsonObject();
        whole.add(
                "finding",
                Row.first(
                                c,
                                "SELECT * FROM finding WHERE id = ?",
                                r -> of(r, Set.of("id", "visit_id")),
                                id)
                        .orElseThrow());
        for (String table : BELOW_FINDING) {
            whole.add(table, all(c, table, FINDING_ID, id, Set.of(FINDING_ID)));
        }
        return whole;
    }

    /** What tells one finding from another: equal for equal findings on every machine. */
    static String digest(JsonObject finding) {
        MessageDigest digest = KeptFile.newDigest();
        digest.update(canonical(finding).getBytes(StandardCharsets.UTF_8));
        return HexFormat.of().formatHex(digest.digest());
    }

    /** Keys in order, and numbers bit for bit: how they are printed differs between Javas. */
    private static String canonical(JsonElement e) {
        if (e instanceof JsonObject o) {
            Map<String, String> sorted = new TreeMap<>();
            o.entrySet().forEach(entry -> sorted.put(entry.getKey(), canonical(entry.getValue())));
            return sorted.toString();
        }
        if (e instanceof JsonArray a) {
            List<String> parts = new ArrayList<>();
            a.forEach(part -> parts.add(canonical(part)));
            parts.sort(null);
            return parts.toString();
        }
        if (e instanceof JsonPrimitive p && p.isNumber()) {
            Number n = number(p);
            return n instanceof Double d ? Double.toHexString(d) : n.toString();
        }
        return e.toString();
    }

    private static Number number(JsonPrimitive p) {
        String text = p.getAsString();
        boolean whole = text.chars().allMatch(ch -> ch == '-' || (ch >= '0' && ch <= '9'));
        // Not a conditional expression, which would make both of them doubles.
        if (whole) {
            return Long.valueOf(text);
        }
        return Double.valueOf(text);
    }

    /**
     * Inserts rows.
     *
     * @param given columns that are put into every row
     * @throws StoreException if a row has a column that the table has not, or is no object
     */
    static void insert(Connection c, String table, JsonArray rows, Map<String, Object> given)
            throws SQLException {
        if (rows.isEmpty()) {
            return;
        }
        Set<String> known = columns(c, table);
        List<String> columns = new ArrayList<>(given.keySet());
        columns.addAll(object(rows.get(0), table).keySet());
        if (!known.containsAll(columns) || columns.size() != Set.copyOf(columns).size()) {
            throw bad("has rows for the table " + table + " that do not fit it");
        }
        String sql =
                "INSERT INTO "
                        + table
                        + " ("
                        + String.join(", ", columns)
                        + ") VALUES (?"
                        + ", ?".repeat(columns.size() - 1)
                        + ")";
        try (Row.Inserter inserter = new Row.Inserter(c, sql)) {
            for (JsonElement element : rows) {
                JsonObject row = object(element, table);
                if (row.size() != columns.size() - given.size()) {
                    throw bad("has rows for the table " + table + " of unequal columns");
                }
                List<Object> values = new ArrayList<>(given.values());
                for (String column : columns.subList(given.size(), columns.size())) {
                    values.add(plain(row.get(column), table));
                }
                inserter.add(values.toArray());
            }
            inserter.flush();
        }
    }

    private static Set<String> columns(Connection c, String table) throws SQLException {
        try (var statement = c.prepareStatement("SELECT * FROM " + table + " WHERE 1 = 0");
                ResultSet none = statement.executeQuery()) {
            Set<String> names = new LinkedHashSet<>();
            for (int i = 1; i <= none.getMetaData().getColumnCount(); i++) {
                names.add(none.getMetaData().getColumnLabel(i));
            }
            return names;
        }
    }

    private static JsonObject object(JsonElement e, String table) {
        if (e instanceof JsonObject o) {
            return o;
        }
        throw bad("has something else than rows for the table " + table);
    }

    private static Object plain(JsonElement e, String table) {
        if (e instanceof JsonNull) {
            return null;
        }
        if (e instanceof JsonPrimitive p && p.isNumber()) {
            return number(p);
        }
        if (e instanceof JsonPrimitive p && p.isString()) {
            return p.getAsString();
        }
        throw bad("has a value that is neither number nor text for the table " + table);
    }

    /** Copies a finding under another number and removes it under the old one. */
    static void renumber(Connection c, long from, long to) throws SQLException {
        copy(c, "finding", "id", from, to);
        for (String table : BELOW_FINDING) {
            copy(c, table, FINDING_ID, from, to);
        }
        for (int i = BELOW_FINDING.size() - 1; i >= 0; i--) {
            Row.insert(c, "DELETE FROM " + BELOW_FINDING.get(i) + " WHERE finding_id = ?", from);
        }
        Row.insert(c, "DELETE FROM finding WHERE id = ?", from);
    }

    private static void copy(Connection c, String table, String column, long from, long to)
            throws SQLException {
        Set<String> others = columns(c, table);
        others.remove(column);
        String list = String.join(", ", others);
        Row.insert(
                c,
                "INSERT INTO "
                        + table
                        + " ("
                        + column
                        + ", "
                        + list
                        + ") SELECT ?, "
                        + list
                        + " FROM "
                        + table
                        + " WHERE "
                        + column
                        + " = ?",
                to,
                from);
    }

    static StoreException bad(String what) {
        return new StoreException(
                StoreException.Reason.BAD_ARCHIVE,
                "the archive " + what + "; export it again from the log that it came from");
    }
}

package tickover.store;

import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.sql.Connection;
import java.sql.SQLException;
import java.sql.Statement;
import java.util.ArrayList;
import java.util.List;

/**
 * The versions of the log's tables. Script n brings version n-1 to version n; a released script is
 * never changed. The version stands in {@code user_version} on SQLite, in the table {@code
 * schema_version} on PostgreSQL.
 */
final class Schema {
    /** The scripts of this program, oldest first. */
    static final Schema CURRENT =
            new Schema(
                    List.of(
                            resource("schema-1.sql"),
                            resource("schema-2.sql"),
                            resource("schema-3.sql"),
                            resource("schema-4.sql"),
                            resource("schema-5.sql")));

    private final List<String> scripts;

    Schema(List<String> scripts) {
        this.scripts = List.copyOf(scripts);
    }

    static String resource(String name) {
        try (InputStream in = Schema.class.getResourceAsStream(name)) {
            if (in == null) {
                throw new IllegalStateException("resource " + name + " is missing");
            }
            return new String(in.readAllBytes(), StandardCharsets.UTF_8);
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    int version() {
        return scripts.size();
    }

    List<String> scripts() {
        return scripts;
    }

    /** The version found; refuses what this program did not write, before anything is changed. */
    int requireOurs(Connection connection, Dialect dialect, String place) throws SQLException {
        int found = dialect.version(connection);
        if (found > version()) {
            throw new StoreException(
                    StoreException.Reason.NEWER_LOG,
                    place
                            + " was written by a newer version of Tickover (log version "
                            + found
                            + ", this one knows up to "
                            + version()
                            + "); update Tickover");
        }
        if (found == 0 && dialect.hasOtherTables(connection)) {
            throw new StoreException(
                    StoreException.Reason.DAMAGED,
                    place + " is a database of another program; choose another for the log");
        }
        return found;
    }

    /** Runs the scripts that the database has not seen, inside the caller's transaction. */
    int migrate(Connection connection, Dialect dialect, String place) throws SQLException {
        // Another process may have migrated between the first look and the lock.
        int from = requireOurs(connection, dialect, place);
        if (from < version()) {
            try (Statement statement = connection.createStatement()) {
                for (int v = from + 1; v <= version(); v++) {
                    for (String sql : statements(scripts.get(v - 1))) {
                        statement.execute(dialect.ddl(sql));
                    }
                    for (String sql : statements(dialect.scriptBeside(v))) {
                        statement.execute(sql);
                    }
                }
            }
            dialect.setVersion(connection, version());
        }
        return version() - from;
    }

    /** A statement ends with a semicolon at the end of a line. */
    private static List<String> statements(String script) {
        List<String> statements = new ArrayList<>();
        StringBuilder statement = new StringBuilder();
        for (String line : script.lines().toList()) {
            if (line.startsWith("--") || line.isBlank()) {
                continue;
            }
            statement.append(line).append('\n');
            if (line.endsWith(";")) {
                statements.add(statement.toString());
                statement.setLength(0);
            }
        }
        if (!statement.isEmpty()) {
            throw new IllegalStateException("script ends within a statement: " + statement);
        }
        return statements;
    }
}

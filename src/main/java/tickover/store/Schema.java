package tickover.store;

import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.sql.Connection;
import java.sql.SQLException;
import java.sql.Statement;
import java.util.ArrayList;
import java.util.List;

/**
 * The versions of the log's tables. Script n brings version n-1 to version n; a released script is
 * never changed. The version stands in the database's {@code user_version}.
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

    /** Refuses files that this program did not write, before anything is changed in them. */
    void requireOurs(Connection connection, Path file) throws SQLException {
        long found = Database.number(connection, "PRAGMA user_version");
        if (found > version()) {
            throw new StoreException(
                    StoreException.Reason.NEWER_LOG,
                    file
                            + " was written by a newer version of Tickover (log version "
                            + found
                            + ", this one knows up to "
                            + version()
                            + "); update Tickover");
        }
        if (found == 0 && Database.number(connection, "SELECT COUNT(*) FROM sqlite_master") > 0) {
            throw new StoreException(
                    StoreException.Reason.DAMAGED,
                    file + " is a database of another program; choose another data folder");
        }
    }

    /** Runs the scripts that the database has not seen, inside the caller's transaction. */
    int migrate(Connection connection, Path file) throws SQLException {
        // Another process may have migrated between the first look and the lock.
        requireOurs(connection, file);
        int from = (int) Database.number(connection, "PRAGMA user_version");
        if (from < version()) {
            try (Statement statement = connection.createStatement()) {
                for (String script : scripts.subList(from, version())) {
                    for (String sql : statements(script)) {
                        statement.execute(sql);
                    }
                }
                statement.execute("PRAGMA user_version = " + version());
            }
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

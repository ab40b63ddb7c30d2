package tickover.store;

import java.nio.file.Path;
import java.sql.Connection;
import java.sql.DriverManager;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.sql.Statement;
import java.util.ArrayList;
import java.util.List;

/** A second connection to a log's database, as any user of it could open one. */
final class Raw implements AutoCloseable {
    private final Connection connection;

    private Raw(Connection connection) {
        this.connection = connection;
    }

    static Raw open(Path dataDir) throws SQLException {
        return new Raw(
                DriverManager.getConnection(
                        "jdbc:sqlite:" + dataDir.resolve("tickover.db") + "?busy_timeout=5000"));
    }

    static Raw open(LogPlace place) throws SQLException {
        if (place.isFolder()) {
            return open(place.local());
        }
        Connection connection = place.address().orElseThrow().connect();
        return new Raw(connection);
    }

    static long count(LogPlace place, String sql) throws SQLException {
        try (Raw raw = open(place)) {
            return raw.number(sql);
        }
    }

    static long count(Path dataDir, String sql) throws SQLException {
        try (Raw raw = open(dataDir)) {
            return raw.number(sql);
        }
    }

    void execute(String sql) throws SQLException {
        try (Statement statement = connection.createStatement()) {
            statement.execute(sql);
        }
    }

    /** Breaks what the tables ask for, as no program may. */
    void unchecked(String sql) throws SQLException {
        if (connection.getMetaData().getURL().startsWith("jdbc:postgresql")) {
            execute("SET session_replication_role = replica");
        }
        execute(sql);
    }

    long number(String sql) throws SQLException {
        try (Statement statement = connection.createStatement();
                ResultSet rows = statement.executeQuery(sql)) {
            rows.next();
            return rows.getLong(1);
        }
    }

    /** Names of the columns that a question answers with. */
    List<String> columns(String sql) throws SQLException {
        List<String> names = new ArrayList<>();
        try (Statement statement = connection.createStatement();
                ResultSet rows = statement.executeQuery(sql)) {
            for (int i = 1; i <= rows.getMetaData().getColumnCount(); i++) {
                names.add(rows.getMetaData().getColumnLabel(i));
            }
        }
        return names;
    }

    /** All rows, their columns as text with a bar between. */
    String rows(String sql) throws SQLException {
        StringBuilder text = new StringBuilder();
        try (Statement statement = connection.createStatement();
                ResultSet rows = statement.executeQuery(sql)) {
            int columns = rows.getMetaData().getColumnCount();
            while (rows.next()) {
                for (int i = 1; i <= columns; i++) {
                    text.append(i == 1 ? "" : "|").append(rows.getObject(i));
                }
                text.append('\n');
            }
        }
        return text.toString();
    }

    @Override
    public void close() throws SQLException {
        connection.close();
    }
}

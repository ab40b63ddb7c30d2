package tickover.store;

import java.io.IOException;
import java.nio.file.Path;
import java.sql.Connection;
import java.sql.PreparedStatement;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.sql.Statement;
import org.sqlite.SQLiteConfig;

/**
 * One connection to the log's database file, and the only place that knows it is SQLite. One
 * thread.
 */
final class Database implements AutoCloseable {
    private static final int BUSY_TIMEOUT_MS = 5000;

    private final Connection connection;
    private final Path file;

    private Database(Connection connection, Path file) {
        this.connection = connection;
        this.file = file;
    }

    /** Something done with the connection. */
    interface Work<T> {
        T run(Connection connection) throws SQLException, IOException;
    }

    /**
     * Opens the file and brings it to the schema's version.
     *
     * @param file the database, made if it does not exist
     * @param schema what it should look like
     * @return the open database
     * @throws StoreException if it cannot be opened, is no log, or is newer than the schema
     */
    static Database open(Path file, Schema schema) {
        SQLiteConfig config = new SQLiteConfig();
        config.setBusyTimeout(BUSY_TIMEOUT_MS);
        config.enforceForeignKeys(true);
        // A visit reported as kept survives a power cut; imports are rare enough to pay for it.
        config.setSynchronous(SQLiteConfig.SynchronousMode.FULL);
        Connection connection = null;
        try {
            connection = config.createConnection("jdbc:sqlite:" + file);
            Database database = new Database(connection, file);
            schema.requireOurs(connection, file);
            // Only once the file is known to be ours: the mode is written into it.
            database.execute("PRAGMA journal_mode = WAL");
            database.write(c -> schema.migrate(c, file));
            return database;
        } catch (SQLException e) {
            closeQuietly(connection, e);
            throw StoreException.of(e, file);
        } catch (StoreException e) {
            closeQuietly(connection, e);
            throw e;
        }
    }

    private static void closeQuietly(Connection connection, Exception because) {
        if (connection != null) {
            try {
                connection.close();
            } catch (SQLException e) {
                because.addSuppressed(e);
            }
        }
    }

    /** Reads one consistent state. */
    <T> T read(Work<T> work) {
        return transaction("BEGIN", work);
    }

    /** Writes all or nothing; waits for other writers first. */
    <T> T write(Work<T> work) {
        return transaction("BEGIN IMMEDIATE", work);
    }

    private <T> T transaction(String begin, Work<T> work) {
        boolean done = false;
        boolean begun = false;
        try {
            execute(begin);
            begun = true;
            T result = work.run(connection);
            execute("COMMIT");
            done = true;
            return result;
        } catch (SQLException e) {
            throw StoreException.of(e, file);
        } catch (IOException e) {
            throw StoreException.of(e, file.toAbsolutePath().getParent());
        } finally {
            if (begun && !done) {
                rollback();
            }
        }
    }

    private void rollback() {
        try {
            execute("ROLLBACK");
        } catch (SQLException e) {
            // SQLite has rolled back by itself, for instance on a full disk; the first failure is
            // the one that is reported.
            return;
        }
    }

    private void execute(String sql) throws SQLException {
        try (Statement statement = connection.createStatement()) {
            statement.execute(sql);
        }
    }

    /** Writes one consistent state to a new file, while others may go on writing to this one. */
    void copyTo(Path copy) {
        try (PreparedStatement statement = connection.prepareStatement("VACUUM INTO ?")) {
            statement.setString(1, copy.toString());
            statement.execute();
        } catch (SQLException e) {
            throw StoreException.of(e, copy);
        }
    }

    static long number(Connection connection, String sql) throws SQLException {
        try (Statement statement = connection.createStatement();
                ResultSet rows = statement.executeQuery(sql)) {
            return rows.next() ? rows.getLong(1) : 0;
        }
    }

    @Override
    public void close() {
        try {
            connection.close();
        } catch (SQLException e) {
            throw StoreException.of(e, file);
        }
    }
}

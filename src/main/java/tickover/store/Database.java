package tickover.store;

import java.io.IOException;
import java.nio.file.Path;
import java.sql.Connection;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.sql.Statement;
import java.util.Optional;

/** One connection to the log's database, in transactions. One thread. */
final class Database implements AutoCloseable {
    private final Connection connection;
    private final Dialect dialect;
    private final Path disk;

    private Database(Connection connection, Dialect dialect, Path disk) {
        this.connection = connection;
        this.dialect = dialect;
        this.disk = disk;
    }

    /** Something done with the connection. */
    interface Work<T> {
        T run(Connection connection) throws SQLException, IOException;
    }

    /** Something sent within a writing transaction while others may still write. */
    interface Sending {
        void run(Connection connection) throws SQLException, IOException;
    }

    /**
     * Opens a database and brings it to the schema's version.
     *
     * @param place where the log lives
     * @param schema what it should look like
     * @param make whether to make a log if there is none
     * @return the open database
     * @throws StoreException if it cannot be opened, is no log, or is newer than the schema
     */
    static Database open(LogPlace place, Schema schema, boolean make) {
        Path file = place.local().resolve(Log.DATABASE_FILE);
        if (place.isFolder() && !make) {
            LogFolder.requireLog(place);
        }
        Optional<PostgresAddress> address = place.address();
        return address.isPresent()
                ? openServer(place, address.get(), schema, make)
                : openFile(file, schema);
    }

    /** Opens an SQLite file, which is made if it does not exist. */
    static Database openFile(Path file, Schema schema) {
        Dialect dialect = new SqliteDialect(file);
        Connection connection = null;
        try {
            connection = SqliteDialect.connect(file);
            Database database =
                    new Database(connection, dialect, file.toAbsolutePath().getParent());
            schema.requireOurs(connection, dialect, file.toString());
            // Only once the file is known to be ours: the mode is written into it.
            SqliteDialect.useWriteAheadLog(connection);
            database.write(c -> schema.migrate(c, dialect, file.toString()));
            return database;
        } catch (SQLException e) {
            closeQuietly(connection, e);
            throw dialect.failure(e);
        } catch (StoreException e) {
            closeQuietly(connection, e);
            throw e;
        }
    }

    private static Database openServer(
            LogPlace place, PostgresAddress address, Schema schema, boolean make) {
        Connection connection = address.connect();
        boolean done = false;
        try {
            PostgresDialect dialect = PostgresDialect.of(connection, address);
            Database database = new Database(connection, dialect, place.local());
            int found = database.read(c -> schema.requireOurs(c, dialect, address.shown()));
            if (found == 0 && !make) {
                throw place.noLog();
            }
            // Nobody waits for a lock, or needs the right to write, to read a log of this version.
            if (found < schema.version()) {
                database.write(c -> schema.migrate(c, dialect, address.shown()));
            }
            done = true;
            return database;
        } finally {
            if (!done) {
                closeQuietly(connection, null);
            }
        }
    }

    private static void closeQuietly(Connection connection, Exception because) {
        if (connection != null) {
            try {
                connection.close();
            } catch (SQLException e) {
                if (because != null) {
                    because.addSuppressed(e);
                }
            }
        }
    }

    Dialect dialect() {
        return dialect;
    }

    /** Reads one consistent state. */
    <T> T read(Work<T> work) {
        return transaction(dialect::beginRead, c -> {}, work);
    }

    /** Writes all or nothing; waits for other writers first. */
    <T> T write(Work<T> work) {
        return transaction(dialect::beginWrite, dialect::lock, work);
    }

    /** Sends something big, then waits for other writers and writes: all of it or nothing. */
    <T> T write(Sending sending, Work<T> work) {
        return transaction(
                dialect::beginWrite,
                c -> {
                    sending.run(c);
                    dialect.lock(c);
                },
                work);
    }

    private <T> T transaction(Sending begin, Sending ready, Work<T> work) {
        boolean done = false;
        boolean begun = false;
        try {
            begin.run(connection);
            begun = true;
            ready.run(connection);
            T result = work.run(connection);
            dialect.commit(connection);
            done = true;
            return result;
        } catch (SQLException e) {
            throw dialect.failure(e);
        } catch (IOException e) {
            throw StoreException.of(e, disk);
        } finally {
            if (begun && !done) {
                rollback();
            }
        }
    }

    private void rollback() {
        try {
            dialect.rollback(connection);
        } catch (SQLException e) {
            // The database has rolled back by itself, for instance on a full disk, or is gone; the
            // first failure is the one that is reported.
            return;
        }
    }

    /** Tells whether it failed because the tables refuse rows. */
    boolean refusesRows(StoreException e) {
        return e.getCause() instanceof SQLException s && dialect.refusesRows(s);
    }

    /** Writes one consistent state to a new SQLite file, while others may go on writing. */
    void copyTo(Path copy) {
        try {
            dialect.copyTo(connection, copy);
        } catch (SQLException e) {
            throw SqliteDialect.failure(e, copy);
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
            throw dialect.failure(e);
        }
    }
}

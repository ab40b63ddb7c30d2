package tickover.store;

import java.nio.file.Path;
import java.sql.Connection;
import java.sql.PreparedStatement;
import java.sql.SQLException;
import java.sql.Statement;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import org.sqlite.SQLiteConfig;
import org.sqlite.SQLiteErrorCode;
import org.sqlite.SQLiteException;

/** A log in an SQLite file. */
final class SqliteDialect implements Dialect {
    private static final int BUSY_TIMEOUT_MS = 5000;
    private static final int RETRY_MS = 10;

    private final Path file;

    SqliteDialect(Path file) {
        this.file = file;
    }

    /** Connects; makes the file if there is none. Writes nothing yet. */
    static Connection connect(Path file) throws SQLException {
        SQLiteConfig config = new SQLiteConfig();
        config.setBusyTimeout(BUSY_TIMEOUT_MS);
        config.enforceForeignKeys(true);
        // A visit reported as kept survives a power cut; imports are rare enough to pay for it.
        config.setSynchronous(SQLiteConfig.SynchronousMode.FULL);
        return config.createConnection("jdbc:sqlite:" + file);
    }

    /**
     * Lets readers and a writer work side by side. Two connections that do this to a new file at
     * the same moment are in each other's way, and SQLite then tells one of them to try again at
     * once, whatever its timeout.
     */
    static void useWriteAheadLog(Connection c) throws SQLException {
        for (int waitedMs = 0; ; waitedMs += RETRY_MS) {
            try {
                execute(c, "PRAGMA journal_mode = WAL");
                return;
            } catch (SQLException e) {
                boolean busy = code(e) == SQLiteErrorCode.SQLITE_BUSY;
                if (!busy || waitedMs >= BUSY_TIMEOUT_MS) {
                    throw e;
                }
            }
            try {
                Thread.sleep(RETRY_MS);
            } catch (InterruptedException e) {
                Thread.currentThread().interrupt();
                throw new SQLException("interrupted while another program opens the log", e);
            }
        }
    }

    private static void execute(Connection c, String sql) throws SQLException {
        try (Statement statement = c.createStatement()) {
            statement.execute(sql);
        }
    }

    @Override
    public void beginRead(Connection c) throws SQLException {
        execute(c, "BEGIN");
    }

    @Override
    public void beginWrite(Connection c) throws SQLException {
        execute(c, "BEGIN IMMEDIATE");
    }

    @Override
    public void lock(Connection c) {
        // Whoever began to write has the only lock there is.
    }

    @Override
    public void commit(Connection c) throws SQLException {
        execute(c, "COMMIT");
    }

    @Override
    public void rollback(Connection c) throws SQLException {
        execute(c, "ROLLBACK");
    }

    @Override
    public int version(Connection c) throws SQLException {
        return (int) Database.number(c, "PRAGMA user_version");
    }

    @Override
    public void setVersion(Connection c, int version) throws SQLException {
        execute(c, "PRAGMA user_version = " + version);
    }

    @Override
    public boolean hasOtherTables(Connection c) throws SQLException {
        return Database.number(c, "SELECT COUNT(*) FROM sqlite_master") > 0;
    }

    @Override
    public String ddl(String statement) {
        return statement;
    }

    @Override
    public String scriptBeside(int version) {
        return "";
    }

    @Override
    public List<String> tables(Connection c) throws SQLException {
        return Row.list(
                c,
                "SELECT name FROM sqlite_master WHERE type = 'table' ORDER BY name",
                r -> r.getString(1));
    }

    @Override
    public String rowOrder(Connection c, String table) {
        return "";
    }

    @Override
    public List<String> damage(Connection c) throws SQLException {
        return Row.list(c, "PRAGMA integrity_check", r -> r.getString(1)).stream()
                .filter(said -> !said.equals("ok"))
                .toList();
    }

    @Override
    public Map<String, Integer> danglingRows(Connection c) throws SQLException {
        Map<String, Integer> rows = new TreeMap<>();
        Row.list(c, "PRAGMA foreign_key_check", r -> r.getString(1))
                .forEach(table -> rows.merge(table, 1, Integer::sum));
        return rows;
    }

    @Override
    public void copyTo(Connection c, Path copy) throws SQLException {
        try (PreparedStatement statement = c.prepareStatement("VACUUM INTO ?")) {
            statement.setString(1, copy.toString());
            statement.execute();
        }
    }

    @Override
    public long sizeBytes(Connection c) throws SQLException {
        return Database.number(c, "PRAGMA page_count") * Database.number(c, "PRAGMA page_size");
    }

    private static SQLiteErrorCode code(SQLException e) {
        SQLiteErrorCode code =
                e instanceof SQLiteException s ? s.getResultCode() : SQLiteErrorCode.UNKNOWN_ERROR;
        // The low byte of an extended code is the plain one.
        return SQLiteErrorCode.getErrorCode(code.code & 0xFF);
    }

    @Override
    public boolean refusesRows(SQLException e) {
        return code(e) == SQLiteErrorCode.SQLITE_CONSTRAINT;
    }

    @Override
    public StoreException failure(SQLException e) {
        return failure(e, file);
    }

    static StoreException failure(SQLException e, Path place) {
        return switch (code(e)) {
            case SQLITE_FULL ->
                    new StoreException(
                            StoreException.Reason.DISK_FULL,
                            "the disk of " + place + " is full; make room",
                            e);
            case SQLITE_BUSY, SQLITE_LOCKED ->
                    new StoreException(
                            StoreException.Reason.BUSY,
                            "another program is writing to "
                                    + place
                                    + "; try again when it is done",
                            e);
            case SQLITE_CORRUPT, SQLITE_NOTADB ->
                    new StoreException(
                            StoreException.Reason.DAMAGED,
                            place + " is damaged or no Tickover log; put a backup in its place",
                            e);
            case SQLITE_PERM, SQLITE_READONLY, SQLITE_CANTOPEN, SQLITE_AUTH ->
                    new StoreException(
                            StoreException.Reason.NO_PERMISSION,
                            place + " cannot be opened for writing; check its permissions",
                            e);
            default ->
                    new StoreException(
                            StoreException.Reason.FAILED, place + " failed: " + e.getMessage(), e);
        };
    }
}

package tickover.store;

import java.nio.file.Path;
import java.sql.Connection;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.sql.Statement;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.regex.Pattern;

/**
 * A log in a PostgreSQL database, in the schema that comes first in the search path.
 *
 * <p>Whoever writes holds one advisory lock for the length of the transaction, so that writers come
 * one after the other as on SQLite; each statement then sees what all before it wrote. Whoever
 * reads sees one snapshot and waits for nobody.
 */
final class PostgresDialect implements Dialect {
    /** "Tick" in ASCII: the first half of the lock's key, the second half is the schema's. */
    private static final int LOCK_KEY = 0x5469636b;

    private static final Pattern TEXT = Pattern.compile("\\bTEXT\\b");
    private static final Pattern BOOLEAN = Pattern.compile("\\bBOOLEAN\\b");

    /** Tables that only a log on a server has. */
    private static final String OWN_TABLES = "('recording', 'schema_version')";

    /** Tables of the schema that the log is in. */
    private static final String OURS =
            "relkind IN ('r', 'p') AND relnamespace = quote_ident(current_schema())::regnamespace";

    private static final String FOREIGN_KEYS =
            """
            SELECT con.conrelid::regclass::text, con.confrelid::regclass::text,
                (SELECT string_agg(format('c.%I = p.%I', a.attname, b.attname), ' AND ')
                    FROM unnest(con.conkey, con.confkey) AS k (own, other)
                    JOIN pg_attribute a ON a.attrelid = con.conrelid AND a.attnum = k.own
                    JOIN pg_attribute b ON b.attrelid = con.confrelid AND b.attnum = k.other)
            FROM pg_constraint con
            WHERE con.contype = 'f' AND con.connamespace = quote_ident(current_schema())::regnamespace
            ORDER BY 1\
            """;

    private static final String KEY_COLUMNS =
            """
            SELECT quote_ident(a.attname) FROM pg_constraint con
            CROSS JOIN unnest(con.conkey) WITH ORDINALITY AS k (own, rank)
            JOIN pg_attribute a ON a.attrelid = con.conrelid AND a.attnum = k.own
            JOIN pg_class t ON t.oid = con.conrelid
            WHERE con.contype = 'p' AND con.connamespace = quote_ident(current_schema())::regnamespace
                AND t.relname = ? ORDER BY rank\
            """;

    private final PostgresAddress address;
    private final int schemaKey;

    private PostgresDialect(PostgresAddress address, int schemaKey) {
        this.address = address;
        this.schemaKey = schemaKey;
    }

    /** Prepares a fresh connection and looks whether the database can hold a log at all. */
    static PostgresDialect of(Connection c, PostgresAddress address) {
        try {
            c.setTransactionIsolation(Connection.TRANSACTION_REPEATABLE_READ);
            c.setAutoCommit(false);
            String schema = null;
            String encoding = null;
            boolean waitsForEver = false;
            try (Statement statement = c.createStatement();
                    ResultSet r =
                            statement.executeQuery(
                                    "SELECT current_schema(), current_setting('server_encoding'),"
                                            + " current_setting('lock_timeout')")) {
                while (r.next()) {
                    schema = r.getString(1);
                    encoding = r.getString(2);
                    waitsForEver = r.getString(3).equals("0");
                }
            }
            if (schema == null) {
                throw new StoreException(
                        StoreException.Reason.NO_PERMISSION,
                        address.shown()
                                + " has no schema of that name, or none that this user may use;"
                                + " have it made on the server (CREATE SCHEMA)");
            }
            if (!"UTF8".equals(encoding)) {
                throw new StoreException(
                        StoreException.Reason.FAILED,
                        address.shown()
                                + " keeps texts as "
                                + encoding
                                + "; a log needs a database with the encoding UTF8");
            }
            // A laptop that is shut or loses its network must not hold the lock for hours.
            execute(
                    c,
                    "SET tcp_keepalives_idle = 30; SET tcp_keepalives_interval = 10;"
                            + " SET tcp_keepalives_count = 3"
                            + (waitsForEver ? "; SET lock_timeout = '30s'" : ""));
            c.commit();
            return new PostgresDialect(address, schema.hashCode());
        } catch (SQLException e) {
            throw PostgresFailure.of(e, address);
        }
    }

    private static void execute(Connection c, String sql) throws SQLException {
        try (Statement statement = c.createStatement()) {
            statement.execute(sql);
        }
    }

    @Override
    public void beginRead(Connection c) {
        // The driver begins with the first statement, and a snapshot is what the connection is for.
    }

    @Override
    public void beginWrite(Connection c) throws SQLException {
        execute(
                c,
                "SET TRANSACTION ISOLATION LEVEL READ COMMITTED;"
                        + " SET LOCAL idle_in_transaction_session_timeout = '60s'");
    }

    @Override
    public void lock(Connection c) throws SQLException {
        execute(c, "SELECT pg_advisory_xact_lock(" + LOCK_KEY + ", " + schemaKey + ")");
    }

    @Override
    public void commit(Connection c) throws SQLException {
        c.commit();
    }

    @Override
    public void rollback(Connection c) throws SQLException {
        c.rollback();
    }

    private static boolean hasTable(Connection c, String condition) throws SQLException {
        return Database.number(c, "SELECT COUNT(*) FROM pg_class WHERE " + OURS + condition) > 0;
    }

    @Override
    public int version(Connection c) throws SQLException {
        return hasTable(c, " AND relname = 'schema_version'")
                ? (int) Database.number(c, "SELECT MAX(version) FROM schema_version")
                : 0;
    }

    @Override
    public void setVersion(Connection c, int version) throws SQLException {
        execute(c, "DELETE FROM schema_version");
        Row.insert(c, "INSERT INTO schema_version (version) VALUES (?)", version);
    }

    @Override
    public boolean hasOtherTables(Connection c) throws SQLException {
        return hasTable(c, "");
    }

    /**
     * Texts compare by their bytes, as they do on SQLite; the server's own order depends on where
     * it stands. What is true or false is 1 or 0, so that the same questions fit both.
     */
    @Override
    public String ddl(String statement) {
        String ordered = TEXT.matcher(statement).replaceAll("TEXT COLLATE \"C\"");
        return BOOLEAN.matcher(ordered).replaceAll("SMALLINT");
    }

    @Override
    public String scriptBeside(int version) {
        return version == 1 ? Schema.resource("schema-1-postgresql.sql") : "";
    }

    @Override
    public List<String> tables(Connection c) throws SQLException {
        return Row.list(
                c,
                "SELECT relname FROM pg_class WHERE "
                        + OURS
                        + " AND relname NOT IN "
                        + OWN_TABLES
                        + " ORDER BY relname",
                r -> r.getString(1));
    }

    @Override
    public String rowOrder(Connection c, String table) throws SQLException {
        List<String> key = Row.list(c, KEY_COLUMNS, r -> r.getString(1), table);
        return key.isEmpty() ? "" : " ORDER BY " + String.join(", ", key);
    }

    /** A read to the last row of each table; a broken page fails it. */
    @Override
    public List<String> damage(Connection c) throws SQLException {
        List<String> said = new ArrayList<>();
        for (String table : tables(c)) {
            // Row by row into text, so that every value is looked at and not only counted.
            Database.number(c, "SELECT SUM(length(t::text)) FROM " + table + " t");
        }
        if (!hasTable(c, " AND relname = 'recording'")) {
            said.add("the table recording is gone");
        }
        return said;
    }

    /** A foreign key. */
    private record Reference(String from, String to, String on) {}

    @Override
    public Map<String, Integer> danglingRows(Connection c) throws SQLException {
        Map<String, Integer> rows = new TreeMap<>();
        List<Reference> all =
                Row.list(
                        c,
                        FOREIGN_KEYS,
                        r -> new Reference(r.getString(1), r.getString(2), r.getString(3)));
        for (Reference ref : all) {
            long dangling =
                    Database.number(
                            c,
                            "SELECT COUNT(*) FROM "
                                    + ref.from()
                                    + " c WHERE NOT EXISTS (SELECT 1 FROM "
                                    + ref.to()
                                    + " p WHERE "
                                    + ref.on()
                                    + ")");
            if (dangling > 0) {
                rows.merge(ref.from(), (int) dangling, Integer::sum);
            }
        }
        return rows;
    }

    @Override
    public void copyTo(Connection c, Path copy) {
        throw new IllegalStateException("a log on a server is copied as an archive");
    }

    @Override
    public long sizeBytes(Connection c) throws SQLException {
        return Database.number(
                c,
                "SELECT COALESCE(SUM(pg_total_relation_size(oid)), 0) FROM pg_class WHERE " + OURS);
    }

    @Override
    public boolean refusesRows(SQLException e) {
        return PostgresFailure.refusesRows(e);
    }

    @Override
    public StoreException failure(SQLException e) {
        return PostgresFailure.of(e, address);
    }
}

package tickover.store;

import java.nio.file.Path;
import java.sql.Connection;
import java.sql.SQLException;
import java.util.List;
import java.util.Map;

/**
 * What SQLite and PostgreSQL do not have in common. Every statement that both understand as it
 * stands is in {@link Sql} and its like; only what is here is said twice.
 */
interface Dialect {
    /** Begins a transaction that sees one consistent state. */
    void beginRead(Connection c) throws SQLException;

    /** Begins a transaction that will write. Others may do so too until {@link #lock}. */
    void beginWrite(Connection c) throws SQLException;

    /** Waits until no other transaction of this log holds the lock, then sees all they wrote. */
    void lock(Connection c) throws SQLException;

    void commit(Connection c) throws SQLException;

    void rollback(Connection c) throws SQLException;

    /** The log's version; 0 if there are no tables of a log. */
    int version(Connection c) throws SQLException;

    void setVersion(Connection c, int version) throws SQLException;

    /** Tells, of version 0, whether there are tables of another program. */
    boolean hasOtherTables(Connection c) throws SQLException;

    /** A statement of the shared scripts with types as this database knows them. */
    String ddl(String statement);

    /** What this database needs beside the shared script of a version; may be empty. */
    String scriptBeside(int version);

    /** The log's tables, by name. */
    List<String> tables(Connection c) throws SQLException;

    /** Ends a question for a whole table so that rows come in a settled order; may be empty. */
    String rowOrder(Connection c, String table) throws SQLException;

    /** What is wrong with the database in itself, in its own words; empty if nothing is found. */
    List<String> damage(Connection c) throws SQLException;

    /** How many rows of a table refer to rows that are not there. */
    Map<String, Integer> danglingRows(Connection c) throws SQLException;

    /** Writes one consistent state to a new SQLite file. */
    void copyTo(Connection c, Path copy) throws SQLException;

    /** The room that the database takes, bytes. */
    long sizeBytes(Connection c) throws SQLException;

    /** Tells whether a statement failed because rows break the tables' rules. */
    boolean refusesRows(SQLException e);

    /** What a failure means to a person. */
    StoreException failure(SQLException e);
}

package tickover.store;

import java.net.ConnectException;
import java.net.NoRouteToHostException;
import java.net.SocketTimeoutException;
import java.net.UnknownHostException;
import java.sql.SQLException;
import org.postgresql.util.PSQLException;
import org.postgresql.util.ServerErrorMessage;

/**
 * What the server's failures mean to a person. Sentences name the address without its password; the
 * codes are those of the SQL standard and of PostgreSQL, class by class.
 */
final class PostgresFailure {
    private static final String NO_CONNECTION = "08";
    private static final String WRONG_PASSWORD = "28P01";
    private static final String NOT_LET_IN = "28000";
    private static final String NO_PASSWORD = "08004";
    private static final String NO_DATABASE = "3D000";
    private static final String NO_SUCH_TABLE = "42P01";
    private static final String NO_SUCH_COLUMN = "42703";
    private static final String NO_RIGHTS = "42501";
    private static final String READ_ONLY = "25006";
    private static final String ZERO_CHARACTER = "22021";
    private static final String DISK_FULL = "53100";
    private static final String TOO_MANY = "53300";
    private static final String IDLE_TOO_LONG = "25P03";

    private PostgresFailure() {}

    static boolean refusesRows(SQLException e) {
        String state = state(e);
        return state.startsWith("23") || state.startsWith("22");
    }

    private static String state(SQLException e) {
        return e.getSQLState() == null ? "" : e.getSQLState();
    }

    static StoreException of(SQLException e, PostgresAddress address) {
        String at = address.shown();
        return switch (state(e)) {
            case WRONG_PASSWORD, NOT_LET_IN, NO_PASSWORD ->
                    refused(StoreException.Reason.NO_SERVER, notLetIn(e, address), e);
            case NO_DATABASE ->
                    refused(
                            StoreException.Reason.NO_SERVER,
                            "there is no database "
                                    + Wording.quoted(address.database())
                                    + " on "
                                    + address.server()
                                    + "; have it made there (createdb -E UTF8 "
                                    + address.database()
                                    + ") or correct the address",
                            e);
            case NO_RIGHTS ->
                    refused(
                            StoreException.Reason.NO_PERMISSION,
                            "the user "
                                    + Wording.quoted(address.user())
                                    + " has no right to do this in "
                                    + at
                                    + " ("
                                    + said(e)
                                    + "); have it granted, or make that user the owner of the"
                                    + " database",
                            e);
            case READ_ONLY ->
                    refused(
                            StoreException.Reason.NO_PERMISSION,
                            at + " may only be read: it is a standby, or was set to read only",
                            e);
            case NO_SUCH_TABLE, NO_SUCH_COLUMN ->
                    refused(
                            StoreException.Reason.DAMAGED,
                            at
                                    + " lacks a part of the log ("
                                    + said(e)
                                    + "); restore it from a backup",
                            e);
            case ZERO_CHARACTER ->
                    refused(
                            StoreException.Reason.FAILED,
                            at + " cannot keep a text with the character 0 in it; take it out",
                            e);
            case DISK_FULL ->
                    refused(
                            StoreException.Reason.DISK_FULL,
                            "the disk of the server " + address.server() + " is full; make room",
                            e);
            case TOO_MANY ->
                    refused(
                            StoreException.Reason.BUSY,
                            address.server() + " has too many connections; try again later",
                            e);
            // Waited too long for a lock, chosen to end a deadlock, or overtaken by another writer.
            case "55P03", "40P01", "40001" ->
                    refused(
                            StoreException.Reason.BUSY,
                            "another program is writing to " + at + "; try again when it is done",
                            e);
            case "XX001", "XX002" ->
                    refused(
                            StoreException.Reason.DAMAGED,
                            at + " is damaged (" + said(e) + "); restore it from a backup",
                            e);
            default -> other(e, address);
        };
    }

    private static StoreException other(SQLException e, PostgresAddress address) {
        String state = state(e);
        if (state.startsWith(NO_CONNECTION)
                || state.startsWith("57P")
                || state.equals(IDLE_TOO_LONG)) {
            return refused(StoreException.Reason.NO_SERVER, gone(e, address), e);
        }
        return refused(StoreException.Reason.FAILED, address.shown() + " failed: " + said(e), e);
    }

    private static String notLetIn(SQLException e, PostgresAddress address) {
        String who = "the user " + Wording.quoted(address.user());
        if (state(e).equals(NO_PASSWORD)) {
            return address.server()
                    + " asks for a password of "
                    + who
                    + "; put it into the file .pgpass or the environment variable PGPASSWORD";
        }
        return state(e).equals(WRONG_PASSWORD)
                ? address.server()
                        + " does not let "
                        + who
                        + " in: the password is wrong, or there is no such user"
                : address.server() + " does not let " + who + " in (" + said(e) + ")";
    }

    private static String gone(SQLException e, PostgresAddress address) {
        for (Throwable t = e; t != null; t = t.getCause()) {
            if (t instanceof UnknownHostException) {
                return "there is no host "
                        + Wording.quoted(address.host())
                        + "; correct the address, or check the network";
            }
            if (t instanceof ConnectException
                    || t instanceof NoRouteToHostException
                    || t instanceof SocketTimeoutException) {
                return "no PostgreSQL server answers at "
                        + address.server()
                        + "; check that it runs and that the network lets you through";
            }
        }
        return "the connection to "
                + address.server()
                + " failed or was cut off ("
                + said(e)
                + "); what was not finished is not in the log: try again";
    }

    private static StoreException refused(
            StoreException.Reason reason, String sentence, SQLException e) {
        return new StoreException(reason, sentence, e);
    }

    /** The server's own words, without the values of a statement, which the driver likes to add. */
    private static String said(SQLException e) {
        for (Throwable t : e) {
            if (t instanceof PSQLException p) {
                ServerErrorMessage message = p.getServerErrorMessage();
                if (message != null && message.getMessage() != null) {
                    return message.getMessage();
                }
            }
        }
        return String.valueOf(e.getMessage());
    }
}

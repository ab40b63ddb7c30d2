package tickover.store;

import java.sql.Connection;
import java.sql.SQLException;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Objects;
import java.util.Properties;
import java.util.logging.Level;
import java.util.logging.Logger;
import org.postgresql.Driver;
import org.postgresql.PGProperty;

/**
 * The address of a PostgreSQL database, as its JDBC driver reads it. What it shows of itself never
 * has the password in it.
 */
final class PostgresAddress {
    static final String PREFIX = "jdbc:postgresql:";

    private static final String FORM =
            "write it as jdbc:postgresql://HOST/DATABASE?user=NAME, or"
                    + " jdbc:postgresql://HOST:PORT/DATABASE?user=NAME";

    /** The driver would write addresses to the error stream, passwords and all. */
    private static final Logger DRIVER_LOG = Logger.getLogger("org.postgresql");

    static {
        DRIVER_LOG.setLevel(Level.OFF);
    }

    private final String text;
    private final Properties properties;

    private PostgresAddress(String text, Properties properties) {
        this.text = text;
        this.properties = properties;
    }

    /**
     * Reads an address.
     *
     * @param text begins with {@value #PREFIX}
     * @param environment {@code PGUSER} and {@code PGPASSWORD} stand in for what the address leaves
     *     out
     * @throws StoreException if it is none
     */
    static PostgresAddress of(String text, Map<String, String> environment) {
        // A password before the host would otherwise be taken for a part of the host's name, and
        // shown.
        String place = text.substring(PREFIX.length()).split("\\?", 2)[0];
        if (place.contains("@")) {
            throw bad(
                    "the address of the log has a user or password before the host; "
                            + FORM
                            + ", and keep the password in .pgpass or PGPASSWORD");
        }
        Properties read = Driver.parseURL(text, new Properties());
        if (read == null
                || !read.stringPropertyNames()
                        .containsAll(List.of("PGHOST", "PGPORT", "PGDBNAME"))) {
            throw bad("the address of the log cannot be read; " + FORM);
        }
        standIn(read, PGProperty.USER, environment.getOrDefault("PGUSER", ""));
        standIn(read, PGProperty.USER, System.getProperty("user.name", ""));
        standIn(read, PGProperty.PASSWORD, environment.getOrDefault("PGPASSWORD", ""));
        standIn(read, PGProperty.APPLICATION_NAME, "Tickover");
        standIn(read, PGProperty.TCP_KEEP_ALIVE, "true");
        standIn(read, PGProperty.REWRITE_BATCHED_INSERTS, "true");
        return new PostgresAddress(text, read);
    }

    private static void standIn(Properties properties, PGProperty key, String value) {
        if (properties.getProperty(key.getName()) == null && !value.isEmpty()) {
            properties.setProperty(key.getName(), value);
        }
    }

    private static StoreException bad(String sentence) {
        return new StoreException(StoreException.Reason.BAD_ADDRESS, sentence);
    }

    Connection connect() {
        try {
            Connection connection = new Driver().connect(text, properties);
            return Objects.requireNonNull(connection, "connection");
        } catch (SQLException e) {
            throw PostgresFailure.of(e, this);
        }
    }

    private String get(String key) {
        return properties.getProperty(key, "");
    }

    String host() {
        return get("PGHOST");
    }

    String server() {
        return host() + ":" + get("PGPORT");
    }

    String database() {
        return get("PGDBNAME");
    }

    String user() {
        return get(PGProperty.USER.getName());
    }

    /** The address without user, password and whatever else it may hold but the schema. */
    String shown() {
        String schema = get(PGProperty.CURRENT_SCHEMA.getName());
        return PREFIX
                + "//"
                + server()
                + "/"
                + database()
                + (schema.isEmpty() ? "" : "?currentSchema=" + schema);
    }

    /** A name for a folder of this log's own, the same for every user of it. */
    String folderName() {
        return shown().substring(PREFIX.length() + 2)
                        .toLowerCase(Locale.ROOT)
                        .replaceAll("[^a-z0-9.-]+", "_")
                + "-"
                + Integer.toHexString(shown().hashCode());
    }
}

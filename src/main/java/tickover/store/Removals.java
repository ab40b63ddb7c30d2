package tickover.store;

import java.sql.Connection;
import java.sql.SQLException;
import java.time.Instant;
import java.time.ZoneId;
import java.util.HashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.UUID;

/** Which raw recordings were removed by rule, as rows. */
final class Removals {
    static final String INSERT =
            "INSERT INTO removal (visit_id, name, removed_at_ms, rule) VALUES (?, ?, ?, ?)";

    private static final String FIND =
            "SELECT name, removed_at_ms, rule FROM removal WHERE visit_id = ? ORDER BY name";

    private static final String LIST = "SELECT visit_id, name FROM removal ORDER BY visit_id, name";

    private Removals() {}

    /** A file that was removed by rule. */
    record Named(UUID visitId, String name) {}

    static List<Named> all(Connection c) throws SQLException {
        return Row.list(c, LIST, r -> new Named(UUID.fromString(r.getString(1)), r.getString(2)));
    }

    /**
     * What was removed of one visit.
     *
     * @param names of its files
     * @param sentence when and by which rule, without its full stop; empty if nothing was
     */
    record Of(Set<String> names, String sentence) {
        Of {
            names = Set.copyOf(names);
        }
    }

    static Of of(Connection c, UUID visit) throws SQLException {
        return new Of(names(c, visit), sentence(c, visit).orElse(""));
    }

    /** Names of a visit's files that were removed. */
    static Set<String> names(Connection c, UUID visit) throws SQLException {
        return new HashSet<>(Row.list(c, FIND, r -> r.getString("name"), visit.toString()));
    }

    /** Says when and why recordings of a visit went; empty if none did. */
    static Optional<String> sentence(Connection c, UUID visit) throws SQLException {
        return Row.first(
                c,
                FIND,
                r ->
                        "the raw recordings of visit "
                                + visit
                                + " were removed on "
                                + date(r.getLong("removed_at_ms"))
                                + " by the rule '"
                                + r.getString("rule")
                                + "', its results are kept",
                visit.toString());
    }

    /** The day on the wall's calendar. */
    static String date(long ms) {
        return Instant.ofEpochMilli(ms).atZone(ZoneId.systemDefault()).toLocalDate().toString();
    }
}

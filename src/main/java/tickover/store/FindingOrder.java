package tickover.store;

import java.sql.Connection;
import java.sql.SQLException;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.UUID;

/**
 * The order of a visit's findings: by when they were made, equal times by what they say. Their
 * numbers follow it, the highest counts, and so the same finding counts in every log that has the
 * same findings, whichever came first there.
 */
final class FindingOrder {
    /** Visits whose findings' numbers may not follow it: older logs stamped by the clock alone. */
    private static final String DOUBTFUL =
            """
            SELECT DISTINCT a.visit_id FROM finding a
            JOIN finding b ON b.visit_id = a.visit_id AND b.id > a.id
            WHERE a.made_at_ms >= b.made_at_ms\
            """;

    private static final String IDS = "SELECT id FROM finding WHERE visit_id = ? ORDER BY id";

    private FindingOrder() {}

    private record Place(long id, long madeAtMs, String digest) {}

    static List<Long> ids(Connection c, UUID visit) throws SQLException {
        return Row.list(c, IDS, r -> r.getLong(1), visit.toString());
    }

    /** Puts every visit of the log right. */
    static void putAllRight(Connection c) throws SQLException {
        for (String visit : Row.list(c, DOUBTFUL, r -> r.getString(1))) {
            putRight(c, UUID.fromString(visit));
        }
    }

    /** Gives findings of a visit higher numbers until the numbers follow the order. */
    static void putRight(Connection c, UUID visit) throws SQLException {
        List<Long> ids = ids(c, visit);
        if (ids.size() < 2) {
            return;
        }
        List<Place> places = new ArrayList<>();
        for (long id : ids) {
            long madeAtMs =
                    Row.first(
                                    c,
                                    "SELECT made_at_ms FROM finding WHERE id = ?",
                                    r -> r.getLong(1),
                                    id)
                            .orElseThrow();
            places.add(new Place(id, madeAtMs, ArchiveRows.digest(ArchiveRows.finding(c, id))));
        }
        places.sort(
                Comparator.comparingLong(Place::madeAtMs)
                        .thenComparing(Place::digest)
                        .thenComparingLong(Place::id));
        long last = 0;
        boolean moving = false;
        for (Place place : places) {
            moving |= place.id() < last;
            if (moving) {
                long next = Row.first(c, Sql.NEXT_FINDING, r -> r.getLong(1)).orElseThrow();
                ArchiveRows.renumber(c, place.id(), next);
            }
            last = place.id();
        }
        if (moving) {
            Standings.forget(c, VisitRows.vehicleOf(c, visit));
        }
    }
}

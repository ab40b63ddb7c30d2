package tickover.cli;

import java.time.format.DateTimeFormatter;
import java.util.Locale;
import tickover.store.Visit;

/**
 * A visit that a command named.
 *
 * @param visit the visit
 * @param stored true if it lies in the log, false if it was read from a folder
 */
record VisitHandle(Visit visit, boolean stored) {
    private static final DateTimeFormatter DATE =
            DateTimeFormatter.ofPattern("d MMMM yyyy, HH:mm", Locale.UK);

    /** One line that names the visit to a person. */
    String title() {
        String km =
                visit.odometerKm().isPresent()
                        ? ", " + Prose.fixed(visit.odometerKm().getAsDouble(), 0) + " km"
                        : "";
        return visit.vehicle().unit() + ", " + DATE.format(visit.date()) + km;
    }
}

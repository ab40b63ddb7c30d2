package tickover.console.model;

import java.util.List;
import java.util.Objects;
import java.util.stream.Collectors;
import tickover.drive.Face;
import tickover.drive.Ring;
import tickover.drive.Role;
import tickover.drive.Vehicle;

/**
 * A vehicle while it is entered, as typed. Never changes: an edit makes the next one.
 *
 * @param unit how the fleet calls it
 * @param description free text
 * @param cylinders number of cylinders
 * @param strokes 4 or 2
 * @param idleRpm idle speed, rpm; empty if not known
 * @param firingOrder cylinders in the order in which they fire, with commas; empty if not known
 * @param pulleys the pulleys
 * @param belts the belts
 */
public record DriveState(
        String unit,
        String description,
        String cylinders,
        String strokes,
        String idleRpm,
        String firingOrder,
        List<PulleyRow> pulleys,
        List<BeltRow> belts) {
    /** Nothing entered but what every engine has. */
    static final DriveState BLANK =
            new DriveState(
                    "",
                    "",
                    "4",
                    "4",
                    "",
                    "",
                    List.of(
                            new PulleyRow(
                                    "crank",
                                    Role.CRANK,
                                    "150",
                                    Face.GROOVED,
                                    "0",
                                    "0",
                                    "",
                                    Ring.INNER,
                                    "")),
                    List.of(new BeltRow("main", "", "crank")));

    public DriveState {
        Objects.requireNonNull(unit, "unit");
        Objects.requireNonNull(description, "description");
        Objects.requireNonNull(cylinders, "cylinders");
        Objects.requireNonNull(strokes, "strokes");
        Objects.requireNonNull(idleRpm, "idleRpm");
        Objects.requireNonNull(firingOrder, "firingOrder");
        pulleys = List.copyOf(pulleys);
        belts = List.copyOf(belts);
    }

    static DriveState of(Vehicle v) {
        return new DriveState(
                v.unit(),
                v.description(),
                Integer.toString(v.engine().cylinders()),
                Integer.toString(v.engine().strokes()),
                v.engine().idleRpm().isPresent()
                        ? Numbers.text(v.engine().idleRpm().getAsDouble())
                        : "",
                v.engine().firingOrder().stream()
                        .map(String::valueOf)
                        .collect(Collectors.joining(", ")),
                v.pulleys().stream().map(PulleyRow::of).toList(),
                v.belts().stream().map(BeltRow::of).toList());
    }

    DriveState named(String value) {
        return new DriveState(
                value, description, cylinders, strokes, idleRpm, firingOrder, pulleys, belts);
    }

    DriveState described(String value) {
        return new DriveState(
                unit, value, cylinders, strokes, idleRpm, firingOrder, pulleys, belts);
    }

    DriveState engine(
            String cylindersText, String strokesText, String idleRpmText, String firingOrderText) {
        return new DriveState(
                unit,
                description,
                cylindersText,
                strokesText,
                idleRpmText,
                firingOrderText,
                pulleys,
                belts);
    }

    DriveState with(List<PulleyRow> newPulleys, List<BeltRow> newBelts) {
        return new DriveState(
                unit, description, cylinders, strokes, idleRpm, firingOrder, newPulleys, newBelts);
    }
}

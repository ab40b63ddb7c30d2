package tickover.drive;

import java.util.List;

/**
 * The drive of the collision examples: crank 154 mm, alternator 60 mm with a 6303 in front and a
 * 6203 behind, idler 78.4 mm on the belt's back with a 6203 whose outer ring turns.
 */
final class WorkedExample {
    /** The 6203 of a public data set, in inches there; from memory. */
    private static final BearingGeometry BEARING_6203 =
            new BearingGeometry(8, 0.2656 * 25.4, 1.122 * 25.4, 0);

    private WorkedExample() {}

    static Vehicle vehicle() {
        return Drives.vehicle(
                List.of(),
                Pulley.named("crank", Role.CRANK, 154).build(),
                Pulley.named("alternator", Role.ALTERNATOR, 60)
                        .line(new PassLine("slots", 36))
                        .bearing(PulleyBearing.ofDesignation("6303", Ring.INNER))
                        .bearing(PulleyBearing.of("6203", BEARING_6203, Ring.INNER))
                        .build(),
                Pulley.named("idler", Role.IDLER, 78.4)
                        .face(Face.FLAT)
                        .bearing(PulleyBearing.of("6203", BEARING_6203, Ring.OUTER))
                        .build());
    }
}

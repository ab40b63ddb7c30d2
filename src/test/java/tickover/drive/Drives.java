package tickover.drive;

import java.util.List;

/** Drives that several tests measure. */
final class Drives {
    private Drives() {}

    /** A vehicle of the library pool with a four-cylinder four-stroke engine. */
    static Vehicle vehicle(List<Belt> belts, Pulley... pulleys) {
        return new Vehicle("ML-07", "", Engine.of(4, 4), belts, List.of(pulleys));
    }

    static Pulley grooved(String name, Role role, double diameterMm, double xMm, double yMm) {
        return Pulley.named(name, role, diameterMm).at(new Position(xMm, yMm)).build();
    }

    static Pulley flat(String name, Role role, double diameterMm, double xMm, double yMm) {
        return Pulley.named(name, role, diameterMm)
                .face(Face.FLAT)
                .at(new Position(xMm, yMm))
                .build();
    }

    static PartLine line(DriveModel model, String part, String kind) {
        return model.part(part).orElseThrow().lines().stream()
                .filter(l -> l.kind().equals(kind))
                .findFirst()
                .orElseThrow();
    }
}

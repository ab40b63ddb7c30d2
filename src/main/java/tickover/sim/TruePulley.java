package tickover.sim;

import java.util.List;
import java.util.Objects;
import tickover.drive.Face;
import tickover.drive.PassLine;
import tickover.drive.Position;
import tickover.drive.Role;

/**
 * A pulley as it really is.
 *
 * @param name unique within the drive
 * @param role what it drives
 * @param diameterMm true pitch diameter, mm
 * @param face side of the belt that it runs on
 * @param position its centre
 * @param bearings its bearings
 * @param passLines what passes so many times per turn
 */
record TruePulley(
        String name,
        Role role,
        double diameterMm,
        Face face,
        Position position,
        List<TrueBearing> bearings,
        List<PassLine> passLines) {
    TruePulley {
        Objects.requireNonNull(name, "name");
        Objects.requireNonNull(role, "role");
        Objects.requireNonNull(face, "face");
        Objects.requireNonNull(position, "position");
        bearings = List.copyOf(bearings);
        passLines = List.copyOf(passLines);
        if (!(diameterMm > 0)) {
            throw new IllegalArgumentException("diameterMm=" + diameterMm + ", need > 0 mm");
        }
    }

    double radiusMm() {
        return diameterMm / 2;
    }

    Site site() {
        return new Site(position.xMm(), position.yMm(), 0);
    }
}

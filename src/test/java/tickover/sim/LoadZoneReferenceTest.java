package tickover.sim;

import static org.junit.jupiter.api.Assertions.assertEquals;

import org.junit.jupiter.api.Test;

/** Stribeck's load distribution for ball bearings: textbook formula from memory, recomputed. */
class LoadZoneReferenceTest {
    /** The numbers are given to four decimals. */
    private static final double PRINTED_RATIO = 0.00005;

    /** Angles are given to a hundredth of a degree. */
    private static final double PRINTED_DEG = 0.005;

    @Test
    void loadAtFortyDegreesIsTheTextbooks() {
        assertEquals(
                0.5952, new LoadZone(0.4, 0).at(Math.toRadians(40)), PRINTED_RATIO, "q(40°, 0.4)");
    }

    @Test
    void halfAnglesAreTheTextbooks() {
        assertEquals(66.42, halfAngleDeg(0.3), PRINTED_DEG, "eps 0.3");
        assertEquals(78.46, halfAngleDeg(0.4), PRINTED_DEG, "eps 0.4");
        assertEquals(90.00, halfAngleDeg(0.5), PRINTED_DEG, "eps 0.5");
    }

    @Test
    void thereIsNoLoadOutsideTheZoneButTheFloor() {
        LoadZone zone = new LoadZone(0.4, 0.2);
        assertEquals(0.2, zone.at(zone.halfAngleRad() + 1e-6), 1e-12, "just outside");
        assertEquals(0.2, zone.at(Math.PI), 1e-12, "opposite");
        assertEquals(1.0, zone.at(0), 1e-12, "at the load");
    }

    private static double halfAngleDeg(double extentRatio) {
        return Math.toDegrees(new LoadZone(extentRatio, 0).halfAngleRad());
    }
}

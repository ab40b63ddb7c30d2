package tickover.diagnose;

/**
 * What vibration loses on its way to a point, by distance alone.
 *
 * <p>All numbers are guesses at an ordinary engine, from no source. The simulator's cylinders stand
 * as far apart as here, so that simulated visits flatter what rests on that distance.
 */
final class WayLoss {
    /** From one cylinder to the next. */
    static final double CYLINDER_APART_MM = 95;

    /** From the valve cover to an injector. */
    static final double COVER_TO_INJECTOR_MM = 110;

    /** Lost per doubling of the distance, and the distance from which that counts. */
    private static final double LOSS_DB = 5;

    private static final double NEAR_MM = 70;

    private WayLoss() {}

    /** Loss of level over a distance, dB; 0 at the place itself. */
    static double lossDb(double apartMm) {
        return LOSS_DB * Math.log1p(apartMm / NEAR_MM) / Math.log(2);
    }
}

package tickover.sim;

/**
 * Where something is on the engine, mm: x right and y up seen from the front, z forward.
 *
 * @param xMm to the right
 * @param yMm up
 * @param zMm towards the viewer
 */
record Site(double xMm, double yMm, double zMm) {
    double distanceMm(Site other) {
        return Math.sqrt(
                (xMm - other.xMm) * (xMm - other.xMm)
                        + (yMm - other.yMm) * (yMm - other.yMm)
                        + (zMm - other.zMm) * (zMm - other.zMm));
    }
}

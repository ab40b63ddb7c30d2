package tickover.drive;

/**
 * A pulley's centre, seen from the front of the engine.
 *
 * @param xMm to the right, mm
 * @param yMm up, mm
 */
public record Position(double xMm, double yMm) {
    public Position {
        if (!(Double.isFinite(xMm) && Double.isFinite(yMm))) {
            throw new IllegalArgumentException(
                    "xMm=" + xMm + ", yMm=" + yMm + ", need finite numbers in mm");
        }
    }
}

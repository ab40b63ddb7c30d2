package tickover.drive;

/**
 * Internal geometry of a rolling bearing. Internals are not standardised: ISO 15 fixes only the
 * outside dimensions.
 *
 * @param balls rolling elements per row, &gt;= 3
 * @param ballDiameterMm diameter of a rolling element, mm
 * @param pitchDiameterMm diameter of the circle through their centres, mm, &gt; ballDiameterMm
 * @param contactAngleDeg contact angle, degrees, 0 to below 90
 */
public record BearingGeometry(
        int balls, double ballDiameterMm, double pitchDiameterMm, double contactAngleDeg) {
    public BearingGeometry {
        if (!(balls >= 3)) {
            throw new IllegalArgumentException("balls=" + balls + ", need >= 3");
        }
        if (!(ballDiameterMm > 0)) {
            throw new IllegalArgumentException(
                    "ballDiameterMm=" + ballDiameterMm + ", need > 0 mm");
        }
        if (!(pitchDiameterMm > ballDiameterMm && Double.isFinite(pitchDiameterMm))) {
            throw new IllegalArgumentException(
                    "pitchDiameterMm=" + pitchDiameterMm + ", need > ball diameter in mm");
        }
        if (!(contactAngleDeg >= 0 && contactAngleDeg < 90)) {
            throw new IllegalArgumentException(
                    "contactAngleDeg=" + contactAngleDeg + ", need 0 to below 90 degrees");
        }
    }

    /**
     * Returns g = (d/D) cos a, on which every bearing order depends.
     *
     * @return dimensionless, 0 to below 1
     */
    public double sizeRatio() {
        return ballDiameterMm / pitchDiameterMm * Math.cos(Math.toRadians(contactAngleDeg));
    }
}

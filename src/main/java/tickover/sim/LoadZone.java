package tickover.sim;

/**
 * How a bearing's load is spread around its circumference, after Stribeck, with an even part from
 * preload and axial load: q = floor + (1 - floor) [1 - (1 - cos psi)/(2 eps)]^1.5.
 *
 * @param extentRatio eps, the loaded share of the diameter, above 0 and at most 0.5
 * @param floorRatio even part, 0 to below 1
 */
record LoadZone(double extentRatio, double floorRatio) {
    LoadZone {
        if (!(extentRatio > 0 && extentRatio <= 0.5)) {
            throw new IllegalArgumentException(
                    "extentRatio=" + extentRatio + ", need above 0 and at most 0.5");
        }
        if (!(floorRatio >= 0 && floorRatio < 1)) {
            throw new IllegalArgumentException("floorRatio=" + floorRatio + ", need 0 to below 1");
        }
    }

    /** Load over its largest value, at an angle from the load's direction. */
    double at(double psiRad) {
        double base = 1 - (1 - Math.cos(psiRad)) / (2 * extentRatio);
        double q = base <= 0 ? 0 : base * Math.sqrt(base);
        return floorRatio + (1 - floorRatio) * q;
    }

    /** Half the angle over which there is load from the zone, rad. */
    double halfAngleRad() {
        return Math.acos(1 - 2 * extentRatio);
    }
}

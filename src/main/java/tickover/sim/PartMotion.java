package tickover.sim;

/**
 * Angle of a belt-driven part: the crank's mean angle times the true ratio, slip taken off, with
 * the share of the crank's torsional ripple that belt and decoupler let through.
 *
 * @param crank the crank
 * @param ratio turns per crank turn, slip taken off
 * @param rippleShareRatio share of the ripple that arrives, 0 to 1
 * @param phaseTurns angle at crank angle zero, turns
 */
record PartMotion(CrankMotion crank, double ratio, double rippleShareRatio, double phaseTurns) {
    PartMotion {
        if (!(ratio > 0)) {
            throw new IllegalArgumentException("ratio=" + ratio + ", need > 0");
        }
    }

    double turnsAt(double timeS) {
        double mean = crank.meanTurnsAt(timeS);
        return phaseTurns + ratio * (mean + rippleShareRatio * crank.rippleAt(mean));
    }

    double timeAt(double turns) {
        return crank.timeAt((turns - phaseTurns) / ratio, rippleShareRatio);
    }
}

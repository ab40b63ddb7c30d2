package tickover.drive;

/**
 * How a pulley turns.
 *
 * @param turnsPerCrankTurn without slip, or as measured
 * @param uncertaintyRatio how far the real value may be from it, as a share
 * @param direction with the crank or against it
 * @param belts number of belts between crank and pulley; 0 for the crank's own
 */
record PulleySpeed(
        double turnsPerCrankTurn, double uncertaintyRatio, Direction direction, int belts) {
    static final PulleySpeed OF_CRANK = new PulleySpeed(1, 0, Direction.CRANK, 0);

    /** How a pulley turns that shares a belt with this one of the given diameter and face. */
    PulleySpeed across(Pulley driver, Pulley driven, double slipRatio) {
        return new PulleySpeed(
                turnsPerCrankTurn * driver.diameterMm() / driven.diameterMm(),
                Math.hypot(uncertaintyRatio, slipRatio),
                driver.face() == driven.face() ? direction : direction.opposite(),
                belts + 1);
    }

    PulleySpeed measuredAs(MeasuredTurns turns) {
        return new PulleySpeed(
                turns.turnsPerCrankTurn(), turns.uncertaintyRatio(), direction, belts);
    }
}

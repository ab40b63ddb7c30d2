package tickover.drive;

/**
 * How a pulley turns.
 *
 * @param turnsPerCrankTurn without slip
 * @param direction with the crank or against it
 * @param belts number of belts between crank and pulley; 0 for the crank's own
 */
record PulleySpeed(double turnsPerCrankTurn, Direction direction, int belts) {
    /** How a pulley turns that shares a belt with this one of the given diameter and face. */
    PulleySpeed across(Pulley driver, Pulley driven) {
        return new PulleySpeed(
                turnsPerCrankTurn * driver.diameterMm() / driven.diameterMm(),
                driver.face() == driven.face() ? direction : direction.opposite(),
                belts + 1);
    }
}

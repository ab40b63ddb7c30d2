package tickover.drive;

/**
 * A pulley's speed as the data show it.
 *
 * @param turnsPerCrankTurn turns per crank turn, &gt; 0
 * @param uncertaintyRatio how far the real value may be from it, as a share, 0 to below 1
 */
public record MeasuredTurns(double turnsPerCrankTurn, double uncertaintyRatio) {
    public MeasuredTurns {
        if (!(turnsPerCrankTurn > 0 && Double.isFinite(turnsPerCrankTurn))) {
            throw new IllegalArgumentException(
                    "turnsPerCrankTurn=" + turnsPerCrankTurn + ", need > 0");
        }
        if (!(uncertaintyRatio >= 0 && uncertaintyRatio < 1)) {
            throw new IllegalArgumentException(
                    "uncertaintyRatio=" + uncertaintyRatio + ", need 0 to below 1");
        }
    }
}

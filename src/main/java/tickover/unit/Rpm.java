package tickover.unit;

/**
 * A rotational speed.
 *
 * @param valueRpm turns per minute, finite and not negative
 */
public record Rpm(double valueRpm) {
    public Rpm {
        if (!(valueRpm >= 0 && Double.isFinite(valueRpm))) {
            throw new IllegalArgumentException(
                    "valueRpm=" + valueRpm + ", need a finite speed >= 0 rpm");
        }
    }

    /**
     * Returns the speed in turns per second.
     *
     * @return Hz
     */
    public double hz() {
        return valueRpm / 60.0;
    }

    /**
     * Makes a speed from turns per second.
     *
     * @param turnsHz turns per second, Hz
     * @return the same speed
     */
    public static Rpm ofHz(double turnsHz) {
        return new Rpm(turnsHz * 60.0);
    }
}

package tickover.align;

import java.util.Objects;

/** Pulse times of a mark on a turning part, on the samples' time base. */
public final class TachPulses implements SpeedSource {
    private final double[] timesS;
    private final int pulsesPerTurn;
    private final double turnsPerCrankTurn;

    /**
     * Copies the pulse times.
     *
     * @param timesS pulse times in s, finite and not decreasing
     * @param pulsesPerTurn marks on the part, &gt;= 1; they need not be evenly spaced
     * @param turnsPerCrankTurn turns of the marked part per crank turn, &gt; 0; 1 for the crank
     * @throws IllegalArgumentException if a value is out of range or times run backwards
     */
    public TachPulses(double[] timesS, int pulsesPerTurn, double turnsPerCrankTurn) {
        Objects.requireNonNull(timesS, "timesS");
        if (!(pulsesPerTurn >= 1)) {
            throw new IllegalArgumentException("pulsesPerTurn=" + pulsesPerTurn + ", need >= 1");
        }
        if (!(turnsPerCrankTurn > 0)) {
            throw new IllegalArgumentException(
                    "turnsPerCrankTurn=" + turnsPerCrankTurn + ", need > 0");
        }
        this.timesS = timesS.clone();
        this.pulsesPerTurn = pulsesPerTurn;
        this.turnsPerCrankTurn = turnsPerCrankTurn;
        Times.requireNotDecreasing(this.timesS);
    }

    /**
     * Returns a copy of the pulse times.
     *
     * @return s
     */
    public double[] timesS() {
        return timesS.clone();
    }

    /**
     * Returns the number of marks.
     *
     * @return pulses per turn of the marked part
     */
    public int pulsesPerTurn() {
        return pulsesPerTurn;
    }

    /**
     * Returns how fast the marked part turns.
     *
     * @return its turns per crank turn
     */
    public double turnsPerCrankTurn() {
        return turnsPerCrankTurn;
    }

    @Override
    public Kind kind() {
        return Kind.TACH;
    }
}

package tickover.order;

import java.util.Arrays;
import java.util.Objects;

/**
 * Acceleration at even steps of crank angle: value i belongs to angle {@code (firstStep + i) /
 * samplesPerTurn} turns.
 *
 * <p>Owns its values: the constructor takes the array over without copying, nobody may write to it
 * afterwards.
 */
public final class AngularRecord {
    private final int samplesPerTurn;
    private final long firstStep;
    private final double[] values;

    /**
     * Takes the values over.
     *
     * @param samplesPerTurn values per crank turn, &gt;= 4
     * @param firstStep angle of the first value in steps of 1/samplesPerTurn turns from angle zero
     * @param values m/s²; not copied
     */
    public AngularRecord(int samplesPerTurn, long firstStep, double[] values) {
        if (!(samplesPerTurn >= 4)) {
            throw new IllegalArgumentException("samplesPerTurn=" + samplesPerTurn + ", need >= 4");
        }
        this.samplesPerTurn = samplesPerTurn;
        this.firstStep = firstStep;
        this.values = Objects.requireNonNull(values, "values");
    }

    /**
     * Returns the values per crank turn. Orders below half of it can be seen, those below 0.8 of
     * that half accurately.
     *
     * @return samples per turn
     */
    public int samplesPerTurn() {
        return samplesPerTurn;
    }

    /**
     * Returns the angle of the first value.
     *
     * @return crank turns from angle zero of the {@link ShaftAngle}
     */
    public double startTurns() {
        return turnsAt(0);
    }

    /**
     * Returns the angle of a value, or of a place between values.
     *
     * @param index 0 for the first value
     * @return crank turns
     */
    public double turnsAt(double index) {
        return (firstStep + index) / samplesPerTurn;
    }

    /**
     * Returns the length of the record.
     *
     * @return crank turns
     */
    public double lengthTurns() {
        return (double) values.length / samplesPerTurn;
    }

    /**
     * Returns the values, shared and read-only.
     *
     * @return m/s²
     */
    public double[] values() {
        return values;
    }

    /** A stretch of the values, the end excluded. */
    AngularRecord part(int from, int to) {
        return new AngularRecord(
                samplesPerTurn, firstStep + from, Arrays.copyOfRange(values, from, to));
    }
}

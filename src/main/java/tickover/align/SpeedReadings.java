package tickover.align;

import java.util.Objects;

/** Engine-speed readings: from an OBD adapter, or a known curve. */
public final class SpeedReadings implements SpeedSource {
    private final double[] timesS;
    private final double[] speedsRpm;
    private final boolean lagUnknown;

    /**
     * Copies the readings.
     *
     * @param timesS times in s, finite and not decreasing; arrival times if {@code lagUnknown}
     * @param speedsRpm crank speed at those times, rpm, &gt;= 0, same length
     * @param lagUnknown true for an OBD adapter: the engine turned that fast some 50 to 300 ms
     *     before the reading arrived; false for a curve on the samples' own time base
     * @throws IllegalArgumentException if lengths differ, a value is out of range or times run
     *     backwards
     */
    public SpeedReadings(double[] timesS, double[] speedsRpm, boolean lagUnknown) {
        Objects.requireNonNull(timesS, "timesS");
        Objects.requireNonNull(speedsRpm, "speedsRpm");
        if (timesS.length != speedsRpm.length) {
            throw new IllegalArgumentException(
                    "speedsRpm.length=" + speedsRpm.length + ", need " + timesS.length);
        }
        this.timesS = timesS.clone();
        this.speedsRpm = speedsRpm.clone();
        this.lagUnknown = lagUnknown;
        Times.requireNotDecreasing(this.timesS);
        for (int i = 0; i < this.speedsRpm.length; i++) {
            if (!(this.speedsRpm[i] >= 0 && Double.isFinite(this.speedsRpm[i]))) {
                throw new IllegalArgumentException(
                        "speedsRpm[" + i + "]=" + this.speedsRpm[i] + ", need finite and >= 0 rpm");
            }
        }
    }

    /**
     * Returns a copy of the times.
     *
     * @return s
     */
    public double[] timesS() {
        return timesS.clone();
    }

    /**
     * Returns a copy of the readings.
     *
     * @return crank speed, rpm
     */
    public double[] speedsRpm() {
        return speedsRpm.clone();
    }

    /**
     * Returns whether the readings are late by an unknown time.
     *
     * @return true for an OBD adapter
     */
    public boolean lagUnknown() {
        return lagUnknown;
    }

    @Override
    public Kind kind() {
        return lagUnknown ? Kind.OBD : Kind.KNOWN;
    }
}

package tickover.wire;

/**
 * One line of a plain-text probe, as a view into the decoder: valid until the call that handed it
 * over returns.
 */
public final class TextLine {
    final double[] values = new double[3];
    long tick;
    int axes;
    boolean hasRpm;
    double rpm;
    boolean hasPulse;
    long pulseTick;

    TextLine() {}

    /**
     * Returns when the sample was taken, by the board's clock.
     *
     * @return µs as printed, without unwrapping
     */
    public long tick() {
        return tick;
    }

    /**
     * Returns the number of axes.
     *
     * @return 1 to 3
     */
    public int axes() {
        return axes;
    }

    /**
     * Returns one value in the unit of the line's layout.
     *
     * @param axis 0-based
     * @return the value as printed
     */
    public double value(int axis) {
        return values[axis];
    }

    /**
     * Returns whether the line carries an engine speed.
     *
     * @return true if so
     */
    public boolean hasRpm() {
        return hasRpm;
    }

    /**
     * Returns the engine speed.
     *
     * @return rpm
     */
    public double rpm() {
        return rpm;
    }

    /**
     * Returns whether the line carries the time of the latest tach pulse.
     *
     * @return true if so
     */
    public boolean hasPulse() {
        return hasPulse;
    }

    /**
     * Returns when the latest tach pulse came, by the board's clock.
     *
     * @return µs as printed; repeats from line to line until there is a new pulse
     */
    public long pulseTick() {
        return pulseTick;
    }
}

package tickover.order;

/**
 * One line followed along a record by the {@link VoldKalman} filter. All arrays have one value per
 * point, a twelfth of the inverse of the widest bandwidth apart, and are shared.
 */
public final class LineTrack {
    private final TrackedLine line;
    private final double[] timesS;
    private final double[] rpm;
    private final double[] rms;
    private final double[] phaseDeg;
    private final boolean[] bridged;

    LineTrack(
            TrackedLine line,
            double[] timesS,
            double[] rpm,
            double[] rms,
            double[] phaseDeg,
            boolean[] bridged) {
        this.line = line;
        this.timesS = timesS;
        this.rpm = rpm;
        this.rms = rms;
        this.phaseDeg = phaseDeg;
        this.bridged = bridged;
    }

    /**
     * Returns what was followed.
     *
     * @return the line
     */
    public TrackedLine line() {
        return line;
    }

    /**
     * Returns the time of each point.
     *
     * @return s on the samples' time base
     */
    public double[] timesS() {
        return timesS;
    }

    /**
     * Returns the crank speed there.
     *
     * @return rpm
     */
    public double[] rpm() {
        return rpm;
    }

    /**
     * Returns the level, at each point, of the line and of what noise lies within its bandwidth.
     *
     * @return m/s²
     */
    public double[] rms() {
        return rms;
    }

    /**
     * Returns the phase p in {@code sqrt(2) rms cos(2 pi (order turns + toneHz t) + p)}.
     *
     * @return degrees, above -180 to 180
     */
    public double[] phaseDeg() {
        return phaseDeg;
    }

    /**
     * Returns whether each point lies in a stretch that was left out, so that its values come from
     * what lies around it.
     *
     * @return one value per point
     */
    public boolean[] bridged() {
        return bridged;
    }
}

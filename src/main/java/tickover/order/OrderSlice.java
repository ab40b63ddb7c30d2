package tickover.order;

/** One order followed along a record. All arrays have one value per point and are shared. */
public final class OrderSlice {
    private final double order;
    private final double[] timesS;
    private final double[] rpm;
    private final double[] rms;
    private final double[] phaseDeg;

    OrderSlice(double order, double[] timesS, double[] rpm, double[] rms, double[] phaseDeg) {
        this.order = order;
        this.timesS = timesS;
        this.rpm = rpm;
        this.rms = rms;
        this.phaseDeg = phaseDeg;
    }

    /**
     * Returns the order.
     *
     * @return per crank turn
     */
    public double order() {
        return order;
    }

    /**
     * Returns the time in the middle, by angle, of each segment.
     *
     * @return s
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
     * Returns the level of each segment; noise is not taken off.
     *
     * @return m/s²
     */
    public double[] rms() {
        return rms;
    }

    /**
     * Returns the phase of the cosine at angle zero for each segment.
     *
     * @return degrees, above -180 to 180
     */
    public double[] phaseDeg() {
        return phaseDeg;
    }
}

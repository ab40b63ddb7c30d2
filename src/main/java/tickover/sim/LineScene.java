package tickover.sim;

/**
 * What a probe that is connected to a line feels, and what its speed sensor sees: as long as one
 * likes, any stretch at any time, the same at every call. Times are true seconds since the scene
 * began.
 */
public interface LineScene {
    /**
     * Returns the number of axes.
     *
     * @return 1 to 3
     */
    int axes();

    /**
     * Computes acceleration at even steps.
     *
     * @param fromS first time, s, &gt;= 0
     * @param stepS step, s
     * @param count number of samples
     * @param out count times {@link #axes} values, m/s², sample by sample
     */
    void accelMps2(double fromS, double stepS, int count, double[] out);

    /**
     * Returns when the mark on the crank passes the sensor, once per turn.
     *
     * @param fromS begin of the stretch, s
     * @param toS its end, s, excluded
     * @return times, s, rising
     */
    double[] passagesS(double fromS, double toS);

    /**
     * Returns engine speed.
     *
     * @param timeS time, s
     * @return crank speed, rpm
     */
    double speedRpm(double timeS);

    /**
     * Returns when somebody presses the probe's button: never, unless a scene says otherwise.
     *
     * @param fromS begin of the stretch, s
     * @param toS its end, s, excluded
     * @return times, s, rising
     */
    default double[] pressesS(double fromS, double toS) {
        return new double[0];
    }

    /**
     * Somebody started the probe.
     *
     * @param atS when, s
     */
    default void started(double atS) {}
}

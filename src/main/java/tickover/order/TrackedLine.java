package tickover.order;

/**
 * A line for the {@link VoldKalman} filter to follow: where it stands and how fast it may change.
 *
 * <p>Its frequency is {@code order * speed + toneHz}, its bandwidth {@code bandwidthHz +
 * bandwidthOrders * speed}, with the crank's speed in turns per second. The bandwidth is the full
 * width between the two frequencies at which the filter lets 0.71 (-3 dB) of a lone line through.
 *
 * @param order part that turns with the crank, per crank turn, &gt;= 0
 * @param toneHz part that does not, Hz, &gt;= 0; one of the two must be &gt; 0
 * @param bandwidthHz part of the bandwidth that stays, Hz, &gt;= 0
 * @param bandwidthOrders part of the bandwidth that goes with the speed, per crank turn, &gt;= 0;
 *     one of the two must be &gt; 0
 */
public record TrackedLine(double order, double toneHz, double bandwidthHz, double bandwidthOrders) {
    public TrackedLine {
        if (!(order >= 0 && toneHz >= 0 && order + toneHz > 0 && finite(order, toneHz))) {
            throw new IllegalArgumentException(
                    "order="
                            + order
                            + ", toneHz="
                            + toneHz
                            + ", need both >= 0, one of them > 0, both finite");
        }
        if (!(bandwidthHz >= 0
                && bandwidthOrders >= 0
                && bandwidthHz + bandwidthOrders > 0
                && finite(bandwidthHz, bandwidthOrders))) {
            throw new IllegalArgumentException(
                    "bandwidthHz="
                            + bandwidthHz
                            + ", bandwidthOrders="
                            + bandwidthOrders
                            + ", need both >= 0, one of them > 0, both finite");
        }
    }

    /**
     * An order under a bandwidth that stays the same in Hz.
     *
     * @param order per crank turn, &gt; 0
     * @param bandwidthHz full -3 dB width, Hz, &gt; 0
     * @return the line
     */
    public static TrackedLine orderWithinHz(double order, double bandwidthHz) {
        return new TrackedLine(order, 0, bandwidthHz, 0);
    }

    /**
     * An order under a bandwidth that grows with the speed.
     *
     * @param order per crank turn, &gt; 0
     * @param bandwidthOrders full -3 dB width, per crank turn, &gt; 0
     * @return the line
     */
    public static TrackedLine orderWithinOrders(double order, double bandwidthOrders) {
        return new TrackedLine(order, 0, 0, bandwidthOrders);
    }

    /**
     * A tone that does not follow the speed.
     *
     * @param toneHz frequency, Hz, &gt; 0
     * @param bandwidthHz full -3 dB width, Hz, &gt; 0
     * @return the line
     */
    public static TrackedLine toneWithinHz(double toneHz, double bandwidthHz) {
        return new TrackedLine(0, toneHz, bandwidthHz, 0);
    }

    /** Where the line stands at a speed, Hz. */
    double frequencyHz(double speedHz) {
        return order * speedHz + toneHz;
    }

    /** How wide the filter is at a speed, Hz. */
    double bandwidthHzAt(double speedHz) {
        return bandwidthHz + bandwidthOrders * speedHz;
    }

    private static boolean finite(double a, double b) {
        return Double.isFinite(a) && Double.isFinite(b);
    }
}

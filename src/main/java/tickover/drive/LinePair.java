package tickover.drive;

import java.util.Objects;
import java.util.OptionalDouble;

/**
 * Two lines of different parts, and whether order alone tells them apart.
 *
 * @param a one line
 * @param b the other
 * @param parting the answer for the capture that was asked about
 */
public record LinePair(LineHarmonic a, LineHarmonic b, Parting parting) {
    /** Below this gap two orders are one: round-off of the diameters' ratio. */
    private static final double SAME_ORDERS = 1e-9;

    public LinePair {
        Objects.requireNonNull(a, "a");
        Objects.requireNonNull(b, "b");
        Objects.requireNonNull(parting, "parting");
    }

    static LinePair judge(LineHarmonic a, LineHarmonic b, double resolutionOrders) {
        double gap = Math.abs(a.orders() - b.orders());
        boolean apart = gap > a.uncertaintyOrders() + b.uncertaintyOrders() && gap > SAME_ORDERS;
        boolean resolved = gap >= resolutionOrders;
        Parting parting;
        if (apart) {
            parting = resolved ? Parting.PARTED : Parting.CAPTURE_TOO_SHORT;
        } else {
            parting = resolved ? Parting.PLACES_OVERLAP : Parting.INSEPARABLE;
        }
        return new LinePair(a, b, parting);
    }

    /**
     * Returns how far apart the two stand, without slip.
     *
     * @return per crank turn, &gt;= 0
     */
    public double gapOrders() {
        return Math.abs(a.orders() - b.orders());
    }

    /**
     * Returns how long a capture must be to show two lines.
     *
     * @param speedRpm steady crank speed, rpm, &gt; 0
     * @return s; empty if both stand at the same order, which no length parts
     */
    public OptionalDouble neededS(double speedRpm) {
        if (!(speedRpm > 0 && Double.isFinite(speedRpm))) {
            throw new IllegalArgumentException("speedRpm=" + speedRpm + ", need > 0 rpm");
        }
        return gapOrders() <= SAME_ORDERS
                ? OptionalDouble.empty()
                : OptionalDouble.of(Separability.MAIN_LOBE_BINS / gapOrders() / (speedRpm / 60));
    }
}

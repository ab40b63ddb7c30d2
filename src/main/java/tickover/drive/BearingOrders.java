package tickover.drive;

import java.util.Objects;

/**
 * Rates of a rolling bearing per turn of its turning ring, for rolling without slip.
 *
 * <p>With n balls and g = (d/D) cos a: outer race (n/2)(1-g), inner race (n/2)(1+g), ball spin
 * (D/2d)(1-g²). They are the same for either turning ring; the cage is not: it runs at ½(1-g) when
 * the inner ring turns and at ½(1+g) when the outer ring turns. Real rates differ by 1 to 2 %
 * because the balls slip.
 *
 * <p>Source: [RandallAntoni2011] for the inner ring turning; the cage of the other case follows
 * from the mean of the race speeds.
 *
 * @param cageOrder cage turns per turn
 * @param outerRaceOrder balls passing a spot on the outer race per turn
 * @param innerRaceOrder balls passing a spot on the inner race per turn
 * @param ballSpinOrder turns of a ball about its own axis per turn; a spot on it strikes twice as
 *     often
 */
public record BearingOrders(
        double cageOrder, double outerRaceOrder, double innerRaceOrder, double ballSpinOrder) {
    /**
     * Computes the rates.
     *
     * @param geometry the bearing's internals
     * @param turning the ring that turns
     * @return rates per turn of that ring
     */
    public static BearingOrders of(BearingGeometry geometry, Ring turning) {
        Objects.requireNonNull(turning, "turning");
        double g = geometry.sizeRatio();
        double n = geometry.balls();
        double cage = turning == Ring.INNER ? 0.5 * (1 - g) : 0.5 * (1 + g);
        double spin = geometry.pitchDiameterMm() / (2 * geometry.ballDiameterMm()) * (1 - g * g);
        return new BearingOrders(cage, 0.5 * n * (1 - g), 0.5 * n * (1 + g), spin);
    }
}

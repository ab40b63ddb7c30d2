package tickover.sim;

import java.util.Objects;
import tickover.drive.BearingGeometry;
import tickover.drive.BearingOrders;
import tickover.drive.Ring;

/**
 * A bearing as it really is.
 *
 * @param designation what is printed on it
 * @param geometry its true internals
 * @param turningRing the ring that turns
 * @param cageLagRatio share by which the cage lags behind rolling without slip, -0.01 to 0.02
 */
record TrueBearing(
        String designation, BearingGeometry geometry, Ring turningRing, double cageLagRatio) {
    TrueBearing {
        Objects.requireNonNull(designation, "designation");
        Objects.requireNonNull(geometry, "geometry");
        Objects.requireNonNull(turningRing, "turningRing");
        if (!(cageLagRatio >= -0.01 && cageLagRatio <= 0.02)) {
            throw new IllegalArgumentException(
                    "cageLagRatio=" + cageLagRatio + ", need -0.01 to 0.02");
        }
    }

    /** Cage turns per turn of the turning ring. */
    double cageOrder() {
        return BearingOrders.of(geometry, turningRing).cageOrder() * (1 - cageLagRatio);
    }

    /** Balls passing a spot on the standing ring: every ball once per cage turn. */
    private double standingRaceOrder() {
        return geometry.balls() * cageOrder();
    }

    /** Balls passing a spot on the turning ring: it overtakes the cage. */
    private double turningRaceOrder() {
        return geometry.balls() * (1 - cageOrder());
    }

    double outerRaceOrder() {
        return turningRing == Ring.OUTER ? turningRaceOrder() : standingRaceOrder();
    }

    double innerRaceOrder() {
        return turningRing == Ring.INNER ? turningRaceOrder() : standingRaceOrder();
    }

    double ballSpinOrder() {
        return BearingOrders.of(geometry, turningRing).ballSpinOrder() * (1 - cageLagRatio);
    }
}

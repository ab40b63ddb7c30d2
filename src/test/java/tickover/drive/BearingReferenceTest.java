package tickover.drive;

import static org.junit.jupiter.api.Assertions.assertEquals;

import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/**
 * Bearing rates against published tables. The tables are quoted from memory and every number was
 * recomputed from the textbook formulas; none is a sighting of the source itself.
 */
class BearingReferenceTest {
    /** The tables print four decimals. */
    private static final double PRINTED_ORDERS = 0.00005;

    /** Round-off of a handful of multiplications. */
    private static final double ROUND_OFF = 1e-12;

    /**
     * Geometry and rates of public bearing data sets: 6205 and 6203 of a university bearing data
     * centre (from memory, recomputed), the bearing of a teaching rig and a 204-size test bearing
     * (geometry seen in excerpts, rates recomputed), a failure-prevention data set (from memory,
     * recomputed). Diameters in each row share a unit, which cancels.
     */
    @ParameterizedTest
    @CsvSource({
        "9, 0.3126,  1.537, 0.3983, 3.5848, 5.4152, 2.3567",
        "8, 0.2656,  1.122, 0.3816, 3.0531, 4.9469, 1.9938",
        "8, 0.3125,  1.319, 0.3815, 3.0523, 4.9477, 1.9919",
        "8, 7.92,    34.55, 0.3854, 3.0831, 4.9169, 2.0666",
        "8, 0.235,   1.245, 0.4056, 3.2450, 4.7550, 2.5546",
    })
    void ratesWithInnerRingTurningMatchTheTables(
            int balls,
            double ball,
            double pitch,
            double cage,
            double outer,
            double inner,
            double spin) {
        BearingOrders orders =
                BearingOrders.of(new BearingGeometry(balls, ball, pitch, 0), Ring.INNER);
        assertEquals(cage, orders.cageOrder(), PRINTED_ORDERS);
        assertEquals(outer, orders.outerRaceOrder(), PRINTED_ORDERS);
        assertEquals(inner, orders.innerRaceOrder(), PRINTED_ORDERS);
        assertEquals(spin, orders.ballSpinOrder(), PRINTED_ORDERS);
    }

    /** The 6203 with its outer ring turning: derived from kinematics and recomputed. */
    @Test
    void outerRingTurningChangesOnlyTheCage() {
        BearingOrders orders =
                BearingOrders.of(new BearingGeometry(8, 0.2656, 1.122, 0), Ring.OUTER);
        assertEquals(0.6184, orders.cageOrder(), PRINTED_ORDERS);
        assertEquals(3.0531, orders.outerRaceOrder(), PRINTED_ORDERS);
        assertEquals(4.9469, orders.innerRaceOrder(), PRINTED_ORDERS);
        assertEquals(3.9877, 2 * orders.ballSpinOrder(), PRINTED_ORDERS);
    }

    /** 8 balls of 10 on a pitch of 50 at 1800 rpm give round numbers: textbook formula. */
    @Test
    void roundNumbersComeOutRound() {
        BearingOrders orders = BearingOrders.of(new BearingGeometry(8, 10, 50, 0), Ring.INNER);
        double shaftHz = 1800 / 60.0;
        assertEquals(12, orders.cageOrder() * shaftHz, 12 * ROUND_OFF);
        assertEquals(96, orders.outerRaceOrder() * shaftHz, 96 * ROUND_OFF);
        assertEquals(144, orders.innerRaceOrder() * shaftHz, 144 * ROUND_OFF);
        assertEquals(72, orders.ballSpinOrder() * shaftHz, 72 * ROUND_OFF);
    }

    /** The 6205 at 1797 rpm, in Hz: from memory, recomputed; two decimals printed. */
    @Test
    void ratesAtSpeedMatchTheTable() {
        BearingOrders orders =
                BearingOrders.of(new BearingGeometry(9, 0.3126, 1.537, 0), Ring.INNER);
        double shaftHz = 1797 / 60.0;
        double printedHz = 0.005;
        assertEquals(11.93, orders.cageOrder() * shaftHz, printedHz);
        assertEquals(107.36, orders.outerRaceOrder() * shaftHz, printedHz);
        // The printed 162.19 is 5.4152 x 29.95, both rounded first: one more half digit.
        assertEquals(162.19, orders.innerRaceOrder() * shaftHz, 2 * printedHz);
        assertEquals(70.58, orders.ballSpinOrder() * shaftHz, printedHz);
    }

    /**
     * Rules of thumb of few and fat balls, recomputed: a 6301-like bearing (6 balls) 0.338n and
     * 0.662n, a 6303-like one 0.364n and 0.636n.
     */
    @ParameterizedTest
    @DisplayName("share of the balls that passes each race matches the recomputed values")
    @CsvSource({"6, 7.94, 24.5, 0.338, 0.662", "7, 8.73, 32, 0.364, 0.636"})
    void sharesOfFatBallsMatch(
            int balls, double ballMm, double pitchMm, double outerShare, double innerShare) {
        double printedShare = 0.0005;
        BearingOrders orders =
                BearingOrders.of(new BearingGeometry(balls, ballMm, pitchMm, 0), Ring.INNER);
        assertEquals(outerShare, orders.outerRaceOrder() / balls, printedShare);
        assertEquals(innerShare, orders.innerRaceOrder() / balls, printedShare);
    }
}

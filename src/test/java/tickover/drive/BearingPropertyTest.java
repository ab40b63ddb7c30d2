package tickover.drive;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Random;
import org.junit.jupiter.api.Test;

/** Laws of bearing rates that hold whatever the geometry. */
class BearingPropertyTest {
    private static final long SEED = 6203;
    private static final int TRIALS = 500;

    /** Round-off of a few operations on numbers up to a few tens. */
    private static final double ROUND_OFF = 1e-11;

    private interface Law {
        void holds(BearingGeometry geometry, String where);
    }

    private static void forManyBearings(Law law) {
        Random random = new Random(SEED);
        for (int i = 0; i < TRIALS; i++) {
            double pitchMm = 10 + 90 * random.nextDouble();
            double ballMm = pitchMm * (0.05 + 0.5 * random.nextDouble());
            BearingGeometry g =
                    new BearingGeometry(
                            3 + random.nextInt(20), ballMm, pitchMm, 45 * random.nextDouble());
            law.holds(g, "seed " + SEED + ", trial " + i + ": " + g);
        }
    }

    @Test
    void racePassesAddUpToTheNumberOfBalls() {
        forManyBearings(
                (g, where) -> {
                    BearingOrders o = BearingOrders.of(g, Ring.INNER);
                    assertEquals(
                            g.balls(), o.outerRaceOrder() + o.innerRaceOrder(), ROUND_OFF, where);
                });
    }

    @Test
    void innerRaceIsPassedMoreOftenThanTheOuter() {
        forManyBearings(
                (g, where) -> {
                    for (Ring turning : Ring.values()) {
                        BearingOrders o = BearingOrders.of(g, turning);
                        assertTrue(o.innerRaceOrder() > o.outerRaceOrder(), where);
                    }
                });
    }

    /** Seen from the standing ring, each ball passes once per cage turn. */
    @Test
    void standingRaceIsPassedByEveryBallOncePerCageTurn() {
        forManyBearings(
                (g, where) -> {
                    BearingOrders inner = BearingOrders.of(g, Ring.INNER);
                    BearingOrders outer = BearingOrders.of(g, Ring.OUTER);
                    assertEquals(
                            inner.outerRaceOrder(),
                            g.balls() * inner.cageOrder(),
                            ROUND_OFF,
                            where);
                    assertEquals(
                            outer.innerRaceOrder(),
                            g.balls() * outer.cageOrder(),
                            ROUND_OFF,
                            where);
                });
    }

    /**
     * An independent route: the ball's centre moves at the mean of the race speeds, and the pass
     * rates are the balls' speed against each race.
     */
    @Test
    void ratesFollowFromSurfaceSpeeds() {
        forManyBearings(
                (g, where) -> {
                    double reach =
                            g.ballDiameterMm() * Math.cos(Math.toRadians(g.contactAngleDeg()));
                    double innerRaceMm = (g.pitchDiameterMm() - reach) / 2;
                    double outerRaceMm = (g.pitchDiameterMm() + reach) / 2;
                    for (Ring turning : Ring.values()) {
                        double innerTurns = turning == Ring.INNER ? 1 : 0;
                        double outerTurns = 1 - innerTurns;
                        double centreSpeed =
                                (innerTurns * innerRaceMm + outerTurns * outerRaceMm) / 2;
                        double cage = centreSpeed / (g.pitchDiameterMm() / 2);
                        double rolling =
                                Math.abs(innerTurns - cage)
                                        * innerRaceMm
                                        / (g.ballDiameterMm() / 2);
                        BearingOrders o = BearingOrders.of(g, turning);
                        assertEquals(cage, o.cageOrder(), ROUND_OFF, where);
                        assertEquals(
                                g.balls() * Math.abs(outerTurns - cage),
                                o.outerRaceOrder(),
                                ROUND_OFF,
                                where);
                        assertEquals(
                                g.balls() * Math.abs(innerTurns - cage),
                                o.innerRaceOrder(),
                                ROUND_OFF,
                                where);
                        assertEquals(rolling, o.ballSpinOrder(), ROUND_OFF, where);
                    }
                });
    }
}

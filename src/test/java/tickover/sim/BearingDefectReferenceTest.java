package tickover.sim;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import org.junit.jupiter.api.Test;
import tickover.drive.BearingGeometry;
import tickover.drive.Condition;
import tickover.drive.Ring;
import tickover.drive.Role;

/**
 * Pass rates and modulation of damaged bearings, from memory of the textbooks and recomputed; the
 * swap of roles for a turning outer ring is derived from a load zone fixed in space.
 */
class BearingDefectReferenceTest {
    /** The 6203 of a public data set, inches: 8 balls of 0.2656 on 1.122. */
    private static final BearingGeometry SIZE_6203 = new BearingGeometry(8, 0.2656, 1.122, 0);

    private static final double SPEED_HZ = 20;
    private static final double RATE_HZ = 12800;

    /** Whole turns of the ring, so that lines do not leak. */
    private static final double DURATION_S = 20;

    /** Rates are printed to four decimals. */
    private static final double PRINTED_ORDERS = 0.00006;

    @Test
    void ratesWithoutSlipAreThePrintedOnes() {
        TrueBearing inner = new TrueBearing("6203", SIZE_6203, Ring.INNER, 0);
        TrueBearing outer = new TrueBearing("6203", SIZE_6203, Ring.OUTER, 0);
        assertEquals(0.3816, inner.cageOrder(), PRINTED_ORDERS);
        assertEquals(0.6184, outer.cageOrder(), PRINTED_ORDERS);
        for (TrueBearing b : new TrueBearing[] {inner, outer}) {
            assertEquals(3.0531, b.outerRaceOrder(), PRINTED_ORDERS);
            assertEquals(4.9469, b.innerRaceOrder(), PRINTED_ORDERS);
            assertEquals(1.9938, b.ballSpinOrder(), PRINTED_ORDERS);
        }
    }

    /** A cage that lags passes the standing ring less often and is overtaken more often. */
    @Test
    void aLaggingCageLowersOneRaceRateAndRaisesTheOther() {
        TrueBearing b = new TrueBearing("6203", SIZE_6203, Ring.OUTER, 0.01);
        assertTrue(b.innerRaceOrder() < 4.9469);
        assertTrue(b.outerRaceOrder() > 3.0531);
        assertEquals(8, b.innerRaceOrder() + b.outerRaceOrder(), 1e-12, "balls per turn");
    }

    /** Sidebands at the turning ring's own turn: turning ring yes, standing ring no. */
    @Test
    void onlyASpotOnTheTurningRingIsModulatedOncePerTurn() {
        assertTrue(sideband(FaultKind.BEARING_OUTER_RING, Ring.OUTER, 1) > TURNING, "outer turns");
        assertTrue(sideband(FaultKind.BEARING_INNER_RING, Ring.INNER, 1) > TURNING, "inner turns");
        assertTrue(
                sideband(FaultKind.BEARING_INNER_RING, Ring.OUTER, 1) < STANDING, "inner stands");
        assertTrue(
                sideband(FaultKind.BEARING_OUTER_RING, Ring.INNER, 1) < STANDING, "outer stands");
    }

    /** A spot on a ball goes through the load zone once per cage turn. */
    @Test
    void aBallSpotIsModulatedAtTheCagesTurn() {
        for (Ring ring : Ring.values()) {
            double cage = new TrueBearing("6203", SIZE_6203, ring, 0).cageOrder();
            assertTrue(sideband(FaultKind.ROLLING_ELEMENT, ring, cage) > TURNING, "cage " + ring);
            assertTrue(sideband(FaultKind.ROLLING_ELEMENT, ring, 1) < STANDING, "turn " + ring);
        }
    }

    /** First sideband of a Stribeck zone of 0.4, squared: 0.8 of the carrier at least half that. */
    private static final double TURNING = 0.4;

    /** Unbalance loads the zone by up to 12 %, squared up to 24 % in two sidebands, plus noise. */
    private static final double STANDING = 0.2;

    private static double sideband(FaultKind kind, Ring ring, double away) {
        Run run = Runs.at(SPEED_HZ, RATE_HZ, DURATION_S, Condition.UNLOADED);
        TrueBearing bearing = new TrueBearing("6203", SIZE_6203, ring, 0);
        BearingDefect defect =
                new BearingDefect(
                        bearing, kind, 1, 0, new LoadZone(0.4, 0), LoadGain.constant(Role.IDLER));
        Shake shake = new Shake(run.count());
        defect.shake(run, Runs.part(run, 1), new Draw(3), shake);
        double[] power = Runs.squared(shake.impactsMps2);
        double at = defect.strikesPerTurn();
        double carrier = Runs.amplitude(power, run, at);
        double low = Runs.amplitude(power, run, at - away);
        double high = Runs.amplitude(power, run, at + away);
        return (low + high) / 2 / carrier;
    }

    /**
     * Jitter that accumulates widens the k-th harmonic to 2 pi k² s² f; with s = 0.01, f = 40 Hz
     * and k = 10 that is 2.51 Hz. Closed form of a renewal process, recomputed.
     */
    @Test
    void accumulatingJitterWidensHarmonicsByTheClosedForm() {
        double jitterRatio = 0.01;
        int harmonic = 10;
        BearingDefect defect =
                new BearingDefect(
                        new TrueBearing("6203", SIZE_6203, Ring.OUTER, 0),
                        FaultKind.BEARING_INNER_RING,
                        1,
                        jitterRatio,
                        new LoadZone(0.4, 0),
                        LoadGain.constant(Role.IDLER));
        double rateHz = 40;
        double turnHz = rateHz / defect.strikesPerTurn();
        double widthHz = 2 * Math.PI * harmonic * harmonic * jitterRatio * jitterRatio * rateHz;
        assertEquals(2.51, widthHz, 0.005, "printed to two decimals");
        Draw draw = new Draw(17);
        double peak = 0;
        double shoulder = 0;
        for (int run = 0; run < 60; run++) {
            double[] timesS = new double[1600];
            double turns = 0;
            for (int i = 0; i < timesS.length; i++) {
                turns += defect.nextWaitTurns(draw);
                timesS[i] = turns / turnHz;
            }
            double centreHz = harmonic * rateHz;
            for (int bin = -3; bin <= 3; bin++) {
                double offHz = bin * 0.03;
                peak += power(timesS, centreHz + offHz);
                shoulder += power(timesS, centreHz - widthHz / 2 + offHz) / 2;
                shoulder += power(timesS, centreHz + widthHz / 2 + offHz) / 2;
            }
        }
        // 60 runs of 7 bins, each exponentially distributed: 5 % on each average; three of that.
        assertEquals(0.5, shoulder / peak, 0.5 * 0.2);
    }

    private static double power(double[] timesS, double frequencyHz) {
        double re = 0;
        double im = 0;
        for (double t : timesS) {
            re += Math.cos(2 * Math.PI * frequencyHz * t);
            im += Math.sin(2 * Math.PI * frequencyHz * t);
        }
        return re * re + im * im;
    }
}

package tickover.diagnose;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;

class LineMapTest {
    /** Knocks per crank turn, on no multiple of the working cycle. */
    private static final double KNOCKS_ORDERS = 5.37;

    /** No more than one order in fifty holds somebody else's line. */
    private static final double ONE_LINE_NATS = Math.log(50);

    @Test
    void weakKnocksInThreeCapturesAreClearerThanInOne() throws UnusableCaptureException {
        List<CaptureMeasurement> captures = new ArrayList<>();
        for (int seed = 1; seed <= 3; seed++) {
            double[] x = SteadyCaptures.noise(seed, 0.3);
            SteadyCaptures.bursts(x, 0.1, 1 / KNOCKS_ORDERS, 0.35);
            captures.add(SteadyCaptures.at("idler", x));
        }
        double one = at(new LineMap(captures.subList(0, 1)));
        double three = at(new LineMap(captures));
        assertTrue(three > one, three + " with three, " + one + " with one");
    }

    @Test
    void oneLineSaysNoMoreThanOneLineCanInHoweverManyCaptures() throws UnusableCaptureException {
        List<CaptureMeasurement> captures = new ArrayList<>();
        for (int seed = 1; seed <= 4; seed++) {
            double[] x = SteadyCaptures.noise(seed, 0.3);
            for (int i = 0; i < x.length; i++) {
                double turns = SteadyCaptures.TURNS_HZ * i / SteadyCaptures.RATE_HZ;
                // The squared envelope then has one line and no multiples.
                x[i] *= Math.sqrt(1 + 0.5 * Math.cos(2 * Math.PI * KNOCKS_ORDERS * turns));
            }
            captures.add(SteadyCaptures.at("idler", x));
        }
        double nats = at(new LineMap(captures));
        // Noise adds a little at the three multiples that are not there.
        double noise = 2;
        assertTrue(nats < ONE_LINE_NATS + noise, "nats " + nats);
        assertTrue(nats > 1, "nats " + nats);
    }

    @Test
    void linesBesideTheStrikesTellHowFastTheRingTurns() throws UnusableCaptureException {
        double turnOrders = 1.73;
        double[] x = SteadyCaptures.noise(6, 0.3);
        for (int i = 0; i < x.length; i++) {
            double turns = SteadyCaptures.TURNS_HZ * i / SteadyCaptures.RATE_HZ;
            double strikes = Math.cos(2 * Math.PI * KNOCKS_ORDERS * turns);
            double load = 1 + 0.8 * Math.cos(2 * Math.PI * turnOrders * turns);
            x[i] *= Math.sqrt(1 + 0.45 * load * strikes);
        }
        LineMap map = new LineMap(List.of(SteadyCaptures.at("idler", x)));
        int at = RhythmScan.indexOf(KNOCKS_ORDERS);
        double itsOwn = map.sides("idler", turnOrders, at, at)[0];
        double anothers = map.sides("idler", 2.31, at, at)[0];
        double clear = 2;
        assertTrue(itsOwn > clear, "its own " + itsOwn);
        assertTrue(itsOwn > anothers + clear, "another's " + anothers);
    }

    @Test
    void besideOrdersThatAreNotLookedAtNothingStands() throws UnusableCaptureException {
        LineMap map = new LineMap(List.of(SteadyCaptures.at("idler", SteadyCaptures.noise(2, 1))));
        int beyond = RhythmScan.COUNT + 2 * RhythmScan.NEIGHBOURS;
        assertArrayEquals(new double[3], map.sides("idler", 8, beyond, beyond + 2), 0);
    }

    @Test
    void withoutCapturesNothingIsSaid() {
        assertEquals(0, at(new LineMap(List.of())), 0);
    }

    private static double at(LineMap map) {
        return map.combs("idler", LineMap.Comb.STRIKES)[RhythmScan.indexOf(KNOCKS_ORDERS)];
    }
}

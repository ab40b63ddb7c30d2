package tickover.diagnose;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Arrays;
import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Test;
import tickover.drive.LineKind;

class KnockMeterTest {
    private static final int STEPS_PER_TURN = 256;
    private static final int TURNS = 160;

    /** Squared envelope of bursts one step long with a given mean square, and of steady noise. */
    private static double[] envelope(double order, double burstSquare, double noiseSquare) {
        double[] e = new double[STEPS_PER_TURN * TURNS];
        Random random = new Random(5);
        for (int i = 0; i < e.length; i++) {
            // Squared envelope of Gaussian noise: exponential with mean twice the mean square.
            e[i] = -2 * noiseSquare * Math.log(1 - random.nextDouble());
        }
        double bursts = order * TURNS;
        double height = 2 * burstSquare * e.length / bursts;
        for (int k = 0; k < bursts; k++) {
            e[(int) (k * STEPS_PER_TURN / order)] += height;
        }
        return e;
    }

    private static boolean[] all(int count) {
        boolean[] usable = new boolean[count];
        Arrays.fill(usable, true);
        return usable;
    }

    private static KnockMeter meter(double[]... envelopes) {
        List<OrderField> fields =
                Arrays.stream(envelopes)
                        .map(
                                e ->
                                        new OrderField(
                                                AngleGrid.binOrders(e.length),
                                                AngleGrid.power(e, all(e.length)),
                                                0.5,
                                                0.02))
                        .toList();
        return new KnockMeter(
                List.of(envelopes),
                fields,
                STEPS_PER_TURN,
                SegmentPlan.of(all(envelopes[0].length), STEPS_PER_TURN),
                0);
    }

    private static double mean(double[] values) {
        return Arrays.stream(values).average().orElseThrow();
    }

    @Test
    void readsTheMeanSquareOfShortBursts() {
        double square = 0.3;
        KnockMeter meter = meter(envelope(9.69, square, 0));
        // Bursts sit on whole steps: up to half a step off costs sinc(9.69/256/2) of the line, and
        // the Hann side lobes of the neighbouring harmonics less than that.
        double placement = 0.01;
        assertEquals(square, mean(meter.segmentPowers(9.69)), placement * square);
    }

    @Test
    void addsBands() {
        KnockMeter meter = meter(envelope(9.69, 0.3, 0), envelope(9.69, 0.1, 0));
        assertEquals(0.4, mean(meter.segmentPowers(9.69)), 0.01 * 0.4);
    }

    @Test
    void findsTheRhythmWithinTheToleranceInWhicheverBandHasIt() {
        KnockMeter meter = meter(envelope(9.69, 0, 0.5), envelope(9.69, 0.3, 0.5));
        // Half a bin of the padded spectrum, 1/(1.5 * 160) orders wide.
        double bin = 1.0 / (1.5 * TURNS);
        assertEquals(9.69, meter.peakOrder(9.6, 0.2), bin);
    }

    @Test
    void noiseAloneIsWithinItsOwnScatterOfNothing() {
        double[] powers = meter(envelope(9.69, 0, 0.5)).segmentPowers(9.69);
        double mean = mean(powers);
        double squares = Arrays.stream(powers).map(p -> (p - mean) * (p - mean)).sum();
        double error = Math.sqrt(squares / (powers.length - 1) / powers.length);
        assertTrue(Math.abs(mean) < 3 * error, mean + " +- " + error);
        // Bursts of the same mean square would read 0.5.
        assertTrue(Math.abs(mean) < 0.05, "mean " + mean);
    }

    @Test
    void measuresBearingLinesOnly() {
        KnockMeter meter = meter(envelope(9.69, 0.3, 0));
        assertTrue(meter.measures(LineKind.BEARING_INNER_RING));
        assertTrue(meter.measures(LineKind.CAGE));
        assertFalse(meter.measures(LineKind.TURN));
        assertFalse(meter.measures("vanes"));
        assertFalse(
                new KnockMeter(
                                List.of(),
                                List.of(),
                                STEPS_PER_TURN,
                                SegmentPlan.of(all(4096), STEPS_PER_TURN),
                                0)
                        .measures(LineKind.BEARING_INNER_RING));
    }
}

package tickover.order;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** Levels and phases of orders, alone and beside others, clean and in noise. */
class OrderLinesTest {
    private static final int PER_TURN = 256;

    /** A tenth of a percent of a unit line. */
    private static final double PERMILLE = 1e-3;

    @ParameterizedTest
    @ValueSource(doubles = {0.5, 1, 2.5667, 9.717, 10, 10.01, 50, 100.123})
    void aPureToneReadsItsRmsAndPhase(double order) {
        double[] x = new double[PER_TURN * 150 + 77];
        add(x, order, Math.sqrt(2), 40);
        OrderLine line = OrderLines.of(new AngularRecord(PER_TURN, 0, x), order).get(0);
        assertEquals(1, line.rms(), PERMILLE);
        assertEquals(40, line.phaseDeg(), 0.05);
        assertTrue(line.standardError() < PERMILLE);
    }

    @Test
    void phaseRefersToAngleZeroWhereverTheRecordStarts() {
        double[] x = new double[PER_TURN * 100];
        int first = 12_345;
        for (int i = 0; i < x.length; i++) {
            x[i] = Math.cos(2 * Math.PI * 3.5 * (first + i) / PER_TURN + Math.toRadians(-70));
        }
        OrderLine line = OrderLines.of(new AngularRecord(PER_TURN, first, x), 3.5).get(0);
        assertEquals(-70, line.phaseDeg(), 0.01);
    }

    @Test
    void aWeakLineBesideAStrongEngineLineReadsRight() {
        double[] x = new double[PER_TURN * 200];
        add(x, 2, 10 * Math.sqrt(2), 10);
        add(x, 1.9643, Math.sqrt(2), 20);
        OrderLine line = OrderLines.of(new AngularRecord(PER_TURN, 0, x), 1.9643).get(0);
        assertEquals(1, line.rms(), PERMILLE);
    }

    @Test
    void closeOrdersThatAreAskedForTogetherAreToldApart() {
        double[] x = new double[PER_TURN * 300];
        add(x, 10.00, Math.sqrt(2), 0);
        add(x, 10.03, 5 * Math.sqrt(2), 90);
        AngularRecord record = new AngularRecord(PER_TURN, 0, x);
        List<OrderLine> lines = OrderLines.of(record, 10.00, 10.03, 50);
        assertEquals(1, lines.get(0).rms(), PERMILLE);
        assertEquals(5, lines.get(1).rms(), 5 * PERMILLE);
        assertEquals(0, lines.get(2).rms(), PERMILLE);
    }

    @Test
    void ordersTooCloseToTellApartBothReadWhatStandsThere() {
        double[] x = new double[PER_TURN * 60];
        add(x, 6, Math.sqrt(2), 0);
        AngularRecord record = new AngularRecord(PER_TURN, 0, x);
        List<OrderLine> lines = OrderLines.of(record, 5.997, 6);
        assertEquals(1, lines.get(1).rms(), PERMILLE);
        double nearness = 0.01; // 0.003 orders off, over 32 turns: a tenth of a bin
        assertEquals(1, lines.get(0).rms(), nearness);
    }

    @Test
    void noiseIsTakenOffAndTheErrorIsHonest() {
        Random random = new Random(5);
        int runs = 60;
        double[] rms = new double[runs];
        double stated = 0;
        for (int r = 0; r < runs; r++) {
            double[] x = new double[PER_TURN * 160];
            add(x, 7.3, 0.1 * Math.sqrt(2), 360 * random.nextDouble());
            for (int i = 0; i < x.length; i++) {
                x[i] += 3 * random.nextGaussian();
            }
            OrderLine line = OrderLines.of(new AngularRecord(PER_TURN, 0, x), 7.3).get(0);
            rms[r] = line.rms();
            stated += line.standardError() / runs;
        }
        double mean = tickover.dsp.Statistics.mean(rms);
        double spread = Math.sqrt(tickover.dsp.Statistics.variance(rms));
        assertEquals(0.1, mean, 4 * spread / Math.sqrt(runs));
        assertTrue(stated > 0.6 * spread && stated < 1.8 * spread, stated + " against " + spread);
    }

    @Test
    void aChangingLineReadsItsRmsOverTheRecord() {
        double[] x = new double[PER_TURN * 400];
        double sum = 0;
        for (int i = 0; i < x.length; i++) {
            double amplitude = 1 + (double) i / x.length;
            x[i] = amplitude * Math.cos(2 * Math.PI * 12.5 * i / PER_TURN);
            sum += amplitude * amplitude / 2 / x.length;
        }
        OrderLine line = OrderLines.of(new AngularRecord(PER_TURN, 0, x), 12.5).get(0);
        double taper = 0.01; // the ends of the record weigh less
        assertEquals(Math.sqrt(sum), line.rms(), taper);
    }

    @Test
    void aSliceFollowsLevelAndPhase() {
        double[] x = new double[PER_TURN * 100];
        for (int i = 0; i < x.length; i++) {
            double turns = (double) i / PER_TURN;
            x[i] = (1 + turns / 100) * Math.cos(2 * Math.PI * 8 * turns + 0.5 + turns / 100);
        }
        ShaftAngle angle = ShaftAngle.steady(20, 5);
        OrderSlice slice = OrderLines.slice(new AngularRecord(PER_TURN, 0, x), angle, 8, 8);
        assertTrue(slice.timesS().length > 40);
        for (int i = 0; i < slice.timesS().length; i++) {
            double turns = 20 * slice.timesS()[i];
            assertEquals((1 + turns / 100) / Math.sqrt(2), slice.rms()[i], PERMILLE);
            assertEquals(Math.toDegrees(0.5 + turns / 100), slice.phaseDeg()[i], 0.1);
            assertEquals(1200, slice.rpm()[i], 1e-9);
        }
    }

    @ParameterizedTest
    @ValueSource(doubles = {0, -1, 0.01, 128, Double.NaN})
    void ordersThatTheRecordCannotShowAreRefused(double order) {
        AngularRecord record = new AngularRecord(PER_TURN, 0, new double[PER_TURN * 50]);
        assertThrows(IllegalArgumentException.class, () -> OrderLines.of(record, order));
    }

    private static void add(double[] x, double order, double amplitude, double phaseDeg) {
        for (int i = 0; i < x.length; i++) {
            x[i] +=
                    amplitude
                            * Math.cos(
                                    2 * Math.PI * order * i / PER_TURN + Math.toRadians(phaseDeg));
        }
    }
}

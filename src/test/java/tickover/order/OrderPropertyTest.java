package tickover.order;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Arrays;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import tickover.dsp.AllocationMeter;
import tickover.dsp.Statistics;
import tickover.dsp.Window;

/** Laws of angle, resampling and order spectra, under the seeds that each test names. */
class OrderPropertyTest {
    private static final double RATE_HZ = 12_800;

    /** Round-off of sums of some hundred products near one. */
    private static final double ROUND_OFF = 1e-12;

    private static final RunUp RUN = RunUp.exponential(800, 2800, 4);
    private static final ShaftAngle ANGLE = OrderReferenceTest.exact(RUN);

    @ParameterizedTest
    @ValueSource(longs = {1, 2, 3, 4})
    void resamplerGivesTheSameBitsForAnyBlocks(long seed) {
        Random random = new Random(seed);
        double[] x = noise((int) (4 * RATE_HZ), seed);
        AngularRecord whole = AngularResampler.resample(x, RATE_HZ, ANGLE, 100);
        AngularResampler parts =
                new AngularResampler(AngularResampler.Spec.of(100), RATE_HZ, ANGLE);
        double[] out = new double[whole.values().length + 1000];
        int count = 0;
        for (int from = 0; from < x.length; ) {
            int block = Math.min(x.length - from, random.nextInt(10_000));
            assertTrue(parts.maxOutput(block) + count <= out.length + 1000);
            count += parts.process(x, from, block, out, count);
            from += block;
        }
        assertArrayEquals(whole.values(), Arrays.copyOf(out, count), 0);
        assertEquals(whole.startTurns(), (parts.nextStep() - count) / 100.0, 0);
    }

    /** In one pass and one by one are the same sums, in the same sequence. */
    @ParameterizedTest
    @ValueSource(longs = {17, 18})
    void anglesAtSamplesAreTheAnglesAtTheirTimes(long seed) {
        Random random = new Random(seed);
        double[] turns = new double[3000];
        for (int i = 0; i < 20; i++) {
            int count = random.nextInt(turns.length);
            int first = random.nextInt((int) (4 * RATE_HZ) - count);
            ANGLE.turnsAtSamples(first, RATE_HZ, count, turns);
            for (int k = 0; k < count; k++) {
                double roundOff = 1e-13 * (1 + Math.abs(turns[k]));
                assertEquals(ANGLE.turnsAt((first + k) / RATE_HZ), turns[k], roundOff);
            }
        }
        int past = (int) (ANGLE.endS() * RATE_HZ) + 2;
        assertThrows(
                IllegalArgumentException.class,
                () -> ANGLE.turnsAtSamples(past - 10, RATE_HZ, 11, turns));
    }

    @Test
    void resamplingIsLinear() {
        double[] x = noise((int) (4 * RATE_HZ), 5);
        double[] y = noise((int) (4 * RATE_HZ), 6);
        double[] sum = new double[x.length];
        for (int i = 0; i < x.length; i++) {
            sum[i] = 2 * x[i] - 3 * y[i];
        }
        double[] rx = AngularResampler.resample(x, RATE_HZ, ANGLE, 64).values();
        double[] ry = AngularResampler.resample(y, RATE_HZ, ANGLE, 64).values();
        double[] rs = AngularResampler.resample(sum, RATE_HZ, ANGLE, 64).values();
        for (int i = 0; i < rs.length; i++) {
            assertEquals(2 * rx[i] - 3 * ry[i], rs[i], ROUND_OFF);
        }
    }

    @Test
    void aConstantStaysConstant() {
        double[] x = new double[(int) (4 * RATE_HZ)];
        Arrays.fill(x, 9.81);
        double stopBand = 9.81 * 1e-5; // images of the constant lie in the 100 dB stop band
        for (double v : AngularResampler.resample(x, RATE_HZ, ANGLE, 128).values()) {
            assertEquals(9.81, v, stopBand);
        }
    }

    @Test
    void timeOfAngleOfTimeIsTheTime() {
        double roundOffS = 1e-12;
        for (int i = 0; i <= 2000; i++) {
            double t = 4.0 * i / 2000;
            assertEquals(t, ANGLE.timeAt(ANGLE.turnsAt(t)), roundOffS);
        }
    }

    @Test
    void timesInOnePassAreThoseOneByOneAndNeverGoBack() {
        int count = 3000;
        double[] times = new double[count];
        double[] speeds = new double[count];
        double step = (ANGLE.endTurns() - ANGLE.startTurns()) / count;
        ANGLE.timesAt(ANGLE.startTurns(), step, count, times, speeds);
        for (int i = 0; i < count; i++) {
            double turns = ANGLE.startTurns() + i * step;
            assertEquals(ANGLE.timeAt(turns), times[i], ROUND_OFF);
            assertEquals(ANGLE.speedHzAt(times[i]), speeds[i], 1e-9 * speeds[i]);
            assertTrue(i == 0 || times[i] > times[i - 1]);
        }
    }

    @Test
    void hotMethodsAllocateNothing() {
        double[] x = noise((int) (3.9 * RATE_HZ), 7);
        AngularResampler resampler =
                new AngularResampler(AngularResampler.Spec.of(64), RATE_HZ, ANGLE);
        double[] out = new double[resampler.maxOutput(x.length)];
        assertEquals(
                0,
                AllocationMeter.bytesOf(
                        () -> {
                            resampler.reset();
                            resampler.process(x, 0, 2000, out, 0);
                        }));
        double[] times = new double[100];
        double[] speeds = new double[100];
        assertEquals(0, AllocationMeter.bytesOf(() -> ANGLE.timesAt(1, 0.05, 100, times, speeds)));
    }

    @ParameterizedTest
    @ValueSource(strings = {"RECTANGULAR", "HANN", "HAMMING", "BLACKMAN_HARRIS", "FLAT_TOP"})
    void everyWindowReadsALineAtItsRms(String window) {
        double[] x = new double[256 * 64];
        for (int i = 0; i < x.length; i++) {
            x[i] = Math.sqrt(2) * Math.cos(2 * Math.PI * 10 * i / 256.0 + 1);
        }
        OrderSpectrum spectrum =
                OrderSpectrum.of(
                        new AngularRecord(256, 0, x),
                        new OrderSpectrum.Spec(16, 0.5, Window.valueOf(window)));
        double[] rms = spectrum.values(OrderSpectrum.Scaling.LINE_RMS);
        assertEquals(1, rms[160], ROUND_OFF * x.length);
        assertEquals(10, spectrum.orderOf(160), 0);
        double peak = spectrum.values(OrderSpectrum.Scaling.LINE_PEAK)[160];
        assertEquals(Math.sqrt(2), peak, ROUND_OFF * x.length, "cosine's own amplitude");
        double power = spectrum.values(OrderSpectrum.Scaling.LINE_POWER)[160];
        assertEquals(1, power, ROUND_OFF * x.length, "mean square");
        assertEquals(1, spectrum.bandRms(9, 11), 1e-3);
    }

    @Test
    void powerOverOrdersIsTheMeanSquare() {
        double[] x = noise(64 * 128, 8);
        OrderSpectrum spectrum =
                OrderSpectrum.of(
                        new AngularRecord(64, 0, x),
                        new OrderSpectrum.Spec(128, 0, Window.RECTANGULAR));
        double sum = 0;
        for (double p : spectrum.values(OrderSpectrum.Scaling.POWER_PER_ORDER)) {
            sum += p / 128;
        }
        assertEquals(Statistics.meanSquare(x), sum, ROUND_OFF * x.length);
    }

    @Test
    void waterfallRowsLieWhereTheirAxisSays() {
        double[] x = RUN.tone(RATE_HZ, 6, 0);
        AngularRecord record = AngularResampler.resample(x, RATE_HZ, ANGLE, 64);
        for (Waterfall.Axis axis : Waterfall.Axis.values()) {
            double step =
                    switch (axis) {
                        case TURNS -> 4;
                        case TIME -> 0.25;
                        case SPEED -> 200;
                    };
            Waterfall waterfall =
                    Waterfall.of(record, ANGLE, new Waterfall.Spec(8, axis, step, Window.HANN));
            assertTrue(waterfall.rows().size() >= 8, axis + ": " + waterfall.rows().size());
            double lastS = -1;
            for (Waterfall.Row row : waterfall.rows()) {
                assertTrue(row.timeS() > lastS, axis + " goes back");
                lastS = row.timeS();
                // Frames are eight turns long, over which the speed changes by some percent.
                double curved = 0.02;
                assertEquals(60 * RUN.speedHzAt(row.timeS()), row.rpm(), curved * row.rpm());
                assertEquals(Math.sqrt(0.5), row.rms()[48], 1e-4);
            }
        }
    }

    /** A constant reads its size, whatever the scaling; a waterfall scales as a spectrum does. */
    @Test
    void rowsAndSpectraScaleAlike() {
        double[] x = noise(64 * 8, 9);
        Arrays.setAll(x, i -> x[i] + 5);
        AngularRecord record = new AngularRecord(64, 0, x);
        ShaftAngle steady = ShaftAngle.steady(20, 1);
        Waterfall waterfall =
                Waterfall.of(
                        record,
                        steady,
                        new Waterfall.Spec(8, Waterfall.Axis.TURNS, 1, Window.HAMMING));
        OrderSpectrum spectrum =
                OrderSpectrum.of(record, new OrderSpectrum.Spec(8, 0, Window.HAMMING));
        for (OrderSpectrum.Scaling scaling : OrderSpectrum.Scaling.values()) {
            assertArrayEquals(
                    spectrum.values(scaling),
                    waterfall.values(waterfall.rows().get(0), scaling),
                    ROUND_OFF,
                    scaling.name());
        }
        double noiseInBin = 5.0 / 8; // of noise of rms 1 over 256 bins: some sigma
        assertEquals(5, spectrum.values(OrderSpectrum.Scaling.LINE_RMS)[0], noiseInBin);
        assertEquals(5, spectrum.values(OrderSpectrum.Scaling.LINE_PEAK)[0], noiseInBin);
    }

    @Test
    void timeRowsAreEvenlySpaced() {
        double[] x = RUN.tone(RATE_HZ, 6, 0);
        AngularRecord record = AngularResampler.resample(x, RATE_HZ, ANGLE, 64);
        Waterfall waterfall =
                Waterfall.of(
                        record,
                        ANGLE,
                        new Waterfall.Spec(8, Waterfall.Axis.TIME, 0.25, Window.HANN));
        double stepOfRecord = 1.0 / 64 / (800 / 60.0); // one sample of angle at the lowest speed
        for (int i = 1; i < waterfall.rows().size(); i++) {
            double apart = waterfall.rows().get(i).timeS() - waterfall.rows().get(i - 1).timeS();
            assertEquals(0.25, apart, stepOfRecord);
        }
    }

    @Test
    void timesOutsideTheCurveAreRefused() {
        assertThrows(IllegalArgumentException.class, () -> ANGLE.turnsAt(-0.001));
        assertThrows(IllegalArgumentException.class, () -> ANGLE.turnsAt(4.001));
        assertThrows(IllegalArgumentException.class, () -> ANGLE.timeAt(Double.NaN));
    }

    private static double[] noise(int n, long seed) {
        Random random = new Random(seed);
        double[] x = new double[n];
        for (int i = 0; i < n; i++) {
            x[i] = random.nextGaussian();
        }
        return x;
    }
}

package tickover.order;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Arrays;
import java.util.List;
import java.util.Random;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** Laws of the filter, under the seeds that each test names. */
class VoldKalmanPropertyTest {
    private static final double RATE_HZ = 3200;
    private static final double LENGTH_S = 6;

    private static final VoldKalman.Spec SPEC =
            VoldKalman.Spec.of(
                    TrackedLine.orderWithinHz(2, 5),
                    TrackedLine.orderWithinOrders(2.5, 0.2),
                    TrackedLine.toneWithinHz(55, 3));

    /** Round-off, times a condition of 1e5. */
    private static final double ROUND_OFF = 1e-10;

    /** What lies between splines on other knots, of noise as strong as the lines together. */
    private static final double SPLINE = 3e-3;

    @ParameterizedTest
    @ValueSource(longs = {1, 2})
    void isLinear(long seed) {
        SweptRecord a = record(seed);
        SweptRecord b = record(seed + 100);
        double[] sum = new double[a.x.length];
        for (int i = 0; i < sum.length; i++) {
            sum[i] = 2 * a.x[i] - 3 * b.x[i];
        }
        LineTracks ofA = VoldKalman.track(a.x, RATE_HZ, a.angle, SPEC);
        LineTracks ofB = VoldKalman.track(b.x, RATE_HZ, a.angle, SPEC);
        LineTracks ofSum = VoldKalman.track(sum, RATE_HZ, a.angle, SPEC);
        for (int k = 0; k < 3; k++) {
            double[] wanted = ofA.signal(k);
            double[] other = ofB.signal(k);
            for (int i = 0; i < wanted.length; i++) {
                wanted[i] = 2 * wanted[i] - 3 * other[i];
            }
            assertEquals(0, SweptRecord.rms(SweptRecord.minus(wanted, ofSum.signal(k))), ROUND_OFF);
        }
    }

    /** Starting the record later, off the knots, changes nothing well inside. */
    @ParameterizedTest
    @ValueSource(longs = {3, 4})
    void doesNotDependOnWhereTheRecordStarts(long seed) {
        SweptRecord record = record(seed);
        LineTracks whole = VoldKalman.track(record.x, RATE_HZ, record.angle, SPEC);
        int late = 37 + new Random(seed).nextInt(40);
        LineTracks later =
                VoldKalman.track(
                        record.x,
                        RATE_HZ,
                        record.angle,
                        SPEC,
                        List.of(new TimeRange(0, (late - 0.5) / RATE_HZ)));
        double fromS = late / RATE_HZ;
        double toS = LENGTH_S;
        double[] shifted = Arrays.copyOfRange(record.x, late, record.x.length);
        LineTracks cut =
                VoldKalman.track(
                        shifted, RATE_HZ, speeds(toS - fromS, speedAt(fromS), speedAt(toS)), SPEC);
        for (int k = 0; k < 3; k++) {
            double[] a = inside(later.signal(k), late);
            double[] b = inside(cut.signal(k), 0);
            b = Arrays.copyOf(b, a.length);
            assertEquals(0, SweptRecord.rms(SweptRecord.minus(a, b)), SPLINE, "cut, line " + k);
            double[] c = inside(whole.signal(k), late);
            assertEquals(0, SweptRecord.rms(SweptRecord.minus(c, b)), SPLINE, "whole, line " + k);
        }
    }

    /** Played backwards, with the shaft turning on, every line comes out backwards. */
    @ParameterizedTest
    @ValueSource(longs = {5, 6})
    void runsTheSameBackwards(long seed) {
        SweptRecord record = record(seed);
        int n = record.x.length;
        double[] back = new double[n];
        for (int i = 0; i < n; i++) {
            back[i] = record.x[n - 1 - i];
        }
        double lastS = (n - 1) / RATE_HZ;
        ShaftAngle angle = speeds(lastS, speedAt(lastS), speedAt(0));
        LineTracks forth = VoldKalman.track(record.x, RATE_HZ, record.angle, SPEC);
        LineTracks behind = VoldKalman.track(back, RATE_HZ, angle, SPEC);
        for (int k = 0; k < 3; k++) {
            double[] a = forth.signal(k);
            double[] b = behind.signal(k);
            double sum = 0;
            for (int i = 0; i < n; i++) {
                sum += (a[i] - b[n - 1 - i]) * (a[i] - b[n - 1 - i]) / n;
            }
            assertEquals(0, Math.sqrt(sum), SPLINE, "line " + k);
        }
    }

    /** The residual and the signals add up to the record. */
    @ParameterizedTest
    @ValueSource(longs = {7})
    void partsAddUpToTheWhole(long seed) {
        SweptRecord record = record(seed);
        LineTracks tracks = VoldKalman.track(record.x, RATE_HZ, record.angle, SPEC);
        double[] left = record.x;
        for (int k = 0; k < 3; k++) {
            left = SweptRecord.minus(left, tracks.signal(k));
        }
        assertEquals(0, SweptRecord.rms(SweptRecord.minus(left, tracks.residual())), 1e-13);
        assertTrue(SweptRecord.rms(left) < SweptRecord.rms(record.x));
    }

    private static SweptRecord record(long seed) {
        Random random = new Random(seed);
        SweptRecord record = new SweptRecord(RATE_HZ, 60 * speedAt(0), 60 * speedAt(LENGTH_S), 6);
        return record.add(2, 0, 6 * random.nextDouble(), random.nextDouble())
                .add(2.5, 0, 6 * random.nextDouble(), random.nextDouble())
                .add(0, 55, 6 * random.nextDouble(), random.nextDouble())
                .addNoise(1, seed);
    }

    private static double speedAt(double timeS) {
        return 20 + 2 * timeS;
    }

    private static ShaftAngle speeds(double durationS, double fromHz, double toHz) {
        return new ShaftAngle(
                AnglePieces.ofSpeeds(new double[] {0, durationS}, new double[] {fromHz, toHz}),
                new double[2],
                true);
    }

    /** Leaves out a second, three times the memory of the narrowest filter, at either end. */
    private static double[] inside(double[] values, int from) {
        int second = (int) RATE_HZ;
        return Arrays.copyOfRange(values, from + second, values.length - second);
    }
}

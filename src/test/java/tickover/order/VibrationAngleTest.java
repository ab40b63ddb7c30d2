package tickover.order;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.Random;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;
import tickover.align.CaptureSignal;
import tickover.align.NoSpeed;
import tickover.align.SpeedReadings;

/** Angle from late readings and from vibration alone, on engines of exactly known motion. */
class VibrationAngleTest {
    private static final double RATE_HZ = 6400;

    /** The aims for readings: speed to 0.1 % rms, orders up to 20 to 5 %, lag to 20 ms. */
    private static final double SPEED_RATIO = 1e-3;

    private static final double LEVEL_RATIO = 0.05;
    private static final double LAG_MS = 20;

    /** Without any readings high orders may lose twice as much. */
    private static final double ALONE_LEVEL_RATIO = 0.1;

    @ParameterizedTest
    @CsvSource({"4, 0.08, 8", "4, 0.25, 4", "3, 0.15, 12", "6, 0.2, 5"})
    void readingsAtIdleAreSharpened(int cylinders, double lagS, double readingsHz) {
        RunUp run = EngineSignal.idle(800, 10);
        double[] x = EngineSignal.of(run, cylinders, RATE_HZ, 3);
        AngleFinding finding =
                find(x, readings(run, lagS, 0.1, readingsHz), AnglePrior.of(cylinders, 4));
        ShaftAngle angle = finding.angle().orElseThrow();
        assertTrue(speedError(angle, run) < SPEED_RATIO, "speed off by " + speedError(angle, run));
        assertLevels(x, angle, run, LEVEL_RATIO);
        assertTrue(angle.sigmaTurnsAt(5) > 0);
    }

    @ParameterizedTest
    @CsvSource({"0.08, 0.05", "0.2, 0.1", "0.3, 0.3"})
    void lagOfReadingsShowsOnASweep(double lagS, double averagingS) {
        RunUp run = RunUp.linear(800, 2600, 12);
        double[] x = EngineSignal.of(run, 4, RATE_HZ, 4);
        AngleFinding finding = find(x, readings(run, lagS, averagingS, 7), AnglePrior.of(4, 4));
        String text =
                finding.notes().stream()
                        .filter(n -> n.kind() == AngleNote.Kind.LAG)
                        .findFirst()
                        .orElseThrow()
                        .text();
        Matcher number = Pattern.compile("were (\\d+) ± (\\d+) ms").matcher(text);
        assertTrue(number.find(), text);
        assertEquals(1000 * (lagS + averagingS / 2), Double.parseDouble(number.group(1)), LAG_MS);
        ShaftAngle angle = finding.angle().orElseThrow();
        assertTrue(speedError(angle, run) < SPEED_RATIO, "speed off by " + speedError(angle, run));
        assertLevels(x, angle, run, LEVEL_RATIO);
    }

    @ParameterizedTest
    @CsvSource({"3, 850", "4, 780", "5, 720", "6, 650", "8, 600"})
    void idleIsFoundWithoutReadings(int cylinders, double rpm) {
        RunUp run = EngineSignal.idle(rpm, 10);
        double[] x = EngineSignal.of(run, cylinders, RATE_HZ, 5);
        AnglePrior prior = AnglePrior.of(cylinders, 4).withIdleRpm(rpm * 1.06).atIdle();
        ShaftAngle angle = find(x, new NoSpeed(), prior).angle().orElseThrow();
        assertTrue(speedError(angle, run) < 2 * SPEED_RATIO, "off by " + speedError(angle, run));
        assertLevels(x, angle, run, ALONE_LEVEL_RATIO);
    }

    @ParameterizedTest
    @ValueSource(ints = {3, 4, 6})
    void speedIsFoundInItsOctaveWithNoPriorButTheCylinders(int cylinders) {
        for (double rpm : new double[] {800, 1500, 2600}) {
            RunUp run = EngineSignal.idle(rpm, 6);
            double[] x = EngineSignal.of(run, cylinders, RATE_HZ, 6);
            AngleFinding finding = find(x, new NoSpeed(), AnglePrior.of(cylinders, 4));
            ShaftAngle angle =
                    finding.angle()
                            .orElseThrow(() -> new AssertionError(rpm + " " + finding.problem()));
            assertEquals(rpm, 60 * angle.speedHzAt(3), 0.01 * rpm);
        }
    }

    @Test
    void aSweepIsFollowedWithoutReadings() {
        RunUp run = RunUp.linear(780, 2600, 12);
        double[] x = EngineSignal.of(run, 4, RATE_HZ, 7);
        AnglePrior prior = AnglePrior.of(4, 4).withIdleRpm(780);
        ShaftAngle angle = find(x, new NoSpeed(), prior).angle().orElseThrow();
        assertTrue(speedError(angle, run) < 3 * SPEED_RATIO, "off by " + speedError(angle, run));
    }

    @Test
    void noiseAloneIsRefused() {
        Random random = new Random(8);
        double[] x = new double[(int) (8 * RATE_HZ)];
        for (int i = 0; i < x.length; i++) {
            x[i] = random.nextGaussian();
        }
        AngleFinding finding = find(x, new NoSpeed(), AnglePrior.of(4, 4));
        assertTrue(finding.angle().isEmpty());
        assertTrue(finding.problem().orElseThrow().contains("vibration"));
    }

    @Test
    void readingsOverNoiseStillGiveAnAngle() {
        Random random = new Random(9);
        double[] x = new double[(int) (8 * RATE_HZ)];
        for (int i = 0; i < x.length; i++) {
            x[i] = random.nextGaussian();
        }
        RunUp run = EngineSignal.idle(800, 8);
        ShaftAngle angle =
                find(x, readings(run, 0.1, 0.1, 8), AnglePrior.of(4, 4)).angle().orElseThrow();
        double readingsAlone = 0.03;
        assertTrue(speedError(angle, run) < readingsAlone);
    }

    @Test
    void aShortRecordWithoutSpeedIsRefusedInOneSentence() {
        AngleFinding finding = find(new double[3200], new NoSpeed(), AnglePrior.of(4, 4));
        assertTrue(finding.problem().orElseThrow().contains("too short"));
    }

    @Test
    void aKnownCurveIsIntegratedExactly() {
        double[] t = {0, 2, 2, 5};
        double[] rpm = {600, 1200, 900, 900};
        SpeedReadings curve = new SpeedReadings(t, rpm, false);
        AngleFinding finding =
                AngleFinder.find(
                        new CaptureSignal(100, new double[1][600], curve), AnglePrior.of(4, 4));
        ShaftAngle angle = finding.angle().orElseThrow();
        double roundOff = 1e-7; // the step takes a nanosecond
        assertEquals(30, angle.turnsAt(2), roundOff);
        assertEquals(30 + 45, angle.turnsAt(5), roundOff);
        assertEquals(12.5, angle.speedHzAt(0.5), roundOff);
        assertEquals(6, angle.endS(), roundOff); // two steps of the curve are held
        assertTrue(angle.sigmaTurnsAt(6) > angle.sigmaTurnsAt(4));
    }

    private static AngleFinding find(
            double[] x, tickover.align.SpeedSource speed, AnglePrior prior) {
        return AngleFinder.find(new CaptureSignal(RATE_HZ, new double[][] {x}, speed), prior);
    }

    /** Readings as a control unit makes them: averaged, to a quarter rpm, late. */
    private static SpeedReadings readings(RunUp run, double lagS, double averagingS, double hz) {
        int n = (int) (run.durationS * hz) - 1;
        double[] times = new double[n];
        double[] rpm = new double[n];
        Random random = new Random(21);
        for (int i = 0; i < n; i++) {
            times[i] = (i + 0.5 + 0.2 * random.nextDouble()) / hz;
            double at = times[i] - lagS;
            double turned = run.turnsAt(at) - run.turnsAt(at - averagingS);
            rpm[i] = Math.rint(4 * 60 * turned / averagingS) / 4;
        }
        return new SpeedReadings(times, rpm, true);
    }

    /** Rms of the relative speed error over spans of 0.3 s, away from the ends. */
    private static double speedError(ShaftAngle angle, RunUp run) {
        double span = 0.3;
        double sum = 0;
        int n = 0;
        for (double t = angle.startS() + 0.5; t + span < angle.endS() - 0.5; t += 0.05) {
            double found = angle.turnsAt(t + span) - angle.turnsAt(t);
            double real = run.turnsAt(t + span) - run.turnsAt(t);
            sum += Math.pow(found / real - 1, 2);
            n++;
        }
        return Math.sqrt(sum / n);
    }

    private static void assertLevels(double[] x, ShaftAngle angle, RunUp run, double allowed) {
        double[] orders = {0.5, 1, 1.5, 2, 3, 4, 6, 8, 12, 16, 20};
        ShaftAngle exact = OrderReferenceTest.exact(run);
        List<OrderLine> found =
                OrderLines.of(AngularResampler.resample(x, RATE_HZ, angle, 128), orders);
        List<OrderLine> real =
                OrderLines.of(AngularResampler.resample(x, RATE_HZ, exact, 128), orders);
        for (int i = 0; i < orders.length; i++) {
            double noise = 3 * real.get(i).standardError() / real.get(i).rms();
            double ratio = found.get(i).rms() / real.get(i).rms();
            assertEquals(1, ratio, allowed + noise, "order " + orders[i]);
        }
    }
}

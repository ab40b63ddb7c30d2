package tickover.order;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Arrays;
import java.util.Random;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.EnumSource;
import org.junit.jupiter.params.provider.ValueSource;
import tickover.align.TachPulses;

/** The angle from jittered pulses against the best that can be had, and its stated uncertainty. */
class AngleBoundTest {
    /** Coverage of two standard deviations by chance alone is 0.954. */
    private static final double LEAST_COVERED = 0.88;

    private static final double MOST_COVERED = 0.999;

    private static final double DURATION_S = 12;

    private static final double IDLE_HZ = 12.5;

    /**
     * Shafts that move exactly as the model says, white noise integrated two to four times: knowing
     * neither noise nor smoothness costs at most a tenth of the error that the smoother has which
     * knows both. No estimate can do better than the latter: it is the mean of the posterior.
     */
    @ParameterizedTest
    @CsvSource({"2, 0.3", "2, 2", "3, 0.3", "3, 1", "4, 0.3", "4, 0.8"})
    void notKnowingTheMotionCostsLittle(int integrations, double cutoff) {
        double noise = 1e-3;
        int n = 400;
        double known = 0;
        double found = 0;
        for (long seed = 1; seed <= 8; seed++) {
            double[] truth = motion(integrations, cutoff, noise, n, seed);
            Random random = new Random(1000 + seed);
            double[] times = new double[n];
            double[] turns = new double[n];
            double[] weights = new double[n];
            for (int k = 0; k < n; k++) {
                times[k] = k;
                turns[k] = truth[k] + noise * random.nextGaussian();
                weights[k] = 1;
            }
            double[] cutoffs = new double[n - 1];
            Arrays.fill(cutoffs, cutoff);
            AngleSmoother smoother = new AngleSmoother(times, turns, weights, 1);
            known +=
                    squares(
                            smoother.smooth(new AngleSmoother.Motion(integrations, cutoffs, noise)),
                            truth);
            MotionFinder finder = new MotionFinder(times, turns, weights, 1, 0);
            found += squares(smoother.smooth(finder.likeliest()), truth);
        }
        double ratio = Math.sqrt(found / known);
        assertTrue(ratio < 1.1, "error over that of the best estimate: " + ratio);
    }

    /** A hundred records of each kind, jitter from 1 to 250 µs. */
    @ParameterizedTest
    @EnumSource(Shaft.class)
    void theTruthLiesWithinTheStatedUncertainty(Shaft shaft) {
        Coverage coverage = new Coverage();
        for (long seed = 1; seed <= 100; seed++) {
            Random random = new Random(seed);
            double jitterS = 1e-6 * Math.pow(250, random.nextDouble());
            double idleHz = IDLE_HZ * (0.9 + random.nextDouble());
            coverage.add(shaft.run(idleHz, DURATION_S, seed), jitterS, random);
        }
        coverage.check(shaft.toString());
    }

    @ParameterizedTest
    @ValueSource(strings = {"linear", "exponential"})
    void theTruthOfRunUpsLiesWithinTheStatedUncertainty(String kind) {
        Coverage coverage = new Coverage();
        for (long seed = 1; seed <= 100; seed++) {
            Random random = new Random(seed);
            double jitterS = 1e-6 * Math.pow(250, random.nextDouble());
            double toRpm = 1500 + 1500 * random.nextDouble();
            RunUp run =
                    kind.equals("linear")
                            ? RunUp.linear(900, toRpm, DURATION_S)
                            : RunUp.exponential(900, toRpm, DURATION_S);
            coverage.add(run, jitterS, random);
        }
        coverage.check(kind);
    }

    /**
     * Where the load comes, a curve as stiff as the rest would be off by hundredths of a turn. The
     * error there must not exceed that of the pulses themselves by more than a half, and between
     * the steps it must stay far below it.
     */
    @ParameterizedTest
    @ValueSource(doubles = {4e-6, 20e-6, 100e-6})
    void loadStepsAreFollowedAndTheRestIsStillSmoothed(double jitterS) {
        double near = 0;
        double far = 0;
        int nears = 0;
        int fars = 0;
        for (long seed = 1; seed <= 10; seed++) {
            RunUp run = Shaft.LOAD_STEPS.run(IDLE_HZ, DURATION_S, seed);
            ShaftAngle angle = angle(run, jitterS, seed);
            for (double t = 0.5; t < DURATION_S - 0.5; t += 0.01) {
                double e = error(angle, run, t);
                double fromStep = Double.POSITIVE_INFINITY;
                for (double stepS : Shaft.stepsS(DURATION_S)) {
                    fromStep = Math.min(fromStep, Math.abs(t - stepS - 0.15));
                }
                if (fromStep < 0.3) {
                    near += e * e;
                    nears++;
                } else if (fromStep > 1.5) {
                    far += e * e;
                    fars++;
                }
            }
        }
        double pulses = jitterS * IDLE_HZ;
        // With a kink, the straightest way between two exact pulses is off by so much.
        double kink = 1.5e-4;
        double nearRms = Math.sqrt(near / nears);
        double farRms = Math.sqrt(far / fars);
        assertTrue(nearRms < Math.hypot(1.5 * pulses, kink), nearRms + " turns at the steps");
        assertTrue(farRms < pulses / 2.5, farRms + " turns elsewhere, pulses " + pulses);
    }

    @Test
    void theGridOfTimesIsFound() {
        double[] exact = RunUp.exponential(780, 2400, 12).pulses(3e-6, 1);
        for (double step : new double[] {1e-3, 1e-6, 1 / 25_600.0, 1 / 16e6}) {
            double[] t = Arrays.stream(exact).map(v -> Math.rint(v / step) * step + 0.3).toArray();
            double roundOff = 1e-9;
            assertEquals(1, TimeGrid.stepS(t) / step, roundOff, "step " + step + " s");
        }
        assertEquals(0, TimeGrid.stepS(exact));
        assertEquals(0, TimeGrid.stepS(new double[] {1}));
        double[] steady = IntStream.range(0, 100).mapToDouble(k -> 0.07 * k).toArray();
        assertEquals(0, TimeGrid.stepS(steady), "steady pulses are no clock");
    }

    @Test
    void aCoarseClockIsKnownEvenWhereTheShaftTurnsInStepWithIt() {
        double[] pulses = new double[120];
        for (int k = 0; k < pulses.length; k++) {
            pulses[k] = 0.08 * k;
        }
        pulses[60] += 1e-3;
        pulses[61] += 1e-3;
        ShaftAngle angle = TachAngle.find(new TachPulses(pulses, 1, 1), 9).angle().orElseThrow();
        double clockTurns = 1e-3 / Math.sqrt(12) / 0.08;
        assertTrue(angle.sigmaTurnsAt(4) > clockTurns / 10, "" + angle.sigmaTurnsAt(4));
    }

    private static final class Coverage {
        private int inside;
        private int all;

        void add(RunUp run, double jitterS, Random random) {
            ShaftAngle angle = angle(run, jitterS, random.nextLong());
            for (int i = 0; i < 100; i++) {
                double t = 0.2 + (DURATION_S - 0.4) * random.nextDouble();
                double e = Math.abs(error(angle, run, t));
                inside += e <= 2 * angle.sigmaTurnsAt(t) ? 1 : 0;
                all++;
            }
        }

        void check(String what) {
            double share = (double) inside / all;
            assertTrue(share > LEAST_COVERED && share < MOST_COVERED, what + ": " + share);
        }
    }

    private static ShaftAngle angle(RunUp run, double jitterS, long seed) {
        double[] pulses = run.pulses(jitterS, seed);
        Arrays.sort(pulses);
        return TachAngle.find(new TachPulses(pulses, 1, 1), run.durationS).angle().orElseThrow();
    }

    /** Jitter may put the first pulse before time zero; angle zero is then a turn later. */
    private static double error(ShaftAngle angle, RunUp run, double timeS) {
        double e = angle.turnsAt(timeS) - run.turnsAt(timeS);
        return e - Math.rint(e);
    }

    private static double squares(AngleSmoother.Curve curve, double[] truth) {
        double sum = 0;
        for (int k = 0; k < truth.length; k++) {
            sum += Math.pow(curve.states()[3 * k] - truth[k], 2);
        }
        return sum;
    }

    /** Angle at whole times of a shaft under white noise, integrated in small steps. */
    private static double[] motion(
            int integrations, double cutoff, double noise, int n, long seed) {
        Random random = new Random(seed);
        int fine = 50;
        double h = 1.0 / fine;
        double density = Math.pow(cutoff, integrations) * noise;
        double[] x = new double[integrations];
        x[1] = 1;
        double[] turns = new double[n];
        for (int i = 0; i < n * fine; i++) {
            if (i % fine == 0) {
                turns[i / fine] = x[0];
            }
            double force = density * random.nextGaussian() / Math.sqrt(h);
            // Constant force over the step: exact for it, not for white noise, to h².
            for (int a = 0; a < integrations; a++) {
                double power = 1;
                for (int b = a + 1; b <= integrations; b++) {
                    power *= h / (b - a);
                    x[a] += power * (b < integrations ? x[b] : force);
                }
            }
        }
        return turns;
    }
}

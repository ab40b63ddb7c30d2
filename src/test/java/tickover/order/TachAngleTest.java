package tickover.order;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Arrays;
import java.util.Random;
import java.util.stream.DoubleStream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import tickover.align.CaptureSignal;
import tickover.align.TachPulses;

/** Angle from pulses that are missed, doubled, jittered, uneven, late, or on another pulley. */
class TachAngleTest {
    /** A twentieth of a degree: what interpolating smooth run-ups and bridged gaps may cost. */
    private static final double SMALL_TURNS = 1.5e-4;

    /** Round-off of times of some ten seconds, interpolated. */
    private static final double ROUND_OFF_TURNS = 1e-8;

    private static final RunUp RUN = RunUp.exponential(780, 2400, 12);

    @Test
    void exactPulsesGiveTheExactAngle() {
        ShaftAngle angle = found(RUN.pulses(0, 1), 1, 1, 12);
        // Past the last pulse the curve runs on at constant acceleration, which this shaft does
        // not.
        assertEquals(0, worst(angle, RUN, 0), SMALL_TURNS);
        for (double t = 1; t < 11; t += 0.01) {
            assertEquals(RUN.turnsAt(t), angle.turnsAt(t), ROUND_OFF_TURNS);
        }
        assertTrue(angle.phaseKnown());
    }

    @ParameterizedTest
    @ValueSource(longs = {1, 2, 3, 4})
    void missedAndDoublePulsesAreCountedAndDoNotMatter(long seed) {
        Random random = new Random(seed);
        double[] clean = RUN.pulses(0, 1);
        int missed = 0;
        int doubled = 0;
        DoubleStream.Builder pulses = DoubleStream.builder();
        for (int k = 0; k < clean.length; k++) {
            boolean inside = k > 3 && k < clean.length - 4;
            double draw = random.nextDouble();
            if (inside && draw < 0.05) {
                missed++;
                continue;
            }
            pulses.add(clean[k]);
            if (inside && draw > 0.95) {
                doubled++;
                // A bounce, or a stray pulse anywhere before the next mark.
                double later = random.nextBoolean() ? 0.0008 : 0.35 * (clean[k + 1] - clean[k]);
                pulses.add(clean[k] + later);
            }
        }
        AngleFinding finding = find(pulses.build().toArray(), 1, 1, 12);
        ShaftAngle angle = finding.angle().orElseThrow();
        assertEquals(0, worst(angle, RUN, 0), SMALL_TURNS);
        assertEquals(
                missed,
                count(finding, AngleNote.Kind.MISSED_PULSES),
                () -> finding.notes().toString());
        assertEquals(doubled, count(finding, AngleNote.Kind.EXTRA_PULSES));
    }

    @ParameterizedTest
    @ValueSource(doubles = {5e-6, 50e-6, 300e-6})
    void jitterIsEstimatedAndTheStatedUncertaintyHolds(double jitterS) {
        double[] pulses = RUN.pulses(jitterS, 7);
        AngleFinding finding = find(pulses, 1, 1, 12);
        ShaftAngle angle = finding.angle().orElseThrow();
        assertEquals(1, finding.notes().size());
        assertEquals(AngleNote.Kind.JITTER, finding.notes().get(0).kind());
        double error = 0;
        double stated = 0;
        double raw = 0;
        int n = 0;
        for (double t = 0.3; t < 11.7; t += 0.01) {
            error += Math.pow(angle.turnsAt(t) - RUN.turnsAt(t), 2);
            stated += Math.pow(angle.sigmaTurnsAt(t), 2);
            raw += Math.pow(jitterS * RUN.speedHzAt(t), 2);
            n++;
        }
        assertTrue(error < raw / 4, "smoothing must at least halve the jitter of a smooth run-up");
        // The error of a smooth curve has some ten independent values here: a factor of two.
        double ratio = Math.sqrt(error / stated);
        assertTrue(ratio > 0.4 && ratio < 2, "error over stated error: " + ratio);
        assertTrue(n > 100);
    }

    @ParameterizedTest
    @ValueSource(booleans = {false, true})
    void unevenMarksAreLearned(boolean jitter) {
        double[] places = {0, 0.23, 0.5, 0.81};
        double[] pulses = markPulses(RUN, places, jitter ? 10e-6 : 0);
        AngleFinding finding = find(pulses, 4, 1, 12);
        ShaftAngle angle = finding.angle().orElseThrow();
        assertEquals(1, countNotes(finding, AngleNote.Kind.UNEVEN_MARKS));
        // The longest gap, 0.31 turns, ends at mark 0.81, so that is angle zero.
        double offset = RUN.turnsAt(6) - angle.turnsAt(6);
        assertEquals(0.81, offset - Math.floor(offset), SMALL_TURNS);
        assertEquals(0, worst(angle, RUN, offset), 2 * SMALL_TURNS);
        assertTrue(angle.phaseKnown());
    }

    @Test
    void evenMarksStayEvenOnASteepRunUp() {
        RunUp steep = RunUp.linear(800, 4000, 4);
        double[] places = {0, 0.2, 0.4, 0.6, 0.8};
        AngleFinding finding = find(markPulses(steep, places, 0), 5, 1, 4);
        assertEquals(0, countNotes(finding, AngleNote.Kind.UNEVEN_MARKS));
        ShaftAngle angle = finding.angle().orElseThrow();
        assertEquals(0, worst(angle, steep, 0), ROUND_OFF_TURNS);
        assertFalse(angle.phaseKnown());
    }

    @Test
    void missingTeethOfAWheelAreBridged() {
        double[] places = new double[58];
        for (int j = 0; j < 58; j++) {
            places[j] = j / 60.0;
        }
        AngleFinding finding = find(markPulses(RUN, places, 0), 58, 1, 12);
        ShaftAngle angle = finding.angle().orElseThrow();
        double offset = RUN.turnsAt(6) - angle.turnsAt(6);
        assertEquals(0, worst(angle, RUN, offset), SMALL_TURNS);
        assertEquals(0, offset - Math.rint(offset), SMALL_TURNS);
    }

    @Test
    void aMarkOnAnotherPulleyGivesCrankTurns() {
        double ratio = 2.5667;
        RunUp pulley = RunUp.of(12, t -> ratio * RUN.turnsAt(t));
        ShaftAngle angle = found(pulley.pulses(0, 1), 1, ratio, 12);
        assertEquals(0, worst(angle, RUN, 0), SMALL_TURNS);
        assertFalse(angle.phaseKnown());
    }

    @Test
    void pulsesBeforeTimeZeroAreUsedAndAngleZeroIsTheFirstMarkInTheRecord() {
        double[] pulses = new double[150];
        for (int k = 0; k < pulses.length; k++) {
            pulses[k] = -0.32 + 0.07 * k;
        }
        ShaftAngle angle = found(pulses, 1, 1, 9);
        assertEquals(0, angle.turnsAt(0.03), ROUND_OFF_TURNS);
        assertEquals(1 / 0.07, angle.speedHzAt(0), ROUND_OFF_TURNS);
    }

    @Test
    void pulsesThatBeginLateAndEndEarlyAreExtendedALittleOnly() {
        double[] pulses = Arrays.stream(RUN.pulses(0, 1)).filter(t -> t > 3 && t < 8).toArray();
        AngleFinding finding = find(pulses, 1, 1, 12);
        ShaftAngle angle = finding.angle().orElseThrow();
        assertTrue(angle.startS() > 2.8 && angle.startS() < pulses[0]);
        assertTrue(angle.endS() < 8.2 && angle.endS() > pulses[pulses.length - 1]);
        assertEquals(1, countNotes(finding, AngleNote.Kind.PART_OF_RECORD));
        double offset = RUN.turnsAt(5) - angle.turnsAt(5);
        assertEquals(0, worst(angle, RUN, offset), SMALL_TURNS);
        assertTrue(angle.sigmaTurnsAt(angle.startS()) > 3 * angle.sigmaTurnsAt(5));
    }

    @Test
    void aPauseIsBridgedAndStatedAndUncertain() {
        double[] pulses =
                Arrays.stream(RUN.pulses(2e-6, 5)).filter(t -> t < 4 || t > 4.9).toArray();
        AngleFinding finding = find(pulses, 1, 1, 12);
        ShaftAngle angle = finding.angle().orElseThrow();
        assertEquals(1, countNotes(finding, AngleNote.Kind.PAUSE));
        double error = Math.abs(angle.turnsAt(4.45) - RUN.turnsAt(4.45));
        assertTrue(error < 4 * angle.sigmaTurnsAt(4.45), "error " + error);
        assertTrue(angle.sigmaTurnsAt(4.45) > 2 * angle.sigmaTurnsAt(2));
        assertEquals(RUN.turnsAt(10), angle.turnsAt(10), 5 * SMALL_TURNS);
    }

    @Test
    void aPulseFarFromItsPlaceIsLeftOut() {
        double[] pulses = RUN.pulses(0, 1);
        pulses[50] += 0.1 * (pulses[51] - pulses[50]);
        pulses[90] -= 0.2 * (pulses[90] - pulses[89]);
        AngleFinding finding = find(pulses, 1, 1, 12);
        assertEquals(2, count(finding, AngleNote.Kind.MISPLACED_PULSES));
        assertEquals(0, worst(finding.angle().orElseThrow(), RUN, 0), SMALL_TURNS);
    }

    @Test
    void timesWrittenInMicrosecondsAreGoodEnough() {
        double[] pulses =
                Arrays.stream(RUN.pulses(0, 1)).map(t -> Math.rint(t * 1e6) / 1e6).toArray();
        assertEquals(0, worst(found(pulses, 1, 1, 12), RUN, 0), SMALL_TURNS);
    }

    @ParameterizedTest
    @ValueSource(ints = {0, 1, 2, 4})
    void tooFewPulsesAreRefusedInOneSentence(int count) {
        AngleFinding finding = find(Arrays.copyOf(RUN.pulses(0, 1), count), 1, 1, 12);
        assertTrue(finding.angle().isEmpty());
        String problem = finding.problem().orElseThrow();
        assertTrue(problem.contains("only " + count + " pulses"), problem);
    }

    @Test
    void angleNeverRunsBackwardsWhateverThePulses() {
        for (long seed = 0; seed < 20; seed++) {
            Random random = new Random(seed);
            double[] pulses = new double[60];
            double t = 0;
            for (int k = 0; k < pulses.length; k++) {
                t += 0.02 + 0.1 * Math.pow(random.nextDouble(), 3);
                pulses[k] = t;
            }
            ShaftAngle angle = find(pulses, 1, 1, t).angle().orElse(null);
            if (angle == null) {
                continue;
            }
            double last = angle.startTurns();
            for (int i = 0; i <= 5000; i++) {
                double at = angle.startS() + (angle.endS() - angle.startS()) * i / 5000;
                double now = angle.turnsAt(at);
                assertTrue(now >= last - 1e-12, "seed " + seed + " at " + at);
                last = now;
            }
        }
    }

    private static double[] markPulses(RunUp run, double[] places, double jitterS) {
        Random random = new Random(17);
        int turns = (int) run.turnsAt(run.durationS);
        double[] pulses = new double[turns * places.length];
        for (int k = 0; k < pulses.length; k++) {
            int turn = k / places.length;
            double at = turn + places[k % places.length];
            pulses[k] = run.timeAt(at) + jitterS * random.nextGaussian();
        }
        return pulses;
    }

    private static AngleFinding find(double[] pulses, int marks, double ratio, double durationS) {
        double rateHz = 1000;
        double[][] x = new double[1][(int) (durationS * rateHz)];
        TachPulses tach = new TachPulses(pulses, marks, ratio);
        return AngleFinder.find(new CaptureSignal(rateHz, x, tach), AnglePrior.of(4, 4));
    }

    private static ShaftAngle found(double[] pulses, int marks, double ratio, double durationS) {
        return find(pulses, marks, ratio, durationS).angle().orElseThrow();
    }

    private static double worst(ShaftAngle angle, RunUp run, double offsetTurns) {
        double worst = 0;
        for (int i = 0; i <= 1000; i++) {
            double t = angle.startS() + (angle.endS() - angle.startS()) * i / 1000;
            double error = angle.turnsAt(t) + offsetTurns - run.turnsAt(t);
            worst = Math.abs(error) > Math.abs(worst) ? error : worst;
        }
        return worst;
    }

    private static int count(AngleFinding finding, AngleNote.Kind kind) {
        return finding.notes().stream()
                .filter(n -> n.kind() == kind)
                .mapToInt(AngleNote::count)
                .sum();
    }

    private static long countNotes(AngleFinding finding, AngleNote.Kind kind) {
        return finding.notes().stream().filter(n -> n.kind() == kind).count();
    }
}

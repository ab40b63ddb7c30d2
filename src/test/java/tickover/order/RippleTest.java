package tickover.order;

import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Arrays;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;
import org.junit.jupiter.params.provider.ValueSource;
import tickover.align.CaptureSignal;
import tickover.align.SpeedReadings;
import tickover.align.TachPulses;

/** Torsional ripple left in, taken out, or mistaken for marks, as marks allow. */
class RippleTest {
    private static final double DURATION_S = 12;

    /** Firing ripple of four cylinders: the speed swings by 2.5 %. */
    private static final double FIRING_TURNS = 0.002;

    /** One cylinder weaker than the others: the speed swings by 1 %. */
    private static final double WEAK_TURNS = 0.003;

    private static final double JITTER_S = 5e-6;

    private static final RunUp MEAN = RunUp.exponential(780, 1500, DURATION_S);

    /** Jitter of 5 µs at 25 Hz, and the places of marks learned from 200 turns with it. */
    private static final double SMALL_TURNS = 1.3e-4;

    /**
     * With turns left out at random, odd and even ones no longer cancel when places are learned.
     */
    private static final double SPOILED_TURNS = 2.5e-4;

    private static final RunUp SHAFT =
            RunUp.of(DURATION_S, t -> MEAN.turnsAt(t) + firing(t) + weak(t));

    private static double firing(double timeS) {
        return FIRING_TURNS * Math.sin(2 * Math.PI * 2 * MEAN.turnsAt(timeS));
    }

    private static double weak(double timeS) {
        return WEAK_TURNS * Math.sin(2 * Math.PI * 0.5 * MEAN.turnsAt(timeS) + 0.4);
    }

    @ParameterizedTest
    @ValueSource(ints = {12, 36})
    void manyMarksLetItBeTakenOutOrLeftIn(int marks) {
        double[] places = even(marks);
        AngleFinding out = find(places, Ripple.TAKEN_OUT);
        assertTrue(rms(out, MEAN, 0) < SMALL_TURNS, "taken out: " + rms(out, MEAN, 0));
        AngleFinding in = find(places, Ripple.LEFT_IN);
        assertTrue(rms(in, SHAFT, 0) < SMALL_TURNS, "left in: " + rms(in, SHAFT, 0));
        assertTrue(note(out).contains("taken out"), note(out));
        assertTrue(note(in).contains("left in"), note(in));
    }

    /** Unknown marks: what repeats with each turn looks like uneven marks, half orders do not. */
    @Test
    void unknownMarksTakeWhatRepeatsWithEveryTurn() {
        AngleFinding finding = find(even(36), Ripple.AS_SEEN);
        RunUp seen = RunUp.of(DURATION_S, t -> MEAN.turnsAt(t) + weak(t));
        assertTrue(rms(finding, seen, 0) < SMALL_TURNS, "" + rms(finding, seen, 0));
    }

    /** Which gap is the longest would be up to the ripple, and differ between captures. */
    @Test
    void rippleMakesNoIndexMark() {
        ShaftAngle angle = find(even(36), Ripple.AS_SEEN).angle().orElseThrow();
        assertFalse(angle.phaseKnown());
    }

    @Test
    void unevenMarksDoNotHinderTakingItOut() {
        double[] places = {0, 0.06, 0.14, 0.23, 0.31, 0.42, 0.5, 0.57, 0.66, 0.81, 0.9};
        AngleFinding finding = find(places, Ripple.TAKEN_OUT);
        assertTrue(rms(finding, MEAN, 0.81) < SMALL_TURNS, "" + rms(finding, MEAN, 0.81));
    }

    /**
     * A wheel of 36 teeth less one, each up to a fiftieth of its pitch off, some pulses missed and
     * some doubled: what was learned of the teeth leaves the half orders alone.
     */
    @ParameterizedTest
    @ValueSource(longs = {1, 2, 3, 4})
    void aBadlyCutWheelWithAGapIsLearned(long seed) {
        Random random = new Random(seed);
        double[] places = new double[35];
        for (int j = 0; j < places.length; j++) {
            places[j] = (j + 0.04 * (random.nextDouble() - 0.5)) / 36;
        }
        places[0] = 0;
        double[] pulses = spoiled(pulses(SHAFT, places, JITTER_S, seed), random);
        RunUp weak = RunUp.of(DURATION_S, t -> MEAN.turnsAt(t) + weak(t));
        AngleFinding seen = find(pulses, places.length, Ripple.AS_SEEN);
        assertTrue(rms(seen, weak, 0) < SPOILED_TURNS, "as seen: " + rms(seen, weak, 0));
        assertTrue(seen.angle().orElseThrow().phaseKnown());
        AngleFinding out = find(pulses, places.length, Ripple.TAKEN_OUT);
        assertTrue(rms(out, MEAN, 0) < SPOILED_TURNS, "taken out: " + rms(out, MEAN, 0));
        AngleFinding in = find(pulses, places.length, Ripple.LEFT_IN);
        assertTrue(note(in).contains("passes for"), note(in));
    }

    /** One in fifty missing, one in fifty followed by another. */
    private static double[] spoiled(double[] pulses, Random random) {
        double[] out = new double[2 * pulses.length];
        int n = 0;
        for (int k = 0; k < pulses.length; k++) {
            double draw = random.nextDouble();
            if (draw > 0.02) {
                out[n++] = pulses[k];
            }
            if (draw > 0.98 && k + 1 < pulses.length) {
                out[n++] = pulses[k] + 0.15 * (pulses[k + 1] - pulses[k]);
            }
        }
        return Arrays.copyOf(out, n);
    }

    /** One mark shows that turns alternate, and nothing of what happens within them. */
    @Test
    void oneMarkShowsOnlyThatTurnsAlternate() {
        AngleFinding out = find(even(1), Ripple.TAKEN_OUT);
        assertTrue(rms(out, MEAN, 0) < SMALL_TURNS, "taken out: " + rms(out, MEAN, 0));
        assertTrue(note(out).contains("one mark"), note(out));
        double unseen = rms(find(even(1), Ripple.LEFT_IN), SHAFT, 0);
        assertTrue(unseen > FIRING_TURNS / 2, "the firing ripple cannot be known: " + unseen);
    }

    @ParameterizedTest
    @EnumSource(Ripple.class)
    void aShaftWithoutRippleIsTheSameEitherWay(Ripple ripple) {
        AngleFinding finding = find(MEAN, even(12), 1, ripple);
        assertTrue(rms(finding, MEAN, 0) < SMALL_TURNS, "" + rms(finding, MEAN, 0));
    }

    @Test
    void marksOnAnotherPulleyAreRefusedInTheNote() {
        RunUp pulley = RunUp.of(DURATION_S, t -> 2.5667 * SHAFT.turnsAt(t));
        AngleFinding finding = find(pulley, even(6), 2.5667, Ripple.TAKEN_OUT);
        assertTrue(note(finding).contains("not on the crank"), note(finding));
    }

    @Test
    void withoutATachTheNoteSaysThatNothingIsKnown() {
        SpeedReadings curve =
                new SpeedReadings(new double[] {0, 12}, new double[] {800, 900}, false);
        AngleFinding finding =
                AngleFinder.find(
                        new CaptureSignal(1000, new double[1][12_000], curve),
                        AnglePrior.of(4, 4),
                        Ripple.TAKEN_OUT);
        assertTrue(note(finding).contains("only a tach"), note(finding));
    }

    /** The error of learned places is part of the stated one. */
    @Test
    void learnedPlacesCountInTheStatedUncertainty() {
        double[] places = {0, 0.1, 0.45, 0.6, 0.7, 0.82};
        int inside = 0;
        int all = 0;
        for (long seed = 1; seed <= 40; seed++) {
            RunUp run = Shaft.HUNT.run(13, DURATION_S, seed);
            double jitterS = 1e-6 * Math.pow(100, new Random(seed).nextDouble());
            double[] pulses = pulses(run, places, jitterS, seed);
            ShaftAngle angle =
                    TachAngle.find(new TachPulses(pulses, places.length, 1), DURATION_S)
                            .angle()
                            .orElseThrow();
            for (double t = 0.3; t < DURATION_S - 0.3; t += 0.1) {
                // The longest gap ends at 0.45.
                double e = angle.turnsAt(t) + 0.45 - run.turnsAt(t);
                e -= Math.rint(e);
                inside += Math.abs(e) < 2 * angle.sigmaTurnsAt(t) ? 1 : 0;
                all++;
            }
        }
        double share = (double) inside / all;
        assertTrue(share > 0.88 && share < 0.999, "within two sigmas: " + share);
    }

    private static double[] even(int marks) {
        double[] places = new double[marks];
        Arrays.setAll(places, j -> (double) j / marks);
        return places;
    }

    private static double[] pulses(RunUp run, double[] places, double jitterS, long seed) {
        Random random = new Random(seed);
        int turns = (int) run.turnsAt(run.durationS);
        double[] pulses = new double[turns * places.length];
        for (int k = 0; k < pulses.length; k++) {
            double at = Math.floorDiv(k, places.length) + places[k % places.length];
            pulses[k] = run.timeAt(at) + jitterS * random.nextGaussian();
        }
        Arrays.sort(pulses);
        return pulses;
    }

    private static AngleFinding find(double[] places, Ripple ripple) {
        return find(SHAFT, places, 1, ripple);
    }

    private static AngleFinding find(RunUp run, double[] places, double ratio, Ripple ripple) {
        return find(new TachPulses(pulses(run, places, JITTER_S, 5), places.length, ratio), ripple);
    }

    private static AngleFinding find(double[] pulses, int marks, Ripple ripple) {
        return find(new TachPulses(pulses, marks, 1), ripple);
    }

    private static AngleFinding find(TachPulses tach, Ripple ripple) {
        double[][] x = new double[1][(int) (DURATION_S * 1000)];
        return AngleFinder.find(new CaptureSignal(1000, x, tach), AnglePrior.of(4, 4), ripple);
    }

    private static String note(AngleFinding finding) {
        return finding.notes().stream()
                .filter(n -> n.kind() == AngleNote.Kind.RIPPLE)
                .findFirst()
                .orElseThrow()
                .text();
    }

    /** Root mean square of the error less its mean: even marks leave open which of them is zero. */
    private static double rms(AngleFinding finding, RunUp truth, double offset) {
        ShaftAngle angle = finding.angle().orElseThrow();
        double sum = 0;
        double squares = 0;
        int n = 0;
        for (double t = 0.3; t < DURATION_S - 0.3; t += 0.003) {
            double e = angle.turnsAt(t) + offset - truth.turnsAt(t);
            sum += e;
            squares += e * e;
            n++;
        }
        return Math.sqrt(squares / n - sum * sum / n / n);
    }
}

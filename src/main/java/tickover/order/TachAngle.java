package tickover.order;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import tickover.align.TachPulses;
import tickover.dsp.Statistics;

/** Shaft angle from the pulses of a mark. */
final class TachAngle {
    /** How far the curve runs on past the first and last pulse, turns of the marked part. */
    private static final double RUN_ON_TURNS = 1.5;

    /**
     * Across a longer time without pulses the angle is a guess, turns of the marked part: an engine
     * wavers by a per cent from turn to turn, so after half of this order 10 is off by a tenth of
     * its own cycle and more.
     */
    private static final double UNKNOWN_TURNS = 3.5;

    /** A pulse is misplaced when it departs from its neighbours this often the usual way. */
    private static final double MISPLACED_SIGMAS = 8;

    /** And by at least this part of the gap. */
    private static final double MISPLACED_RATIO = 0.01;

    /** Jitter below this is the resolution of the file, not worth a note, s. */
    private static final double QUIET_JITTER_S = 1.5e-6;

    /** No clock places a pulse more finely; without a floor, exact pulses would leave none, s. */
    private static final double FINEST_JITTER_S = 1e-11;

    private TachAngle() {}

    static AngleFinding find(TachPulses pulses, double durationS) {
        return find(pulses, durationS, Ripple.AS_SEEN, 2);
    }

    /**
     * Finds the angle.
     *
     * @param pulses the pulses
     * @param durationS length of the record, s
     * @param ripple what to do with torsional ripple
     * @param cycleTurns crank turns of a working cycle
     */
    static AngleFinding find(TachPulses pulses, double durationS, Ripple ripple, int cycleTurns) {
        int marks = pulses.pulsesPerTurn();
        double ratio = pulses.turnsPerCrankTurn();
        double[] raw = pulses.timesS();
        PulseTrain train = PulseTrain.of(raw, marks, ratio, ripple == Ripple.LEFT_IN);
        if (train == null || train.timesS().length < PulseTrain.leastPulses(marks)) {
            return AngleFinding.none(
                    raw.length < PulseTrain.leastPulses(marks)
                            ? "The tach has only "
                                    + raw.length
                                    + " pulses; at least "
                                    + PulseTrain.leastPulses(marks)
                                    + " are needed with "
                                    + marks
                                    + " per turn."
                            : "The tach pulses show no two whole turns in a row with "
                                    + marks
                                    + " pulses per turn; check the mark and pulses_per_turn.");
        }
        List<AngleNote> notes = new ArrayList<>();
        noteCounts(train, notes);
        double[] t = train.timesS();
        double[] places = train.turns();
        RippleOut out = new RippleOut(train, ripple, ratio, cycleTurns, notes);
        double[] turns = out.turns;
        boolean[] misplaced = misplaced(t, turns);
        int kept = 0;
        for (int i = 0; i < t.length; i++) {
            if (!misplaced[i]) {
                t[kept] = t[i];
                places[kept] = places[i];
                turns[kept++] = turns[i];
            }
        }
        if (kept < t.length) {
            int count = t.length - kept;
            notes.add(
                    new AngleNote(
                            AngleNote.Kind.MISPLACED_PULSES,
                            count,
                            count + " tach pulses were too far from their place and left out."));
        }
        t = Arrays.copyOf(t, kept);
        turns = Arrays.copyOf(turns, kept);
        double zero = zeroTurns(train, t, Arrays.copyOf(places, kept));
        for (int i = 0; i < kept; i++) {
            turns[i] = (turns[i] - zero) / ratio;
        }
        boolean phaseKnown = phaseKnown(train, ratio);
        return fit(t, turns, out.sigmaTurns / ratio, durationS, 1 / ratio, phaseKnown, notes);
    }

    private static boolean phaseKnown(PulseTrain train, double ratio) {
        return ratio == 1 && (train.spacing().marks() == 1 || train.spacing().hasIndex());
    }

    /**
     * Angle of the first pulse from time zero on; of the mark after the longest gap if there is
     * one.
     */
    private static double zeroTurns(PulseTrain train, double[] t, double[] turns) {
        double first = turns[turns.length - 1];
        for (int i = t.length - 1; i >= 0 && t[i] >= 0; i--) {
            first = turns[i];
        }
        if (!train.spacing().hasIndex()) {
            return first;
        }
        double place = train.spacing().turnsAt(train.spacing().afterLongestGap());
        return place + Math.ceil(first - place - 1e-9);
    }

    private static AngleFinding fit(
            double[] t,
            double[] turns,
            double placeSigmaTurns,
            double durationS,
            double crankPerPartTurn,
            boolean phaseKnown,
            List<AngleNote> notes) {
        int n = t.length;
        double[] steps = new double[n - 1];
        for (int i = 0; i + 1 < n; i++) {
            steps[i] = t[i + 1] - t[i];
        }
        double unitS = Statistics.median(steps);
        double typicalHz = (turns[n - 1] - turns[0]) / (t[n - 1] - t[0]);
        double firstHz = (turns[1] - turns[0]) / steps[0];
        double lastHz = (turns[n - 1] - turns[n - 2]) / steps[n - 2];
        double runOnTurns = RUN_ON_TURNS * crankPerPartTurn;
        double startS = Math.max(Math.min(0, t[0]), t[0] - runOnTurns / firstHz);
        double endS = Math.min(Math.max(durationS, t[n - 1]), t[n - 1] + runOnTurns / lastHz);
        KnotGrid grid = new KnotGrid(t, turns, unitS, startS, endS, typicalHz);
        // A time that was rounded to a grid is off by up to half a step, all errors alike likely.
        double leastNoise =
                typicalHz * Math.max(FINEST_JITTER_S, TimeGrid.stepS(t) / Math.sqrt(12));
        AngleSmoother.Motion motion =
                new MotionFinder(grid.timesS(), grid.turns(), grid.weights(), unitS, leastNoise)
                        .likeliest();
        AngleSmoother smoother =
                new AngleSmoother(grid.timesS(), grid.turns(), grid.weights(), unitS);
        AngleSmoother.Curve curve = smoother.smooth(motion);
        double jitterS = curve.noiseTurns() / typicalHz;
        if (jitterS > QUIET_JITTER_S) {
            notes.add(
                    new AngleNote(
                            AngleNote.Kind.JITTER,
                            0,
                            String.format(
                                    Locale.ROOT,
                                    "The tach pulses jitter by about %.1f µs; the angle was"
                                            + " smoothed as far as that justifies.",
                                    1e6 * jitterS)));
        }
        if (startS > 0 || endS < durationS) {
            notes.add(
                    new AngleNote(
                            AngleNote.Kind.PART_OF_RECORD,
                            0,
                            String.format(
                                    Locale.ROOT,
                                    "Tach pulses cover %.2f s to %.2f s of a record of %.2f s;"
                                            + " only that part is used.",
                                    Math.max(0, startS),
                                    Math.min(durationS, endS),
                                    durationS)));
        }
        double[] sigmaTurns =
                Arrays.stream(curve.sigmaTurns())
                        .map(v -> Math.hypot(v, placeSigmaTurns))
                        .toArray();
        AnglePieces pieces = AnglePieces.ofStates(grid.timesS(), curve.states());
        return AngleFinding.found(
                new ShaftAngle(pieces, sigmaTurns, phaseKnown),
                notes,
                unknown(t, turns, crankPerPartTurn));
    }

    /** The times between pulses that lie too many turns of the marked part apart. */
    private static List<TimeRange> unknown(double[] t, double[] turns, double crankPerPartTurn) {
        List<TimeRange> unknown = new ArrayList<>();
        for (int i = 0; i + 1 < t.length; i++) {
            if (turns[i + 1] - turns[i] > UNKNOWN_TURNS * crankPerPartTurn) {
                unknown.add(new TimeRange(t[i], t[i + 1]));
            }
        }
        return unknown;
    }

    private static void noteCounts(PulseTrain train, List<AngleNote> notes) {
        if (train.missed() > 0) {
            notes.add(
                    new AngleNote(
                            AngleNote.Kind.MISSED_PULSES,
                            train.missed(),
                            train.missed() + " tach pulses were missing and bridged."));
        }
        if (train.extra() > 0) {
            notes.add(
                    new AngleNote(
                            AngleNote.Kind.EXTRA_PULSES,
                            train.extra(),
                            train.extra() + " tach pulses too many (bounces) were dropped."));
        }
        double[] pauses = train.pausesS();
        if (pauses.length > 0) {
            notes.add(
                    new AngleNote(
                            AngleNote.Kind.PAUSE,
                            pauses.length,
                            String.format(
                                    Locale.ROOT,
                                    "The tach paused %d times, %.2f s at the longest; the angle"
                                            + " across a pause is a guess.",
                                    pauses.length,
                                    Arrays.stream(pauses).max().getAsDouble())));
        }
        if (!train.spacing().isEven()) {
            notes.add(
                    new AngleNote(
                            AngleNote.Kind.UNEVEN_MARKS,
                            train.spacing().marks(),
                            "The marks are not evenly spaced; their places were learned from the"
                                    + " pulses."));
        }
    }

    /** Pulses far from where the cubic through two neighbours on either side puts them. */
    private static boolean[] misplaced(double[] t, double[] turns) {
        int n = t.length;
        boolean[] misplaced = new boolean[n];
        if (n < 9) {
            return misplaced;
        }
        double[] off = new double[n - 4];
        for (int i = 2; i + 2 < n; i++) {
            off[i - 2] = turns[i] - cubic(t, turns, i);
        }
        double usual = Statistics.mad(off) * Statistics.MAD_TO_SIGMA;
        for (int i = 2; i + 2 < n; i++) {
            double gap = Math.min(turns[i] - turns[i - 1], turns[i + 1] - turns[i]);
            double here = Math.abs(off[i - 2]);
            boolean worst =
                    here >= Math.abs(off[Math.max(0, i - 3)])
                            && here >= Math.abs(off[Math.min(n - 5, i - 1)]);
            misplaced[i] = worst && here > MISPLACED_SIGMAS * usual && here > MISPLACED_RATIO * gap;
        }
        return misplaced;
    }

    private static double cubic(double[] t, double[] turns, int i) {
        double sum = 0;
        for (int a = -2; a <= 2; a++) {
            if (a == 0) {
                continue;
            }
            double term = turns[i + a];
            for (int b = -2; b <= 2; b++) {
                if (b != 0 && b != a) {
                    term *= (t[i] - t[i + b]) / (t[i + a] - t[i + b]);
                }
            }
            sum += term;
        }
        return sum;
    }
}

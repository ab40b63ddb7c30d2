package tickover.order;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import tickover.align.CaptureSignal;
import tickover.align.SpeedReadings;

/** Shaft angle from the vibration itself, with or without readings to start from. */
final class VibrationAngle {
    private static final double LOWEST_HZ = 500 / 60.0;
    private static final double HIGHEST_HZ = 4500 / 60.0;
    private static final double LOWEST_IDLE_HZ = 450 / 60.0;
    private static final double HIGHEST_IDLE_HZ = 1300 / 60.0;
    private static final double BELOW_IDLE_RATIO = 0.72;
    private static final double ABOVE_IDLE_RATIO = 1.4;

    /** Shorter records hold too few frames to follow a speed, s. */
    private static final double LEAST_S = 1.5;

    /** White noise scores 1.1 when any speed is allowed, engines that were tried 2.5 to 7. */
    private static final double LEAST_SCORE = 1.5;

    /** Another multiple of the speed that scores this part of the best leaves it undecided. */
    private static final double RIVAL_RATIO = 0.9;

    private static final double[] MULTIPLES = {
        0.25, 1.0 / 3, 0.5, 2.0 / 3, 0.75, 1, 4.0 / 3, 1.5, 2, 3, 4
    };

    /** Orders above this play no part in the search. */
    private static final double TOP_ORDER = 32;

    private static final double LEAST_TURNS = 16;

    /** How far the engine may be from the readings, lag taken off. */
    private static final double NEAR_RATIO = 0.03;

    private static final double TYPICAL_LAG_S = 0.2;
    private static final double LEAST_LAG_S = 0.02;
    private static final double MOST_LAG_S = 0.7;
    private static final double LAG_STEP_S = 0.01;

    /** Readings have to vary by so much for their lag to show. */
    private static final double VARIES_RATIO = 0.03;

    /** Speed that readings alone are off by, where the vibration does not help. */
    private static final double READING_ERROR_RATIO = 0.005;

    private VibrationAngle() {}

    /** Finds speed from the vibration alone. */
    static AngleFinding alone(CaptureSignal capture, AnglePrior prior) {
        if (!(capture.durationS() >= LEAST_S)) {
            return AngleFinding.none(
                    String.format(
                            Locale.ROOT,
                            "There is no speed source and the record of %.2f s is too short to"
                                    + " find speed from the vibration; at least %.1f s are needed.",
                            capture.durationS(),
                            LEAST_S));
        }
        double lowHz = LOWEST_HZ;
        double highHz = HIGHEST_HZ;
        double idleHz = prior.idleRpm().orElse(0) / 60;
        if (prior.idling()) {
            lowHz = idleHz > 0 ? BELOW_IDLE_RATIO * idleHz : LOWEST_IDLE_HZ;
            highHz = idleHz > 0 ? ABOVE_IDLE_RATIO * idleHz : HIGHEST_IDLE_HZ;
        }
        if (!prior.idling() && idleHz > 0) {
            // Off idle an engine runs no slower than its idle speed under load.
            lowHz = Math.max(lowHz, BELOW_IDLE_RATIO * idleHz);
        }
        CaptureSignal slow = SlowCapture.of(capture, TOP_ORDER * highHz);
        CombMap map = new CombMap(slow, prior, lowHz, highHz);
        int[] from = new int[map.frames()];
        int[] to = new int[map.frames()];
        Arrays.fill(to, map.speeds() - 1);
        SpeedPath path = SpeedPath.best(map, from, to);
        if (!(path.meanScore() > LEAST_SCORE)) {
            return AngleFinding.none(
                    "There is no speed source and the vibration shows no engine orders clear enough"
                            + " to find speed from.");
        }
        CombRefiner refiner = new CombRefiner(slow, prior);
        ShaftAngle start = ofPath(path, 1, capture.durationS());
        CombRefiner.Refined once = refiner.refine(start);
        double[] range = {lowHz, highHz};
        double multiple = bestMultiple(refiner, once.angle(), prior, range);
        if (!(multiple > 0)) {
            double rpm = 60 * path.speedsHz()[path.speedsHz().length / 2];
            return AngleFinding.none(
                    String.format(
                            Locale.ROOT,
                            "There is no speed source and the vibration does not decide between"
                                    + " %.0f and %.0f rpm.",
                            rpm,
                            -multiple * rpm));
        }
        if (multiple != 1) {
            start = ofPath(path, multiple, capture.durationS());
            once = refiner.refine(start);
        }
        List<AngleNote> notes = new ArrayList<>();
        notes.add(
                new AngleNote(
                        AngleNote.Kind.FROM_VIBRATION,
                        0,
                        "Speed was found from the vibration alone."));
        // A path from frames alone starts further off, so its best is worth starting from once
        // more.
        return sharpened(refiner.refine(once.angle()), refiner.sharpness(start), notes);
    }

    /** Sharpens late readings by the vibration. */
    static AngleFinding withReadings(
            CaptureSignal capture, SpeedReadings readings, AnglePrior prior) {
        double[] t = readings.timesS();
        double[] hz = Arrays.stream(readings.speedsRpm()).map(r -> r / 60).toArray();
        double least = Arrays.stream(hz).min().orElse(0);
        double most = Arrays.stream(hz).max().orElse(0);
        AngleFinding plain =
                SpeedCurveAngle.find(
                        late(readings, TYPICAL_LAG_S), capture.durationS(), READING_ERROR_RATIO);
        if (plain.angle().isEmpty()
                || !(least > LOWEST_IDLE_HZ / 2)
                || !(capture.durationS() >= LEAST_S)) {
            return plain;
        }
        double highHz = most * (1 + 2 * NEAR_RATIO);
        CaptureSignal slow = SlowCapture.of(capture, TOP_ORDER * highHz);
        CombMap map = new CombMap(slow, prior, least * (1 - 2 * NEAR_RATIO), highHz);
        boolean varies = most - least > VARIES_RATIO * most;
        double lagS = varies ? bestLag(map, t, hz) : TYPICAL_LAG_S;
        List<AngleNote> notes = new ArrayList<>(plain.notes());
        int[] from = new int[map.frames()];
        int[] to = new int[map.frames()];
        double reach = NEAR_RATIO / CombMap.STEP_RATIO;
        for (int f = 0; f < from.length; f++) {
            double place = map.placeOf(SpeedCurveAngle.at(t, hz, map.timeS(f) + lagS));
            from[f] = (int) Math.max(0, place - reach);
            to[f] = (int) Math.min(map.speeds() - 1, place + reach);
        }
        SpeedPath path = SpeedPath.best(map, from, to);
        AngleFinding lagged =
                SpeedCurveAngle.find(
                        late(readings, lagS), capture.durationS(), READING_ERROR_RATIO);
        CombRefiner refiner = new CombRefiner(slow, prior);
        ShaftAngle byReadings = lagged.angle().orElseThrow();
        CombRefiner.Refined fromReadings = refiner.refine(byReadings);
        CombRefiner.Refined fromPath = refiner.refine(ofPath(path, 1, capture.durationS()));
        CombRefiner.Refined best =
                fromPath.sharpness() > fromReadings.sharpness() ? fromPath : fromReadings;
        notes.add(ReadingLag.of(best.angle(), t, hz).note(lagS));
        return sharpened(best, refiner.sharpness(byReadings), notes);
    }

    private static AngleFinding sharpened(
            CombRefiner.Refined refined, double before, List<AngleNote> notes) {
        boolean better = refined.sharpness() > before;
        notes.add(
                new AngleNote(
                        AngleNote.Kind.REFINED,
                        better ? 1 : 0,
                        better
                                ? String.format(
                                        Locale.ROOT,
                                        "The engine's own orders sharpened the angle; they stand"
                                                + " %.1f dB higher above their surroundings.",
                                        20 / Math.log(10) * (refined.sharpness() - before))
                                : "The engine's own orders did not sharpen the angle."));
        return AngleFinding.found(refined.angle(), notes);
    }

    /** The lag under which the readings run along the highest scores. */
    private static double bestLag(CombMap map, double[] t, double[] hz) {
        double best = TYPICAL_LAG_S;
        double most = Double.NEGATIVE_INFINITY;
        for (double lag = LEAST_LAG_S; lag <= MOST_LAG_S; lag += LAG_STEP_S) {
            double sum = 0;
            for (int f = 0; f < map.frames(); f++) {
                sum += map.scoreAt(f, SpeedCurveAngle.at(t, hz, map.timeS(f) + lag));
            }
            if (sum > most) {
                most = sum;
                best = lag;
            }
        }
        return best;
    }

    private static SpeedReadings late(SpeedReadings readings, double lagS) {
        double[] t = Arrays.stream(readings.timesS()).map(v -> v - lagS).toArray();
        return new SpeedReadings(t, readings.speedsRpm(), false);
    }

    /**
     * The multiple of a speed that explains the lines best: 1 if it is right already, minus the
     * rival if two explain them about as well.
     */
    private static double bestMultiple(
            CombRefiner refiner, ShaftAngle angle, AnglePrior prior, double[] rangeHz) {
        double middleHz = angle.speedHzAt((angle.startS() + angle.endS()) / 2);
        double best = 1;
        double bestScore = Double.NEGATIVE_INFINITY;
        double rival = 1;
        double rivalScore = Double.NEGATIVE_INFINITY;
        List<MultipleCheck> checks = new ArrayList<>();
        for (AngularRecord record : refiner.records(angle)) {
            if (!(record.lengthTurns() >= LEAST_TURNS)) {
                return 1;
            }
            checks.add(new MultipleCheck(record, prior));
        }
        for (double multiple : MULTIPLES) {
            double hz = multiple * middleHz;
            if (hz < rangeHz[0] || hz > rangeHz[1]) {
                continue;
            }
            double score = 0;
            for (MultipleCheck check : checks) {
                score += check.score(multiple);
            }
            if (score > bestScore) {
                rivalScore = bestScore;
                rival = best;
                bestScore = score;
                best = multiple;
            } else if (score > rivalScore) {
                rivalScore = score;
                rival = multiple;
            }
        }
        if (rivalScore > RIVAL_RATIO * bestScore) {
            return -(best == 1 ? rival : best);
        }
        return best;
    }

    private static ShaftAngle ofPath(SpeedPath path, double multiple, double durationS) {
        int n = path.timesS().length;
        double[] t = new double[n + 2];
        double[] hz = new double[n + 2];
        System.arraycopy(path.timesS(), 0, t, 1, n);
        for (int i = 0; i < n; i++) {
            hz[i + 1] = multiple * path.speedsHz()[i];
        }
        hz[0] = hz[1];
        hz[n + 1] = hz[n];
        t[n + 1] = durationS;
        double[] sigma = new double[n + 2];
        for (int i = 1; i < sigma.length; i++) {
            sigma[i] = READING_ERROR_RATIO * hz[i] * Math.sqrt(CombMap.HOP_S * t[i]);
        }
        return new ShaftAngle(AnglePieces.ofSpeeds(t, hz), sigma, false);
    }
}

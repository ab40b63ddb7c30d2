package tickover.order;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import tickover.align.CaptureSignal;
import tickover.align.NoSpeed;
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

    /** Orders above this play no part in the search. */
    private static final double TOP_ORDER = 32;

    /** How far the engine may be from the readings, lag taken off. */
    private static final double NEAR_RATIO = 0.03;

    /** How far from an angle's speed a part of the record is searched for a better one. */
    private static final double PART_RATIO = 0.06;

    private static final double KNOT_S = 0.02;
    private static final double TYPICAL_LAG_S = 0.2;
    private static final double LEAST_LAG_S = 0.02;
    private static final double MOST_LAG_S = 0.7;
    private static final double LAG_STEP_S = 0.01;

    /** Readings have to vary by so much for their lag to show. */
    private static final double VARIES_RATIO = 0.03;

    /** Speed that readings alone are off by, where the vibration does not help. */
    private static final double READING_ERROR_RATIO = 0.005;

    private static final AngleNote NOT_SHARPENED =
            new AngleNote(
                    AngleNote.Kind.REFINED,
                    0,
                    "The engine's own orders did not sharpen the angle.");

    private VibrationAngle() {}

    /** Finds speed from the vibration alone. */
    static AngleFinding alone(CaptureSignal capture, AnglePrior prior) {
        AngleFinding found = lookAlone(capture, prior.withDriveOrders(List.of()));
        // To leave out the orders where belt-driven lines may stand costs lines of the engine, so
        // that is only the second try.
        return found.angle().isPresent() || prior.driveOrders().isEmpty()
                ? found
                : lookAlone(capture, prior);
    }

    private static AngleFinding lookAlone(CaptureSignal capture, AnglePrior prior) {
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
        CombRefiner.Refined start = refiner.as(ofPath(path, capture.durationS()));
        CombRefiner.Refined once = refined(refiner, start, prior);
        SpeedRivals rivals = rivals(once, prior, lowHz, highHz);
        if (!rivals.agree()) {
            start = refiner.as(once.angle().ofPart(rivals.best()));
            once = refiner.refine(start);
            rivals = rivals(once, prior, lowHz, highHz);
        }
        if (!rivals.decided() || !rivals.agree()) {
            ShaftAngle angle = once.angle();
            double rpm = 60 * middleHz(angle);
            return AngleFinding.none(
                    String.format(
                            Locale.ROOT,
                            "There is no speed source and the vibration does not decide between"
                                    + " %.0f and %.0f rpm.",
                            rpm * rivals.best(),
                            rpm * rivals.rival()));
        }
        // A path from frames alone starts further off, so its best is worth starting from once
        // more.
        CombRefiner.Refined twice = refiner.settle(once);
        if (!SpeedRivals.agreeThroughout(twice.records(), prior, PART_RATIO)) {
            return AngleFinding.none(
                    "There is no speed source and the vibration shows engine orders that tell the"
                            + " speed in a part of the record only.");
        }
        double before = start.sharpness();
        if (!(twice.sharpness() > before)) {
            return AngleFinding.none(
                    String.format(
                            Locale.ROOT,
                            "There is no speed source, and the engine's orders do not bear out the"
                                    + " %.0f rpm that the vibration suggests.",
                            60 * middleHz(start.angle())));
        }
        List<AngleNote> notes = new ArrayList<>();
        notes.add(
                new AngleNote(
                        AngleNote.Kind.FROM_VIBRATION,
                        0,
                        "Speed was found from the vibration alone."));
        return sharpened(twice, before, notes);
    }

    /** Sharpens late readings by the vibration. */
    static AngleFinding withReadings(
            CaptureSignal capture, SpeedReadings readings, AnglePrior prior) {
        AngleFinding found = sharpen(capture, readings, prior.withDriveOrders(List.of()));
        if (isSharpened(found) || prior.driveOrders().isEmpty()) {
            return found;
        }
        AngleFinding beside = sharpen(capture, readings, prior);
        return isSharpened(beside) ? beside : found;
    }

    private static boolean isSharpened(AngleFinding finding) {
        return finding.notes().stream()
                .anyMatch(n -> n.kind() == AngleNote.Kind.REFINED && n.count() == 1);
    }

    private static AngleFinding sharpen(
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
        double reach = NEAR_RATIO / CombMap.OVER_TIME.stepRatio();
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
        List<CombRefiner.Refined> candidates = new ArrayList<>();
        CombRefiner.Refined given = refiner.as(byReadings);
        candidates.add(refiner.refine(given));
        CombRefiner.Refined byPath =
                refined(refiner, refiner.as(ofPath(path, capture.durationS())), prior);
        if (!byPath.met()) {
            candidates.add(byPath);
        }
        CombRefiner.Refined best = best(candidates, t, hz);
        SpeedRivals rivals = near(best, prior);
        if (!rivals.agree()) {
            candidates.add(refiner.refine(refiner.as(best.angle().ofPart(rivals.best()))));
            best = best(candidates, t, hz);
        }
        best = refiner.settle(best);
        ReadingLag lag = ReadingLag.of(best.angle(), t, hz);
        notes.add(lag.note(lagS));
        // Readings are right to a fraction of a per cent, so an angle that they do not contradict
        // is
        // none of the speeds that a loud belt line passes for, whatever else the lines would bear.
        if (!lag.fits()) {
            notes.add(NOT_SHARPENED);
            return AngleFinding.found(byReadings, notes);
        }
        return sharpened(best, given.sharpness(), notes);
    }

    /** The sharper of an angle refined as it is and refined after straightening. */
    private static CombRefiner.Refined refined(
            CombRefiner refiner, CombRefiner.Refined start, AnglePrior prior) {
        CombRefiner.Refined plain = refiner.refine(start);
        if (plain.met()) {
            return plain;
        }
        CombRefiner.Refined bent = refiner.refine(refiner.as(straightened(start, prior)));
        return bent.sharpness() > plain.sharpness() ? bent : plain;
    }

    /**
     * An angle that is about right, bent so that the engine's orders stand best in frames of some
     * turns: these resolve more than frames of some tenths of a second, in which a sweep smears.
     */
    private static ShaftAngle straightened(CombRefiner.Refined start, AnglePrior prior) {
        ShaftAngle angle = start.angle();
        List<AngularRecord> records = start.records();
        double[][] x = records.stream().map(AngularRecord::values).toArray(double[][]::new);
        AngularRecord first = records.get(0);
        CaptureSignal overTurns = new CaptureSignal(first.samplesPerTurn(), x, new NoSpeed());
        CombMap map =
                new CombMap(overTurns, prior, 1 - NEAR_RATIO, 1 + NEAR_RATIO, CombMap.OVER_TURNS);
        if (map.frames() < 2) {
            return angle;
        }
        int[] from = new int[map.frames()];
        int[] to = new int[map.frames()];
        Arrays.fill(to, map.speeds() - 1);
        SpeedPath path = SpeedPath.best(map, from, to);
        int n = Math.max(2, (int) ((angle.endS() - angle.startS()) / KNOT_S));
        double[] t = new double[n];
        double[] hz = new double[n];
        double[] sigma = new double[n];
        for (int i = 0; i < n; i++) {
            double at = angle.startS() + (angle.endS() - angle.startS()) * i / (n - 1);
            t[i] = Math.min(at, angle.endS());
            double turns = angle.turnsAt(t[i]) - first.turnsAt(0);
            hz[i] =
                    angle.speedHzAt(t[i])
                            * SpeedCurveAngle.at(path.timesS(), path.speedsHz(), turns);
            sigma[i] = angle.sigmaTurnsAt(t[i]);
        }
        return new ShaftAngle(AnglePieces.ofSpeeds(t, hz), sigma, false);
    }

    private static double middleHz(ShaftAngle angle) {
        return angle.speedHzAt((angle.startS() + angle.endS()) / 2);
    }

    private static SpeedRivals near(CombRefiner.Refined refined, AnglePrior prior) {
        ShaftAngle angle = refined.angle();
        double speedHz = middleHz(angle);
        return rivals(
                refined, prior, speedHz * (1 - 1.5 * NEAR_RATIO), speedHz * (1 + 1.5 * NEAR_RATIO));
    }

    /** The sharpest of those that the readings do not contradict, or of all. */
    private static CombRefiner.Refined best(
            List<CombRefiner.Refined> candidates, double[] t, double[] hz) {
        CombRefiner.Refined best = candidates.get(0);
        if (candidates.size() == 1) {
            return best;
        }
        boolean bestFits = ReadingLag.of(best.angle(), t, hz).fits();
        for (CombRefiner.Refined next : candidates.subList(1, candidates.size())) {
            boolean fits = ReadingLag.of(next.angle(), t, hz).fits();
            boolean sharper = next.sharpness() > best.sharpness();
            if (fits == bestFits ? sharper : fits) {
                best = next;
                bestFits = fits;
            }
        }
        return best;
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
                                : NOT_SHARPENED.text()));
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

    /** Holds all speeds near to an angle's own against the lines of its order spectrum. */
    private static SpeedRivals rivals(
            CombRefiner.Refined refined, AnglePrior prior, double lowHz, double highHz) {
        ShaftAngle angle = refined.angle();
        double middleHz = middleHz(angle);
        return SpeedRivals.of(refined.records(), prior, lowHz / middleHz, highHz / middleHz);
    }

    private static ShaftAngle ofPath(SpeedPath path, double durationS) {
        int n = path.timesS().length;
        double[] t = new double[n + 2];
        double[] hz = new double[n + 2];
        System.arraycopy(path.timesS(), 0, t, 1, n);
        for (int i = 0; i < n; i++) {
            hz[i + 1] = path.speedsHz()[i];
        }
        hz[0] = hz[1];
        hz[n + 1] = hz[n];
        t[n + 1] = durationS;
        double[] sigma = new double[n + 2];
        for (int i = 1; i < sigma.length; i++) {
            sigma[i] = READING_ERROR_RATIO * hz[i] * Math.sqrt(CombMap.OVER_TIME.hopS() * t[i]);
        }
        return new ShaftAngle(AnglePieces.ofSpeeds(t, hz), sigma, false);
    }
}

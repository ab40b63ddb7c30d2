package tickover.order;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;

/**
 * Speeds held against the lines that a record shows over the angle of one of them: the angle's own,
 * its multiples, and all between, for a belt-driven line can pass for the firing order of any
 * speed.
 */
final class SpeedRivals {
    /** Another speed that scores this part of the best leaves it undecided. */
    private static final double RIVAL_RATIO = 0.9;

    /**
     * Every speed is looked at this far from the angle's own; a pulley turns some times as fast.
     */
    private static final double WIDEST_RATIO = 1.6;

    /** Further away only simple multiples share enough lines to be taken for it. */
    private static final double[] MULTIPLES = {0.25, 1.0 / 3, 0.5, 2, 3, 4};

    /** And what is so near to these. */
    private static final double MULTIPLE_RATIO = 0.003;

    private static final double FLAT_RATIO = 0.98;

    /** Steps of the search, by which no line moves by half a bin. */
    private static final double STEP_RATIO = 0.0006;

    /** Speeds nearer than this share their lines, and are the same. */
    private static final double SAME_RATIO = 0.004;

    /** Speeds further away than this are rivals. */
    private static final double RIVAL_FROM_RATIO = 0.02;

    /** The same in a part of the record, whose lines are wider. */
    private static final double PART_SAME_RATIO = 0.005;

    private static final double PART_TURNS = 20;
    private static final int MOST_PARTS = 10;

    /** Noise scores up to 2, engines that were tried 6 to 11. */
    private static final double LEAST_SCORE = 3;

    private static final double LEAST_TURNS = 16;

    private final double best;
    private final double bestScore;
    private final double rival;
    private final double rivalScore;

    private SpeedRivals(double best, double bestScore, double rival, double rivalScore) {
        this.best = best;
        this.bestScore = bestScore;
        this.rival = rival;
        this.rivalScore = rivalScore;
    }

    /**
     * Compares.
     *
     * @param records what was recorded, over the same angle
     * @param prior cylinders and strokes
     * @param lowRatio lowest speed looked at, over the angle's own
     * @param highRatio highest
     */
    static SpeedRivals of(
            List<AngularRecord> records, AnglePrior prior, double lowRatio, double highRatio) {
        List<MultipleCheck> checks = new ArrayList<>();
        for (AngularRecord record : records) {
            if (!(record.lengthTurns() >= LEAST_TURNS)) {
                return new SpeedRivals(1, Double.POSITIVE_INFINITY, 1, 0);
            }
            checks.add(new MultipleCheck(record, prior));
        }
        int from = (int) Math.ceil(Math.log(lowRatio) / STEP_RATIO);
        int to = (int) Math.floor(Math.log(highRatio) / STEP_RATIO);
        double[] scores = new double[Math.max(1, to - from + 1)];
        int best = 0;
        for (int i = 0; i < scores.length; i++) {
            double multiple = Math.exp((from + i) * STEP_RATIO);
            scores[i] = Double.NEGATIVE_INFINITY;
            if (!isCandidate(multiple)) {
                continue;
            }
            scores[i] = checks.stream().mapToDouble(c -> c.score(multiple)).sum();
            best = scores[i] > scores[best] ? i : best;
        }
        // What falls away from the best to either side is its own lobe.
        int left = best;
        while (left > 0 && scores[left] > RIVAL_RATIO * scores[best]) {
            left--;
        }
        int right = best;
        while (right + 1 < scores.length && scores[right] > RIVAL_RATIO * scores[best]) {
            right++;
        }
        // Levels are held within bounds, so that the top may be flat.
        int flat = best;
        while (flat + 1 < scores.length && scores[flat + 1] > FLAT_RATIO * scores[best]) {
            flat++;
        }
        int begin = best;
        while (begin > 0 && scores[begin - 1] > FLAT_RATIO * scores[best]) {
            begin--;
        }
        int peak = (begin + flat) / 2;
        int apart = (int) (RIVAL_FROM_RATIO / STEP_RATIO);
        int rival = -1;
        for (int i = 0; i < scores.length; i++) {
            boolean other = i < Math.min(left, best - apart) || i > Math.max(right, best + apart);
            rival = other && (rival < 0 || scores[i] > scores[rival]) ? i : rival;
        }
        return new SpeedRivals(
                Math.exp((from + peak) * STEP_RATIO),
                scores[best] / checks.size(),
                rival < 0 ? 1 : Math.exp((from + rival) * STEP_RATIO),
                rival < 0 ? 0 : scores[rival] / checks.size());
    }

    private static boolean isCandidate(double multiple) {
        double log = Math.log(multiple);
        return Math.abs(log) < Math.log(WIDEST_RATIO)
                || Arrays.stream(MULTIPLES)
                        .anyMatch(m -> Math.abs(Math.log(m) - log) < MULTIPLE_RATIO);
    }

    /**
     * Whether every part of the records, looked at by itself, tells the angle's own speed.
     *
     * @param reachRatio how far around it is looked
     */
    static boolean agreeThroughout(
            List<AngularRecord> records, AnglePrior prior, double reachRatio) {
        double length = records.get(0).lengthTurns();
        int parts = (int) Math.max(1, Math.min(MOST_PARTS, length / PART_TURNS));
        for (int p = 0; p < parts; p++) {
            List<AngularRecord> part = new ArrayList<>();
            for (AngularRecord record : records) {
                int n = record.values().length;
                part.add(record.part(p * n / parts, (p + 1) * n / parts));
            }
            SpeedRivals rivals = of(part, prior, 1 - reachRatio, 1 + reachRatio);
            if (!(Math.abs(Math.log(rivals.best)) < PART_SAME_RATIO)) {
                return false;
            }
        }
        return true;
    }

    /** The speed that explains the lines best, over the angle's own. */
    double best() {
        return best;
    }

    /** The next best that is another speed, over the angle's own. */
    double rival() {
        return rival;
    }

    /** Whether the best is the angle's own speed. */
    boolean agree() {
        return Math.abs(Math.log(best)) < SAME_RATIO;
    }

    /** Whether the best stands clear of all others. */
    boolean decided() {
        return bestScore > LEAST_SCORE && rivalScore <= RIVAL_RATIO * bestScore;
    }
}

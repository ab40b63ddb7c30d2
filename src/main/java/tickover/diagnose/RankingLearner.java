package tickover.diagnose;

import java.util.ArrayList;
import java.util.BitSet;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;

/**
 * Learns the weights of {@link RankingModel} from visits whose truth is known.
 *
 * <p>Maximises the log-likelihood of the true component, plus a share of that of its true fault,
 * less a ridge that pulls every weight but the prior towards 0. Gradient ascent with a step that
 * grows while it climbs; the problem is small. Thread: one.
 */
public final class RankingLearner {
    /** How much naming the fault right counts beside naming the part right. */
    private static final double FAULT_SHARE = 0.3;

    private static final int STEPS = 4000;
    private static final double SMALLEST_STEP = 1e-7;
    private static final double FIRST_STEP = 0.02;

    /** Before anything is learned a fault is less likely than none. */
    private static final double FIRST_PRIOR = -2;

    /** Keeps the logarithm of a probability finite. */
    private static final double LEAST_PROBABILITY = 1e-12;

    private final List<Example> examples = new ArrayList<>();
    private final double ridge;

    private record Example(List<SuspectClues> suspects, BitSet right, BitSet exact) {}

    /**
     * Prepares an empty learner.
     *
     * @param ridge strength of the pull towards 0, per squared weight, &gt;= 0
     */
    public RankingLearner(double ridge) {
        if (!(ridge >= 0)) {
            throw new IllegalArgumentException("ridge=" + ridge + ", need >= 0");
        }
        this.ridge = ridge;
    }

    /**
     * Adds a visit.
     *
     * @param evidence the visit
     * @param component the true component, {@code none} for a healthy engine
     * @param fault the true fault
     */
    public void add(VisitEvidence evidence, String component, Fault fault) {
        Objects.requireNonNull(component, "component");
        List<SuspectClues> suspects = evidence.suspects();
        int n = suspects.size();
        BitSet right = new BitSet(n + 1);
        BitSet exact = new BitSet(n + 1);
        boolean faultIsListed = false;
        for (int i = 0; i < n; i++) {
            Suspect s = suspects.get(i).suspect();
            right.set(i, s.component().equals(component));
            exact.set(i, right.get(i) && s.fault() == fault);
            faultIsListed |= exact.get(i);
        }
        right.set(n, component.equals(Candidate.NONE));
        exact.set(n, right.get(n));
        if (!faultIsListed && !right.get(n)) {
            exact.or(right);
        }
        examples.add(new Example(suspects, right, exact));
    }

    /**
     * Learns the weights.
     *
     * @return the model
     */
    public RankingModel learn() {
        Map<FaultGroup, Clues> weights = new EnumMap<>(FaultGroup.class);
        for (FaultGroup group : FaultGroup.values()) {
            weights.put(group, new Clues().set(Clue.PRIOR, FIRST_PRIOR));
        }
        RankingModel model = new RankingModel(weights);
        double value = value(model, weights);
        double step = FIRST_STEP;
        for (int i = 0; i < STEPS && step > SMALLEST_STEP; i++) {
            Map<FaultGroup, Clues> next = climb(weights, gradient(model, weights), step);
            RankingModel tried = new RankingModel(next);
            double reached = value(tried, next);
            if (reached > value) {
                weights = next;
                model = tried;
                value = reached;
                step *= 1.1;
            } else {
                step *= 0.5;
            }
        }
        return model;
    }

    private static Map<FaultGroup, Clues> climb(
            Map<FaultGroup, Clues> weights, Map<FaultGroup, double[]> gradient, double step) {
        Map<FaultGroup, Clues> next = new EnumMap<>(FaultGroup.class);
        weights.forEach(
                (group, w) -> {
                    double[] moved = w.toArray();
                    double[] g = gradient.get(group);
                    for (int c = 0; c < moved.length; c++) {
                        moved[c] += step * g[c];
                    }
                    next.put(group, Clues.ofArray(moved));
                });
        return next;
    }

    private double value(RankingModel model, Map<FaultGroup, Clues> weights) {
        double sum = 0;
        for (Example e : examples) {
            double[] p = model.probabilities(e.suspects());
            sum += Math.log(total(p, e.right()) + LEAST_PROBABILITY);
            sum += FAULT_SHARE * Math.log(total(p, e.exact()) + LEAST_PROBABILITY);
        }
        double penalty = 0;
        for (Clues w : weights.values()) {
            penalty += w.dot(w) - w.get(Clue.PRIOR) * w.get(Clue.PRIOR);
        }
        return sum - ridge * penalty;
    }

    private Map<FaultGroup, double[]> gradient(RankingModel model, Map<FaultGroup, Clues> weights) {
        Map<FaultGroup, double[]> g = new EnumMap<>(FaultGroup.class);
        weights.forEach(
                (group, w) -> {
                    double[] pull = w.toArray();
                    for (int c = 0; c < pull.length; c++) {
                        pull[c] *= -2 * ridge;
                    }
                    g.put(group, pull);
                });
        // The prior is not pulled.
        weights.forEach(
                (group, w) -> {
                    double[] free = new Clues().set(Clue.PRIOR, w.get(Clue.PRIOR)).toArray();
                    for (int c = 0; c < free.length; c++) {
                        g.get(group)[c] += 2 * ridge * free[c];
                    }
                });
        for (Example e : examples) {
            double[] p = model.probabilities(e.suspects());
            double right = total(p, e.right()) + LEAST_PROBABILITY;
            double exact = total(p, e.exact()) + LEAST_PROBABILITY;
            for (int i = 0; i < e.suspects().size(); i++) {
                double pull =
                        (e.right().get(i) ? p[i] / right : 0)
                                + FAULT_SHARE * (e.exact().get(i) ? p[i] / exact : 0)
                                - (1 + FAULT_SHARE) * p[i];
                double[] row = g.get(e.suspects().get(i).suspect().group());
                double[] clues = e.suspects().get(i).clues().toArray();
                for (int c = 0; c < clues.length; c++) {
                    row[c] += pull * clues[c];
                }
            }
        }
        return g;
    }

    private static double total(double[] p, BitSet which) {
        double sum = 0;
        for (int i = 0; i < p.length; i++) {
            sum += which.get(i) ? p[i] : 0;
        }
        return sum;
    }
}

package tickover.diagnose;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.BitSet;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;

/**
 * Learns the weights of {@link RankingModel} from visits whose truth is known.
 *
 * <p>Maximises the log-likelihood of the true component, plus a share of that of its true fault,
 * less a ridge that pulls every weight towards 0, the prior only gently. Thread: one.
 */
public final class RankingLearner {
    /** How much naming the fault right counts beside naming the part right. */
    private static final double FAULT_SHARE = 0.3;

    /** The prior is pulled this much less than the other weights. */
    private static final double PRIOR_RIDGE_RATIO = 0.02;

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
        add(evidence.suspects(), Objects.requireNonNull(component, "component"), fault);
    }

    void add(List<SuspectClues> suspects, String component, Fault fault) {
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
        double[] start = new double[FaultGroup.values().length * Clues.COUNT];
        for (int g = 0; g < FaultGroup.values().length; g++) {
            start[g * Clues.COUNT] = FIRST_PRIOR;
        }
        return model(new QuasiNewton(this::value, this::gradient).climb(start));
    }

    /** Weights one group after another, each in the order of {@link Clue}, the prior first. */
    private static RankingModel model(double[] weights) {
        Map<FaultGroup, Clues> map = new EnumMap<>(FaultGroup.class);
        int from = 0;
        for (FaultGroup group : FaultGroup.values()) {
            map.put(group, Clues.ofArray(Arrays.copyOfRange(weights, from, from + Clues.COUNT)));
            from += Clues.COUNT;
        }
        return new RankingModel(map);
    }

    private double ridgeOf(int weight) {
        return weight % Clues.COUNT == 0 ? PRIOR_RIDGE_RATIO * ridge : ridge;
    }

    private double value(double[] weights) {
        RankingModel model = model(weights);
        double sum = 0;
        for (Example e : examples) {
            double[] p = model.probabilities(e.suspects());
            sum += Math.log(total(p, e.right()) + LEAST_PROBABILITY);
            sum += FAULT_SHARE * Math.log(total(p, e.exact()) + LEAST_PROBABILITY);
        }
        for (int i = 0; i < weights.length; i++) {
            sum -= ridgeOf(i) * weights[i] * weights[i];
        }
        return sum;
    }

    private double[] gradient(double[] weights) {
        RankingModel model = model(weights);
        double[] g = new double[weights.length];
        for (int i = 0; i < g.length; i++) {
            g[i] = -2 * ridgeOf(i) * weights[i];
        }
        for (Example e : examples) {
            double[] p = model.probabilities(e.suspects());
            double right = total(p, e.right()) + LEAST_PROBABILITY;
            double exact = total(p, e.exact()) + LEAST_PROBABILITY;
            for (int i = 0; i < e.suspects().size(); i++) {
                double pull =
                        (e.right().get(i) ? p[i] / right : 0)
                                + FAULT_SHARE * (e.exact().get(i) ? p[i] / exact : 0)
                                - (1 + FAULT_SHARE) * p[i];
                SuspectClues s = e.suspects().get(i);
                int from = Arrays.asList(FaultGroup.values()).indexOf(s.suspect().group());
                double[] clues = s.clues().toArray();
                for (int c = 0; c < clues.length; c++) {
                    g[from * Clues.COUNT + c] += pull * clues[c];
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

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
 * less a ridge that pulls the weights of a clue towards each other over the groups of faults, and
 * their mean gently towards 0: what is met seldom borrows from what is met often. Weights keep the
 * sign that {@link Clue#sign} allows: those are squares of what is sought.
 *
 * <p>What is learned so is not sure enough, because ridge and visits seen in part hold it back. So
 * at the end all weights are multiplied by one number, at least 1 and at most 1.55, the one with
 * which models that were learned on four fifths of the visits say most of the others, seen whole.
 * Thread: one.
 */
public final class RankingLearner {
    /** How much naming the fault right counts beside naming the part right. */
    private static final double FAULT_SHARE = 0.3;

    /** The mean over the groups is pulled to 0 this much less than the groups to each other. */
    private static final double MEAN_RIDGE_RATIO = 0.2;

    /** The same for how often a fault is met, to and around {@link #FIRST_PRIOR}. */
    private static final double PRIOR_RIDGE_RATIO = 0.3;

    private static final double PRIOR_MEAN_RIDGE_RATIO = 0.02;

    /** Before anything is learned a fault of one suspect is less likely than none. */
    private static final double FIRST_PRIOR = -3;

    /** Where the search for a weight of known sign begins. */
    private static final double FIRST_ROOT = 0.4;

    /** Keeps the logarithm of a probability finite. */
    private static final double LEAST_PROBABILITY = 1e-12;

    private static final int FOLDS = 5;

    /** With fewer visits than this nothing is left out to see how sure to be. */
    private static final int LEAST_VISITS = 50;

    private static final double SHARPNESS_STEP = 0.05;
    private static final int SHARPNESS_STEPS = 12;

    private final List<Example> examples = new ArrayList<>();
    private final double ridge;
    private int visits;

    /** A visit, whole or in part; parts have the number of their visit. */
    private record Example(
            int visit, boolean whole, List<SuspectClues> suspects, BitSet right, BitSet exact) {}

    /**
     * Prepares an empty learner.
     *
     * @param ridge strength of the pull of like groups' weights to each other, &gt;= 0
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
        add(evidence.suspects(), component, fault);
    }

    /**
     * Adds the last visit once more, some of it left out.
     *
     * @param evidence the rest of it
     * @param component as for the whole
     * @param fault as for the whole
     */
    public void addPartial(VisitEvidence evidence, String component, Fault fault) {
        addPartial(evidence.suspects(), component, fault);
    }

    void add(List<SuspectClues> suspects, String component, Fault fault) {
        visits++;
        add(true, suspects, component, fault);
    }

    void addPartial(List<SuspectClues> suspects, String component, Fault fault) {
        if (visits == 0) {
            throw new IllegalStateException("a partial visit before any whole one");
        }
        add(false, suspects, component, fault);
    }

    private void add(boolean whole, List<SuspectClues> suspects, String component, Fault fault) {
        Objects.requireNonNull(component, "component");
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
        examples.add(new Example(visits, whole, suspects, right, exact));
    }

    /**
     * Learns the weights.
     *
     * @return the model
     */
    public RankingModel learn() {
        double sharpness = visits < LEAST_VISITS ? 1 : sharpness();
        return model(scaled(fit(examples), sharpness));
    }

    private double[] fit(List<Example> on) {
        double[] start = new double[SIGNS.length];
        for (int i = 0; i < start.length; i++) {
            start[i] = SIGNS[i] != 0 ? FIRST_ROOT : i % Clues.COUNT == 0 ? FIRST_PRIOR : 0;
        }
        return weights(
                new QuasiNewton(sought -> value(on, sought), sought -> gradient(on, sought))
                        .climb(start));
    }

    /** By how much all weights have to be multiplied to say most of visits not learned from. */
    private double sharpness() {
        double[] said = new double[SHARPNESS_STEPS];
        for (int fold = 0; fold < FOLDS; fold++) {
            int out = fold;
            double[] weights =
                    fit(examples.stream().filter(e -> e.visit() % FOLDS != out).toList());
            for (int step = 0; step < said.length; step++) {
                RankingModel model = model(scaled(weights, 1 + step * SHARPNESS_STEP));
                said[step] +=
                        examples.stream()
                                .filter(e -> e.whole() && e.visit() % FOLDS == out)
                                .mapToDouble(e -> logRight(model, e))
                                .sum();
            }
        }
        int best = 0;
        for (int step = 1; step < said.length; step++) {
            best = said[step] > said[best] ? step : best;
        }
        return 1 + best * SHARPNESS_STEP;
    }

    private static double logRight(RankingModel model, Example e) {
        return Math.log(total(model.probabilities(e.suspects()), e.right()) + LEAST_PROBABILITY);
    }

    private static double[] scaled(double[] weights, double factor) {
        return Arrays.stream(weights).map(w -> w * factor).toArray();
    }

    private static final int[] SIGNS = signs();

    private static int[] signs() {
        List<Integer> signs = new ArrayList<>();
        for (FaultGroup group : FaultGroup.values()) {
            for (Clue clue : Clue.values()) {
                signs.add(clue.sign(group));
            }
        }
        return signs.stream().mapToInt(Integer::intValue).toArray();
    }

    private static double[] weights(double[] sought) {
        double[] w = new double[sought.length];
        Arrays.setAll(w, i -> SIGNS[i] == 0 ? sought[i] : SIGNS[i] * sought[i] * sought[i]);
        return w;
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

    private static final List<FaultGroup> GROUPS = List.of(FaultGroup.values());

    /** What comes once per working cycle is another kind of thing than a rhythm of its own. */
    private static boolean alike(int groupA, int groupB) {
        return GROUPS.get(groupA).isOfCycle() == GROUPS.get(groupB).isOfCycle();
    }

    /** Mean weight of a clue over the groups that are like one. */
    private static double mean(double[] weights, int weight) {
        double sum = 0;
        int count = 0;
        for (int g = 0; g < FaultGroup.values().length; g++) {
            if (alike(g, weight / Clues.COUNT)) {
                sum += weights[g * Clues.COUNT + weight % Clues.COUNT];
                count++;
            }
        }
        return sum / count;
    }

    private double pull(double[] weights, double[] gradient) {
        double sum = 0;
        for (int i = 0; i < weights.length; i++) {
            boolean prior = i % Clues.COUNT == 0;
            double apart = ridge * (prior ? PRIOR_RIDGE_RATIO : 1);
            double all = ridge * (prior ? PRIOR_MEAN_RIDGE_RATIO : MEAN_RIDGE_RATIO);
            double mean = mean(weights, i);
            double off = mean - (prior ? FIRST_PRIOR : 0);
            double own = weights[i] - mean;
            sum -= apart * own * own + all * off * off;
            gradient[i] -= 2 * apart * own + 2 * all * off;
        }
        return sum;
    }

    private double value(List<Example> on, double[] sought) {
        double[] weights = weights(sought);
        RankingModel model = model(weights);
        double sum = pull(weights, new double[weights.length]);
        for (Example e : on) {
            double[] p = model.probabilities(e.suspects());
            sum += Math.log(total(p, e.right()) + LEAST_PROBABILITY);
            sum += FAULT_SHARE * Math.log(total(p, e.exact()) + LEAST_PROBABILITY);
        }
        return sum;
    }

    private double[] gradient(List<Example> on, double[] sought) {
        double[] weights = weights(sought);
        RankingModel model = model(weights);
        double[] g = new double[weights.length];
        pull(weights, g);
        for (Example e : on) {
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
        for (int i = 0; i < g.length; i++) {
            g[i] *= SIGNS[i] == 0 ? 1 : 2 * SIGNS[i] * sought[i];
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

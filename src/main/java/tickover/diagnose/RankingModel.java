package tickover.diagnose;

import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.util.Arrays;
import java.util.EnumMap;
import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Objects;
import java.util.Properties;
import java.util.TreeMap;

/**
 * Turns clues into probabilities.
 *
 * <p>Each suspect scores the weighed sum of its clues, with weights of its own for each {@link
 * FaultGroup}; a healthy engine scores 0. Probabilities are the exponentials of the scores over
 * their sum (conditional logit). The weights are learned by {@link RankingLearner}.
 */
public final class RankingModel {
    /** Share of healthy engines among the visits that the weights are learned on. */
    private static final double HEALTHY_SHARE = 0.25;

    private static final String LEARNED = "ranking-weights.properties";

    private final Map<FaultGroup, Clues> weights;

    RankingModel(Map<FaultGroup, Clues> weights) {
        this.weights = new EnumMap<>(FaultGroup.class);
        for (FaultGroup group : FaultGroup.values()) {
            this.weights.put(
                    group, Objects.requireNonNull(weights.get(group), "weights of " + group));
        }
    }

    /**
     * Loads the weights that come with the program.
     *
     * @return the model
     */
    public static RankingModel learned() {
        Properties p = new Properties();
        try (InputStream in = RankingModel.class.getResourceAsStream(LEARNED)) {
            p.load(Objects.requireNonNull(in, LEARNED));
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
        Map<FaultGroup, Clues> weights = new EnumMap<>(FaultGroup.class);
        for (FaultGroup group : FaultGroup.values()) {
            Clues w = new Clues();
            for (Clue clue : Clue.values()) {
                w.set(clue, Double.parseDouble(p.getProperty(key(group, clue), "0")));
            }
            weights.put(group, w);
        }
        return new RankingModel(weights);
    }

    /**
     * Writes the weights as lines of {@code group.clue=number}.
     *
     * @return text for the resource file
     */
    public String toText() {
        StringBuilder s = new StringBuilder();
        for (FaultGroup group : FaultGroup.values()) {
            for (Clue clue : Clue.values()) {
                s.append(
                        String.format(
                                Locale.ROOT,
                                "%s=%.4f\n",
                                key(group, clue),
                                weights.get(group).get(clue)));
            }
        }
        return s.toString();
    }

    private static String key(FaultGroup group, Clue clue) {
        return group.name().toLowerCase(Locale.ROOT) + "." + clue.name().toLowerCase(Locale.ROOT);
    }

    double score(SuspectClues suspect) {
        return weights.get(suspect.suspect().group()).dot(suspect.clues());
    }

    /**
     * Probability of each suspect, and last of a healthy engine; they add up to 1. A part with two
     * bearings is not twice as likely to be at fault: suspects that differ only in detail share.
     */
    double[] probabilities(List<SuspectClues> suspects) {
        Map<String, Integer> alike = new HashMap<>();
        for (SuspectClues s : suspects) {
            alike.merge(kin(s.suspect()), 1, Integer::sum);
        }
        double[] p = new double[suspects.size() + 1];
        for (int i = 0; i < suspects.size(); i++) {
            SuspectClues s = suspects.get(i);
            p[i] = score(s) - Math.log(alike.get(kin(s.suspect())));
        }
        double top = Arrays.stream(p).max().orElse(0);
        double sum = 0;
        for (int i = 0; i < p.length; i++) {
            p[i] = Math.exp(p[i] - top);
            sum += p[i];
        }
        for (int i = 0; i < p.length; i++) {
            p[i] /= sum;
        }
        return p;
    }

    /**
     * Probabilities where nothing was heard: a healthy engine as often as among the visits that the
     * weights were learned on, every component as likely as any other.
     */
    static double[] unheard(List<SuspectClues> suspects) {
        Map<String, Integer> sizes = new HashMap<>();
        for (SuspectClues s : suspects) {
            sizes.merge(s.suspect().component(), 1, Integer::sum);
        }
        double[] p = new double[suspects.size() + 1];
        for (int i = 0; i < suspects.size(); i++) {
            int size = sizes.get(suspects.get(i).suspect().component());
            p[i] = (1 - HEALTHY_SHARE) / sizes.size() / size;
        }
        p[suspects.size()] = suspects.isEmpty() ? 1 : HEALTHY_SHARE;
        return p;
    }

    private static String kin(Suspect s) {
        return s.component() + ' ' + s.fault() + ' ' + s.group();
    }

    /** Contribution of each clue to a suspect's score. */
    Map<Clue, Double> contributions(SuspectClues suspect) {
        Clues w = weights.get(suspect.suspect().group());
        Map<Clue, Double> out = new TreeMap<>();
        for (Clue clue : Clue.values()) {
            out.put(clue, w.get(clue) * suspect.clue(clue));
        }
        return out;
    }
}

package tickover.diagnose;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Test;

class RankingLearnerTest {
    private static final double ROUND_OFF = 1e-12;

    @Test
    void probabilitiesAddUpToOne() {
        double[] p = RankingModel.learned().probabilities(List.of(suspect("idler", 1)));
        assertEquals(2, p.length);
        assertEquals(1, p[0] + p[1], ROUND_OFF);
    }

    @Test
    void twoSuspectsThatDifferOnlyInDetailShare() {
        RankingModel model = RankingModel.learned();
        double one = model.probabilities(List.of(suspect("idler", 1)))[0];
        double[] two = model.probabilities(List.of(suspect("idler", 1), suspect("idler", 1)));
        assertEquals(one, two[0] + two[1], ROUND_OFF);
    }

    @Test
    void everyGroupHasLearnedWeights() {
        for (FaultGroup group : FaultGroup.values()) {
            SuspectClues bare = suspect(group, "x", new Clues().set(Clue.PRIOR, 1));
            double score = RankingModel.learned().score(bare);
            assertTrue(score < 0, group + " without any sign scores " + score);
        }
    }

    @Test
    void weightsSurviveBeingWritten() {
        String text = RankingModel.learned().toText();
        long weights = (long) FaultGroup.values().length * Clue.values().length;
        assertEquals(weights, text.lines().count());
        assertTrue(
                text.lines().allMatch(l -> l.matches("[a-z_]+\\.[a-z_]+=-?\\d+\\.\\d{4}")), text);
    }

    /** Visits seen in part hold a model back that is used on whole ones. */
    @Test
    void modelIsAsSureAsVisitsLeftOutBearOut() {
        RankingLearner learner = new RankingLearner(0.5);
        Random random = new Random(8);
        for (int visit = 0; visit < 120; visit++) {
            String faulty = visit % 2 == 0 ? "idler" : "alternator";
            learner.add(visit(faulty, 2, random), faulty, Fault.BEARING_OUTER_RING);
            for (int part = 0; part < 2; part++) {
                learner.addPartial(visit(faulty, 1, random), faulty, Fault.BEARING_OUTER_RING);
            }
        }
        RankingModel model = learner.learn();
        double learned = 0;
        double surer = 0;
        for (int visit = 0; visit < 400; visit++) {
            List<SuspectClues> fresh = visit("idler", 2, random);
            double margin = model.score(fresh.get(0)) - model.score(fresh.get(1));
            learned -= Math.log1p(Math.exp(-margin));
            surer -= Math.log1p(Math.exp(-1.3 * margin));
        }
        assertTrue(learned > surer, learned + ", surer " + surer);
    }

    private static List<SuspectClues> visit(String faulty, double clear, Random random) {
        return List.of("idler", "alternator").stream()
                .map(
                        part ->
                                suspect(
                                        part,
                                        (part.equals(faulty) ? clear : 0) + random.nextGaussian()))
                .toList();
    }

    private static SuspectClues suspect(String component, double rhythm) {
        return suspect(
                FaultGroup.BEARING_LINE,
                component,
                new Clues().set(Clue.PRIOR, 1).set(Clue.COMB, rhythm));
    }

    private static SuspectClues suspect(FaultGroup group, String component, Clues clues) {
        Suspect s =
                new Suspect(
                        component,
                        Fault.BEARING_OUTER_RING,
                        group,
                        "",
                        component,
                        new Suspect.Rhythm(1, 1, 1, 0.01, List.of()));
        return new SuspectClues(s, clues, 1, 0, 0, "", 0, 0, 0);
    }
}

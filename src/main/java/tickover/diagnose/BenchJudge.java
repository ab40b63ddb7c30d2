package tickover.diagnose;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;

/**
 * Weighs the signs of a bearing's faults against each other and against a sound bearing.
 *
 * <p>Each fault gets a score in nats: the evidence of its pattern (minus the logarithm of its
 * false-alarm probability), moved by how deep the pattern modulates the envelope. Certainty alone
 * would not do: in a long record a sound bearing's faint rhythm is certain too. A spot on a race is
 * struck by every ball and swings the envelope by a third of its mean and more; a faint but certain
 * race line is rather what a rough ball leaves on both races. Scores become probabilities by the
 * usual exponential rule at a temperature, against a fixed score for a sound bearing.
 *
 * <p>Two numbers are fitted to recordings, {@link #soundScoreNats} and {@link #temperature}; {@code
 * docs/bench.md} tells how and what a cross-validation gives.
 */
final class BenchJudge {
    /** The judge that answers users. */
    static final BenchJudge FITTED = new BenchJudge(5, 0.8);

    /** Below it nothing is named. */
    private static final double NEEDED_PROBABILITY = 0.5;

    /** What a race fault modulates at least, and what weighs neither way. */
    private static final double RACE_MODULATION = 0.25;

    private static final double RACE_DEPTH_WEIGHT = 3;
    private static final double RACE_DEPTH_LOWEST_NATS = -8;
    private static final double DEPTH_HIGHEST_NATS = 3;

    /** Above it a race line is the race's own and no longer a rough ball's. */
    private static final double FAINT_RACE_MODULATION = 0.12;

    private static final double FAINT_RACE_WEIGHT = 4;
    private static final double FAINT_RACE_CHARGE_NATS = 1;
    private static final double FAINT_RACE_LOWEST_NATS = -9;

    /** Below it a race's or cage's rhythm is that of a sound bearing's own unevenness. */
    private static final double SOUND_MODULATION = 0.1;

    private static final double SOUND_WEIGHT = 8;
    private static final double SOUND_LOWEST_NATS = -8;

    private static final double BALL_MODULATION = 0.15;
    private static final double BALL_DEPTH_WEIGHT = 1.5;
    private static final double BALL_DEPTH_LOWEST_NATS = -1.5;
    private static final double BALL_DEPTH_HIGHEST_NATS = 2;

    /**
     * Cages of neighbouring bearings are a few per cent of 0.4 orders apart; fewer turns than this
     * do not part them, so cage evidence counts in proportion.
     */
    private static final double TURNS_TO_PART_CAGES = 200;

    /** A ball modulates the cage's rhythm by less; a cage that strikes, by more. */
    private static final double CAGE_MODULATION = 0.5;

    private static final double CAGE_DEPTH_WEIGHT = 4;
    private static final double CAGE_DEPTH_LOWEST_NATS = -6;

    /** Ball evidence that chance gives and that does not speak against a cage. */
    private static final double BALL_BY_CHANCE_NATS = 2;

    /**
     * Share of faulty bearings that leave no pattern: five of the thirty records that the fit was
     * made on. So a silent record is never certain to be sound.
     */
    private static final double SILENT_OUTER_RATIO = 0.06;

    private static final double SILENT_INNER_RATIO = 0.04;
    private static final double SILENT_BALL_RATIO = 0.06;
    private static final double SILENT_CAGE_RATIO = 0.01;

    /** Share of records that are something else than any of this, spread over all verdicts. */
    private static final double STRANGE_RATIO = 0.03;

    private final double soundScoreNats;
    private final double temperature;

    /**
     * Makes a judge.
     *
     * @param soundScoreNats score of a sound bearing, nats
     * @param temperature how many nats of score count as one nat of odds, &gt; 0
     */
    BenchJudge(double soundScoreNats, double temperature) {
        if (!(temperature > 0)) {
            throw new IllegalArgumentException("temperature=" + temperature + ", need > 0");
        }
        this.soundScoreNats = soundScoreNats;
        this.temperature = temperature;
    }

    /** Odds of every verdict but unclear, likeliest first. */
    List<BenchOdds> odds(BearingSigns signs, double turns) {
        double sound = 1;
        double outer = weight(raceScore(signs.outerRing())) + SILENT_OUTER_RATIO;
        double inner = weight(raceScore(signs.innerRing())) + SILENT_INNER_RATIO;
        double ball = weight(ballScore(signs, turns)) + SILENT_BALL_RATIO;
        double cage = weight(cageScore(signs, turns)) + SILENT_CAGE_RATIO;
        double sum = sound + outer + inner + ball + cage;
        List<BenchOdds> odds = new ArrayList<>();
        odds.add(odds(BenchVerdict.HEALTHY, sound / sum));
        odds.add(odds(BenchVerdict.OUTER_RING, outer / sum));
        odds.add(odds(BenchVerdict.INNER_RING, inner / sum));
        odds.add(odds(BenchVerdict.ROLLING_ELEMENT, ball / sum));
        odds.add(odds(BenchVerdict.CAGE, cage / sum));
        odds.sort(Comparator.comparingDouble(BenchOdds::probability).reversed());
        return odds;
    }

    /** The likeliest, or unclear if it is not likely enough. */
    static BenchVerdict verdict(List<BenchOdds> odds) {
        BenchOdds first = odds.get(0);
        return first.probability() >= NEEDED_PROBABILITY ? first.verdict() : BenchVerdict.UNCLEAR;
    }

    private static BenchOdds odds(BenchVerdict verdict, double share) {
        int verdicts = 5;
        return new BenchOdds(verdict, (1 - STRANGE_RATIO) * share + STRANGE_RATIO / verdicts);
    }

    private double weight(double scoreNats) {
        // Beyond this the odds are decided and the exponential would overflow.
        double highest = 300;
        return Math.exp(Math.min(highest, (scoreNats - soundScoreNats) / temperature));
    }

    private static double raceScore(CombFinding race) {
        return race.evidenceNats()
                + depth(
                        race,
                        RACE_MODULATION,
                        RACE_DEPTH_WEIGHT,
                        RACE_DEPTH_LOWEST_NATS,
                        DEPTH_HIGHEST_NATS);
    }

    private static double ballScore(BearingSigns signs, double turns) {
        CombFinding spin = signs.ballSpin();
        double strikes =
                spin.evidenceNats()
                        + depth(
                                spin,
                                BALL_MODULATION,
                                BALL_DEPTH_WEIGHT,
                                BALL_DEPTH_LOWEST_NATS,
                                BALL_DEPTH_HIGHEST_NATS);
        double rhythm =
                cageEvidence(signs, turns)
                        + depth(signs.cage(), BALL_MODULATION, 1, -1, 0)
                        + depth(signs.cage(), SOUND_MODULATION, SOUND_WEIGHT, SOUND_LOWEST_NATS, 0);
        double faintRaces =
                Math.max(faintRaceScore(signs.outerRing()), faintRaceScore(signs.innerRing()));
        return Math.max(strikes, Math.max(rhythm, faintRaces));
    }

    private static double faintRaceScore(CombFinding race) {
        return race.evidenceNats()
                - FAINT_RACE_CHARGE_NATS
                + depth(race, FAINT_RACE_MODULATION, -FAINT_RACE_WEIGHT, FAINT_RACE_LOWEST_NATS, 0)
                + depth(race, SOUND_MODULATION, SOUND_WEIGHT, SOUND_LOWEST_NATS, 0);
    }

    private static double cageScore(BearingSigns signs, double turns) {
        return cageEvidence(signs, turns)
                + depth(
                        signs.cage(),
                        CAGE_MODULATION,
                        CAGE_DEPTH_WEIGHT,
                        CAGE_DEPTH_LOWEST_NATS,
                        DEPTH_HIGHEST_NATS)
                - Math.max(0, signs.ballSpin().evidenceNats() - BALL_BY_CHANCE_NATS);
    }

    private static double cageEvidence(BearingSigns signs, double turns) {
        return signs.cage().evidenceNats() * Math.min(1, turns / TURNS_TO_PART_CAGES);
    }

    private static double depth(
            CombFinding finding,
            double neutralModulation,
            double weight,
            double lowestNats,
            double highestNats) {
        // Only keeps the logarithm finite.
        double shallowest = 1e-3;
        double ratio = Math.max(finding.modulationRatio(), shallowest) / neutralModulation;
        return Math.max(lowestNats, Math.min(highestNats, weight * Math.log(ratio)));
    }
}

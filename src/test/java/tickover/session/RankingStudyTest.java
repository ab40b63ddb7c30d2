package tickover.session;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import tickover.session.RankingStudy.Outcome;
import tickover.sim.Workshop;

/**
 * A small run of the study whose full table stands in docs/ranking.md, on seeds that neither the
 * weights nor that table have seen.
 */
class RankingStudyTest {
    private static final long FIRST_SEED = Workshop.TEST_SEEDS_FROM + 5000;
    private static final int VISITS = 24;

    /** 62 of 88, docs/ranking.md. */
    private static final double RATE_OF_TABLE = 62.0 / 88;

    @TempDir private Path scratch;

    @Test
    void rankingFindsMostFaultsAndAccusesHardlyAnyHealthyEngine() {
        RankingStudy study = new RankingStudy(scratch, false);
        List<Outcome> outcomes = study.judge(FIRST_SEED, VISITS, 0, (done, total) -> {});
        List<Outcome> faults = outcomes.stream().filter(o -> !o.healthy()).toList();
        long right = faults.stream().filter(Outcome::rightPart).count();
        long accused = outcomes.stream().filter(Outcome::falselyAccused).count();
        // Three standard deviations of a binomial below the rate of the full table.
        double rate = RATE_OF_TABLE;
        double floor = faults.size() * rate - 3 * Math.sqrt(faults.size() * rate * (1 - rate));
        assertTrue(right >= floor, right + " of " + faults.size() + " right");
        assertTrue(accused <= 1, accused + " healthy engines accused");
    }

    @Test
    void leavesNothingBehind() throws Exception {
        new RankingStudy(scratch, false).judge(FIRST_SEED + 100, 1, 0, (done, total) -> {});
        try (var left = Files.list(scratch)) {
            assertEquals(0, left.count());
        }
    }

    @Test
    void sameSeedGivesTheSameAnswer() {
        RankingStudy study = new RankingStudy(scratch, false);
        assertEquals(
                study.judge(FIRST_SEED, 1, 0, (done, total) -> {}),
                study.judge(FIRST_SEED, 1, 0, (done, total) -> {}));
    }
}

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
    private static final int FAULTS = 18;
    private static final int HEALTHY = 6;

    @TempDir private Path scratch;

    @Test
    void rankingFindsMostFaultsAndAccusesHardlyAnyHealthyEngine() {
        RankingStudy study = new RankingStudy(scratch, false);
        List<Outcome> faults = study.judgeFaults(FIRST_SEED, FAULTS, (done, total) -> {});
        List<Outcome> healthy =
                study.judgeHealthy(FIRST_SEED + FAULTS, HEALTHY, (done, total) -> {});
        long right = faults.stream().filter(Outcome::rightPart).count();
        long accused = healthy.stream().filter(Outcome::falselyAccused).count();
        // Three standard deviations of a binomial below the rate of the full table.
        double rate = 0.74;
        double floor = FAULTS * rate - 3 * Math.sqrt(FAULTS * rate * (1 - rate));
        assertTrue(right >= floor, right + " of " + FAULTS + " right");
        assertTrue(accused <= 1, accused + " of " + HEALTHY + " accused");
    }

    @Test
    void leavesNothingBehind() throws Exception {
        new RankingStudy(scratch, false).judgeHealthy(FIRST_SEED + 100, 1, (done, total) -> {});
        try (var left = Files.list(scratch)) {
            assertEquals(0, left.count());
        }
    }

    @Test
    void sameSeedGivesTheSameAnswer() {
        RankingStudy study = new RankingStudy(scratch, false);
        assertEquals(
                study.judgeFaults(FIRST_SEED, 1, (done, total) -> {}),
                study.judgeFaults(FIRST_SEED, 1, (done, total) -> {}));
    }
}

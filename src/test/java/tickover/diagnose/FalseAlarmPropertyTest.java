package tickover.diagnose;

import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.Random;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** An unchanged vehicle is called no oftener than promised, however few its visits. */
class FalseAlarmPropertyTest {
    private static final long SEED = 20261128;
    private static final int VEHICLES = 500;
    private static final int PARTS = 12;

    /** Four standard errors of a share of 0.05 of so many vehicles. */
    private static final double SAMPLING =
            4 * Math.sqrt(VehicleTrend.FALSE_ALARMS_PER_VISIT * 0.95 / VEHICLES);

    @ParameterizedTest
    @CsvSource({"3, false", "4, false", "6, false", "12, false", "4, true", "8, true"})
    void unchangedVehiclesAreSeldomCalled(int visits, boolean scatterDiffersByPart) {
        Random random = new Random(SEED + visits);
        int called = 0;
        for (int v = 0; v < VEHICLES; v++) {
            Histories h = new Histories();
            for (int p = 0; p < PARTS; p++) {
                double scatter = scatterDiffersByPart ? 1 + random.nextDouble() * 2 : 2;
                double[] db = new double[visits];
                for (int i = 0; i < visits; i++) {
                    db[i] = 10 * p + scatter * random.nextGaussian();
                }
                h.part("p" + p, db);
            }
            VehicleTrend trend = VehicleTrend.of(h.levels(), List.of());
            called += trend.series().stream().anyMatch(j -> j.needsAttention()) ? 1 : 0;
        }
        double share = (double) called / VEHICLES;
        System.out.printf(
                "%d visits, scatter differs %b: %.1f %% called, seed %d%n",
                visits, scatterDiffersByPart, 100 * share, SEED + visits);
        assertTrue(share <= VehicleTrend.FALSE_ALARMS_PER_VISIT + SAMPLING, "called " + share);
    }
}

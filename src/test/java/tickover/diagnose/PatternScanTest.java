package tickover.diagnose;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Random;
import org.junit.jupiter.api.Test;

class PatternScanTest {
    private static final double STEP_ORDERS = 0.005;
    private static final int BINS = 20_000;
    private static final int HARMONICS = 4;

    @Test
    void combStandsOutAtItsOwnBaseOrder() {
        double[] power = noise(11);
        for (int k = 1; k <= HARMONICS; k++) {
            power[(int) Math.rint(k * 6.43 / STEP_ORDERS)] += 15;
        }
        PatternScan scan = PatternScan.of(field(power), HARMONICS);
        double clear = 8;
        assertTrue(scan.at(6.43) > clear, "score " + scan.at(6.43));
        int best = 0;
        for (int i = 0; i < PatternScan.indexOf(30); i++) {
            if (scan.at(PatternScan.orderAt(i)) > scan.at(PatternScan.orderAt(best))) {
                best = i;
            }
        }
        assertEquals(6.43, PatternScan.orderAt(best), 6.43 * 3 * PatternScan.STEP_RATIO);
    }

    @Test
    void noiseAloneRarelyLooksLikeAComb() {
        int looks = 0;
        int high = 0;
        for (int seed = 1; seed <= 20; seed++) {
            PatternScan scan = PatternScan.of(field(noise(seed)), HARMONICS);
            for (double f = 1; f < 20; f *= 1.05) {
                looks++;
                high += scan.at(f) > 6 ? 1 : 0;
            }
        }
        double rare = 0.02;
        assertTrue(high <= rare * looks, high + " of " + looks);
    }

    @Test
    void whatTheEngineMakesIsNotSeen() {
        double[] power = noise(5);
        for (double f = 0.5; f < 90; f += 0.5) {
            power[(int) Math.rint(f / STEP_ORDERS)] += 500;
        }
        PatternScan scan = PatternScan.of(field(power), HARMONICS);
        double chance = 6;
        assertTrue(scan.at(2.0) < chance, "score " + scan.at(2.0));
        assertTrue(scan.at(5.5) < chance, "score " + scan.at(5.5));
    }

    @Test
    void scaleOfTheSpectrumDoesNotMatter() {
        double[] power = noise(3);
        double[] louder = power.clone();
        for (int i = 0; i < louder.length; i++) {
            louder[i] *= 1e6;
        }
        double roundOff = 1e-9;
        assertEquals(
                PatternScan.of(field(power), HARMONICS).at(7.3),
                PatternScan.of(field(louder), HARMONICS).at(7.3),
                roundOff);
    }

    private static OrderField field(double[] power) {
        return new OrderField(STEP_ORDERS, power, 0.5, 0.02);
    }

    private static double[] noise(long seed) {
        Random random = new Random(seed);
        double[] power = new double[BINS];
        for (int i = 0; i < BINS; i++) {
            power[i] = -Math.log(1 - random.nextDouble());
        }
        return power;
    }
}

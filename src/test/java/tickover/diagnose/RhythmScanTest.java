package tickover.diagnose;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Test;

class RhythmScanTest {
    private static final double STEP_ORDERS = 0.005;
    private static final int BINS = 20_000;
    private static final int HARMONICS = 4;

    /** Noise comes this high in fewer than one base order of 50. */
    private static final double CLEAR = 5;

    @Test
    void combStandsOutAtItsOwnBaseOrder() {
        double[] power = noise(11);
        for (int k = 1; k <= HARMONICS; k++) {
            power[(int) Math.rint(k * 6.43 / STEP_ORDERS)] += 15;
        }
        RhythmScan scan = RhythmScan.of(List.of(field(power)), HARMONICS);
        double clear = CLEAR;
        assertTrue(
                scan.around(RhythmScan.indexOf(6.43)) > clear,
                "score " + scan.around(RhythmScan.indexOf(6.43)));
        int best = 0;
        for (int i = 0; i < RhythmScan.indexOf(30); i++) {
            if (scan.at(i) > scan.at(best)) {
                best = i;
            }
        }
        assertEquals(6.43, RhythmScan.orderAt(best), 6.43 * 3 * RhythmScan.STEP_RATIO);
    }

    @Test
    void noiseAloneRarelyLooksLikeAComb() {
        int looks = 0;
        int high = 0;
        for (int seed = 1; seed <= 20; seed++) {
            RhythmScan scan = RhythmScan.of(List.of(field(noise(seed))), HARMONICS);
            for (double f = 1; f < 20; f *= 1.05) {
                looks++;
                high += scan.at(RhythmScan.indexOf(f)) > CLEAR ? 1 : 0;
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
        RhythmScan scan = RhythmScan.of(List.of(field(power)), HARMONICS);
        double chance = CLEAR;
        assertTrue(
                scan.at(RhythmScan.indexOf(2.0)) < chance,
                "score " + scan.at(RhythmScan.indexOf(2.0)));
        assertTrue(
                scan.at(RhythmScan.indexOf(5.5)) < chance,
                "score " + scan.at(RhythmScan.indexOf(5.5)));
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
                RhythmScan.of(List.of(field(power)), HARMONICS).at(RhythmScan.indexOf(7.3)),
                RhythmScan.of(List.of(field(louder)), HARMONICS).at(RhythmScan.indexOf(7.3)),
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

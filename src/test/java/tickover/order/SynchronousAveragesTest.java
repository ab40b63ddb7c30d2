package tickover.order;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.OptionalDouble;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

/** Laws of averages over parts' own turns, and of the search for how fast a part turns. */
class SynchronousAveragesTest {
    private static final double RATE_HZ = 6400;
    private static final double HIGHEST_ORDERS = 40;

    /** Round-off of sums of some hundred products near one. */
    private static final double ROUND_OFF = 1e-12;

    /** Harmonics up to 20 of a part, with amplitudes and phases drawn from a seed, on a sweep. */
    private static SweptRecord part(SweptRecord record, double ratio, long seed, double size) {
        Random random = new Random(seed);
        for (int k = 1; k * ratio <= 0.5 * HIGHEST_ORDERS; k++) {
            double phase = 2 * Math.PI * random.nextDouble();
            record.add(k * ratio, 0, phase, size * random.nextDouble());
        }
        return record;
    }

    /** What repeats with the part's turn is its own average, to what resampling leaves. */
    @ParameterizedTest
    @ValueSource(doubles = {0.5, 1, 1.9643, 2.5667, Math.PI})
    void averageOfWhatRepeatsIsThatSignal(double ratio) {
        SweptRecord record = part(new SweptRecord(RATE_HZ, 900, 2400, 8), ratio, 1, 1);
        SynchronousAverages found =
                SynchronousAverages.of(record.x, RATE_HZ, record.angle, HIGHEST_ORDERS, ratio);
        // Amplitude and images of every harmonic at the edge of the kernel's pass band, 1e-5 each;
        // the table of one turn adds 1e-6.
        double bound = 2e-5 * SweptRecord.rms(record.x);
        assertEquals(0, SweptRecord.rms(found.residual()), bound);
        Random random = new Random(1);
        SynchronousAverage average = found.averages().get(0);
        for (int k = 1; k * ratio <= 0.5 * HIGHEST_ORDERS; k++) {
            double phase = 2 * Math.PI * random.nextDouble();
            double rms = random.nextDouble() / Math.sqrt(2);
            double off = Math.toRadians(average.phaseDeg(k)) - phase;
            assertEquals(rms, average.rms(k), bound, "harmonic " + k);
            assertEquals(0, 2 * rms * Math.abs(Math.sin(off / 2)), 2 * bound, "phase of " + k);
            assertTrue(average.errorRms(k) < bound, "scatter of " + k);
        }
        // One turn, and the signal over time, are the sum of the harmonics as they are stated.
        double table = 1e-5 * SweptRecord.rms(record.x);
        double[] turn = average.overOneTurn(200);
        assertEquals(sum(average, 37 / 200.0), turn[37], table);
        double[] signal = found.signal(0);
        for (int i = 0; i < signal.length; i += 1999) {
            assertEquals(sum(average, ratio * record.turnsAt(i / RATE_HZ)), signal[i], table);
        }
    }

    private static double sum(SynchronousAverage average, double turns) {
        double sum = 0;
        for (int k = 1; k <= average.harmonics(); k++) {
            double phase = Math.toRadians(average.phaseDeg(k));
            sum += Math.sqrt(2) * average.rms(k) * Math.cos(2 * Math.PI * k * turns + phase);
        }
        return sum;
    }

    /** A line that is not the part's own is cut down by the comb filter, harmonic by harmonic. */
    @ParameterizedTest
    @CsvSource({"1.9643, 5.3", "1.9643, 6.1", "1, 5.997", "2.5667, 7.05", "0.5, 3.27"})
    void otherLinesAreCutDownByTheComb(double ratio, double order) {
        SweptRecord record = new SweptRecord(RATE_HZ, 900, 2400, 8).add(order, 0, 0.7, 1);
        SynchronousAverage average =
                SynchronousAverages.of(record.x, RATE_HZ, record.angle, HIGHEST_ORDERS, ratio)
                        .averages()
                        .get(0);
        double rms = Math.sqrt(0.5);
        double largest = 0;
        for (int k = 1; k <= average.harmonics(); k++) {
            // The line's mirror image at negative frequency is cut down likewise.
            double mirror = average.combGain(-order, k);
            assertEquals(
                    average.combGain(order, k) * rms,
                    average.rms(k),
                    mirror * rms + 2e-5,
                    "harmonic " + k + " of " + average.turns() + " turns");
            largest = Math.max(largest, average.rms(k));
        }
        double nearest = Math.abs(order / ratio - Math.rint(order / ratio));
        assertTrue(largest <= 1.1 * rms / (Math.PI * average.turns() * nearest), "" + largest);
    }

    /** The comb as the textbook has it: N turns, all harmonics together, at one angle. */
    @Test
    void combOfAllHarmonicsIsTheTextbooks() {
        int turns = 7;
        int steps = 16;
        SynchronousAverage average =
                new SynchronousAverage(
                        2, turns, steps, new double[8], new double[8], new double[8]);
        for (double away = 0.01; away < 0.5; away += 0.03) {
            double textbook =
                    Math.abs(Math.sin(Math.PI * turns * away) / (turns * Math.sin(Math.PI * away)));
            double ofTurn = Math.sin(Math.PI * away) / (steps * Math.sin(Math.PI * away / steps));
            assertEquals(
                    textbook * ofTurn, average.combGain(2 * (3 + away), 3), ROUND_OFF, "" + away);
        }
        assertEquals(1, average.combGain(6, 3), 0);
        assertEquals(0, average.combGain(2 * (3 + 1.0 / turns), 3), ROUND_OFF);
    }

    @ParameterizedTest
    @ValueSource(longs = {1, 2})
    void signalsAndResidualAreTheRecord(long seed) {
        SweptRecord record = new SweptRecord(RATE_HZ, 900, 1500, 6).addNoise(1, seed);
        part(record, 1.9643, seed, 1).addConstant(9.81);
        SynchronousAverages found =
                SynchronousAverages.of(
                        record.x, RATE_HZ, record.angle, HIGHEST_ORDERS, 0.5, 1.9643, 2.5667);
        double[] sum = found.residual();
        for (int p = 0; p < 3; p++) {
            double[] signal = found.signal(p);
            for (int i = 0; i < sum.length; i++) {
                sum[i] += signal[i];
            }
        }
        assertEquals(0, SweptRecord.rms(SweptRecord.minus(sum, record.x)), ROUND_OFF);
        double mean = 0;
        for (double value : found.residual()) {
            mean += value / sum.length;
        }
        double fourSigma = 4 / Math.sqrt(sum.length);
        assertEquals(9.81, mean, fourSigma, "the mean stays");
    }

    /** Three parts in a record too short to keep them apart by averaging alone. */
    @Test
    void partsDoNotShowInEachOthersAverages() {
        SweptRecord[] alone = new SweptRecord[3];
        double[] ratios = {0.5, 1.9643, 2.5667};
        SweptRecord all = new SweptRecord(RATE_HZ, 900, 1500, 4);
        for (int p = 0; p < 3; p++) {
            alone[p] = part(new SweptRecord(RATE_HZ, 900, 1500, 4), ratios[p], p + 5, 1);
            for (int i = 0; i < all.x.length; i++) {
                all.x[i] += alone[p].x[i];
            }
        }
        SynchronousAverages found =
                SynchronousAverages.of(all.x, RATE_HZ, all.angle, HIGHEST_ORDERS, ratios);
        // What the kernel leaves of each, where the ends of the record are not averaged.
        double wanted = 1e-3;
        for (int p = 0; p < 3; p++) {
            double error = SweptRecord.rms(SweptRecord.minus(found.signal(p), alone[p].x));
            double single =
                    SweptRecord.rms(
                            SweptRecord.minus(
                                    SynchronousAverages.of(
                                                    all.x,
                                                    RATE_HZ,
                                                    all.angle,
                                                    HIGHEST_ORDERS,
                                                    ratios[p])
                                            .signal(0),
                                    alone[p].x));
            assertEquals(0, error, wanted * SweptRecord.rms(alone[p].x), "part " + p);
            assertTrue(single > 10 * error, "part " + p + " alone is off by " + single);
        }
    }

    /** Crank harmonics belong to the crank and to the working cycle; the first named has them. */
    @Test
    void whatTwoPartsShareGoesToTheFirst() {
        SweptRecord record = part(new SweptRecord(RATE_HZ, 900, 1500, 6), 1, 3, 1);
        SynchronousAverages cycleFirst =
                SynchronousAverages.of(record.x, RATE_HZ, record.angle, HIGHEST_ORDERS, 0.5, 1);
        SynchronousAverages crankFirst =
                SynchronousAverages.of(record.x, RATE_HZ, record.angle, HIGHEST_ORDERS, 1, 0.5);
        double all = SweptRecord.rms(record.x);
        double bound = 2e-5 * all;
        assertEquals(0, cycleFirst.averages().get(1).rms(), bound);
        assertEquals(0, crankFirst.averages().get(1).rms(), bound);
        assertEquals(all, crankFirst.averages().get(0).rms(), 0.01 * all);
    }

    /** Ten turns of one part are 22 of another but for 0.3 turns in the whole record. */
    @Test
    void linesTooCloseToTellApartGoToTheFirst() {
        SweptRecord record = new SweptRecord(RATE_HZ, 1200, 1200, 6).addNoise(0.1, 4);
        record.add(25.2427, 0, 1, 1);
        double[] ratios = {2.52427, 25.2452 / 22};
        SynchronousAverages found =
                SynchronousAverages.of(record.x, RATE_HZ, record.angle, HIGHEST_ORDERS, ratios);
        double noise = 5 * found.averages().get(0).errorRms();
        assertEquals(Math.sqrt(0.5), found.averages().get(0).rms(10), noise);
        assertEquals(0, found.averages().get(1).rms(22), 0);
    }

    /** Over many records the scatter within them tells how far their averages scatter. */
    @Test
    void statedErrorIsTheScatterOfTheAverages() {
        double squares = 0;
        double stated = 0;
        int records = 12;
        for (int seed = 0; seed < records; seed++) {
            SweptRecord record = new SweptRecord(RATE_HZ, 1200, 1200, 4).addNoise(1, 50 + seed);
            SynchronousAverage average =
                    SynchronousAverages.of(record.x, RATE_HZ, record.angle, HIGHEST_ORDERS, 1.3)
                            .averages()
                            .get(0);
            squares += average.rms() * average.rms() / records;
            stated += average.errorRms() * average.errorRms() / records;
            // White noise up to half the rate; the average keeps what lies below its harmonics.
            double kept = HIGHEST_ORDERS * 20 / (RATE_HZ / 2) / average.turns();
            assertEquals(Math.sqrt(kept), average.errorRms(), 0.15 * Math.sqrt(kept));
        }
        // 30 harmonics of two parts each in 12 records: 720 degrees of freedom, 4 sigma.
        double fourSigma = 4 * Math.sqrt(2.0 / 720) / 2;
        assertEquals(1, Math.sqrt(squares / stated), fourSigma);
    }

    @Test
    void refusesWhatItCannotDo() {
        SweptRecord record = new SweptRecord(RATE_HZ, 1200, 1200, 4).addNoise(1, 1);
        refuses("need above 0", record, 0);
        refuses("at most the highest order", record, HIGHEST_ORDERS + 1);
        refuses("differ by a turn", record, 1, 1.01);
        refuses("whole turns of the part", record, 0.02);
        refuses("empty", record);
    }

    private static void refuses(String saying, SweptRecord record, double... ratios) {
        IllegalArgumentException refusal =
                assertThrows(
                        IllegalArgumentException.class,
                        () ->
                                SynchronousAverages.of(
                                        record.x, RATE_HZ, record.angle, HIGHEST_ORDERS, ratios));
        assertTrue(refusal.getMessage().contains(saying), refusal.getMessage());
    }

    /** A pulley whose diameter is off by a per cent, under noise and the engine's own orders. */
    @ParameterizedTest
    @ValueSource(longs = {1, 2, 3, 4})
    void searchFindsHowFastAPartTurns(long seed) {
        Random random = new Random(seed);
        double ratio = 1.9643 * (1 + 0.014 * (2 * random.nextDouble() - 1));
        SweptRecord record = new SweptRecord(RATE_HZ, 800, 1100, 10).addNoise(1, seed);
        record.add(ratio, 0, 1, 0.1).add(2 * ratio, 0, 2, 0.05).add(2, 0, 0, 3).add(4, 0, 0, 2);
        double[] left =
                SynchronousAverages.of(record.x, RATE_HZ, record.angle, HIGHEST_ORDERS, 0.5)
                        .residual();
        AngularRecord over = AngularResampler.resample(left, RATE_HZ, record.angle, 64);
        OptionalDouble found = TurnSearch.find(over, 1.9643 * 0.985, 1.9643 * 1.015);
        double tenthOfATurn = 0.1 / over.lengthTurns();
        assertEquals(ratio, found.orElse(0), 2 * tenthOfATurn);
    }

    @Test
    void searchFindsNothingInNoise() {
        int found = 0;
        for (int seed = 0; seed < 100; seed++) {
            Random random = new Random(900 + seed);
            double[] x = new double[64 * 150];
            for (int i = 0; i < x.length; i++) {
                x[i] = random.nextGaussian();
            }
            AngularRecord record = new AngularRecord(64, 0, x);
            found += TurnSearch.find(record, 1.93, 2.0).isPresent() ? 1 : 0;
        }
        int chance = 1; // one in a thousand each
        assertTrue(found <= chance, found + " of 100");
    }
}

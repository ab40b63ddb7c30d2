package tickover.diagnose;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import org.junit.jupiter.api.Test;
import tickover.drive.BearingOrders;
import tickover.drive.Ring;

class BenchFindingsTest {
    private static final double TURNS_HZ = 29.3;
    private static final double RPM = 60 * TURNS_HZ;
    private static final double SECONDS = 6;
    private static final BearingOrders ORDERS =
            BearingOrders.of(BearingRecords.sixTwoOhThree(), Ring.OUTER);

    private static BearingRecords sound(long seed) {
        return new BearingRecords(seed, SECONDS, TURNS_HZ).noise(1).shaftHarmonics(0.3);
    }

    private static BenchTake take(BearingRecords record) {
        return BenchTake.atSpeed(
                new BenchRecord(
                        record.samples(),
                        BearingRecords.SAMPLE_RATE_HZ,
                        BearingRecords.sixTwoOhThree(),
                        Ring.OUTER),
                RPM);
    }

    private static BenchFinding.State state(BenchResult result, Fault fault) {
        return result.findings().stream()
                .filter(f -> f.fault() == fault)
                .findFirst()
                .orElseThrow()
                .state();
    }

    @Test
    void soundPartShowsNothing() {
        BenchResult result = Bench.judge(take(sound(1)), List.of());
        for (BenchFinding f : result.findings()) {
            assertEquals(BenchFinding.State.NOT_SEEN, f.state(), f.text());
        }
        assertEquals(BenchVerdict.HEALTHY, result.verdict());
    }

    @Test
    void knocksEverySecondOrThirdTurnArePlay() {
        for (int every : new int[] {2, 3}) {
            BearingRecords knocking = sound(2 + every).strikes(1.0 / every, 0, 25, 0);
            assertEquals(
                    BenchFinding.State.SEEN,
                    state(Bench.judge(take(knocking), List.of()), Fault.LOOSE),
                    "every " + every);
        }
    }

    @Test
    void knocksEveryTurnAreNoPlay() {
        BenchResult result = Bench.judge(take(sound(3).strikes(1, 0, 25, 0)), List.of());
        assertEquals(BenchFinding.State.NOT_SEEN, state(result, Fault.LOOSE));
    }

    @Test
    void playOfTheBenchItselfIsNotThePartsPlay() {
        BenchTake good = take(sound(5).strikes(0.5, 0, 25, 0));
        BenchResult result = Bench.judge(take(sound(4).strikes(0.5, 0, 25, 0)), List.of(good));
        assertEquals(BenchFinding.State.NOT_SEEN, state(result, Fault.LOOSE));
    }

    /** 2 mm/s rms at 29.3 Hz are 0.52 m/s²; the part shakes four times as much. */
    @Test
    void onlyAKnownGoodPartTellsRunOutFromTheChuck() {
        BearingRecords shaking = sound(6).turn(1, 3);
        assertEquals(
                BenchFinding.State.POSSIBLE,
                state(Bench.judge(take(shaking), List.of()), Fault.ECCENTRIC));
        assertEquals(
                BenchFinding.State.SEEN,
                state(Bench.judge(take(shaking), List.of(take(sound(7)))), Fault.ECCENTRIC));
        assertEquals(
                BenchFinding.State.NOT_SEEN,
                state(
                        Bench.judge(take(shaking), List.of(take(sound(8).turn(1, 3)))),
                        Fault.ECCENTRIC));
    }

    @Test
    void roughnessWithoutASpotIsNeverCalledSound() {
        BearingRecords rough = sound(9).noise(4);
        BenchResult result = Bench.judge(take(rough), List.of(take(sound(10))));
        assertEquals(BenchFinding.State.SEEN, state(result, Fault.BEARING_ROUGH));
        assertEquals(BenchVerdict.UNCLEAR, result.verdict());
    }

    @Test
    void noiseThatSwellsWithTurnAndCageIsPerhapsRough() {
        BearingRecords rough = sound(11).swellingNoise(3, 0.2, 1, ORDERS.cageOrder());
        BenchResult result = Bench.judge(take(rough), List.of());
        assertEquals(BenchFinding.State.POSSIBLE, state(result, Fault.BEARING_ROUGH));
        assertEquals(BenchVerdict.UNCLEAR, result.verdict(), "neither sound nor a ball's spot");
    }

    /** Both noises have the same closed-form level: 12 dB is a factor of four. */
    @Test
    void differenceAgainstGoodPartHoldsTheTrueOneInItsInterval() {
        BearingRecords loud = new BearingRecords(12, SECONDS, TURNS_HZ).swellingNoise(4, 0, 1, 1);
        BearingRecords quiet = new BearingRecords(13, SECONDS, TURNS_HZ).swellingNoise(1, 0, 1, 1);
        BenchDifference d =
                BenchComparison.of(take(loud), List.of(take(quiet))).stream()
                        .filter(x -> x.name().equals("acceleration-300-1800"))
                        .findFirst()
                        .orElseThrow();
        double trueDb = 20 * Math.log10(4);
        assertTrue(
                d.change().lowDb() <= trueDb && trueDb <= d.change().highDb(),
                d.change().toString());
        double narrow = 1.5;
        assertTrue(d.change().highDb() - d.change().lowDb() < narrow, d.change().toString());
        assertTrue(!d.coversTouches());
    }

    @Test
    void threeGoodPartsPutTheirScatterIntoTheInterval() {
        List<BenchTake> goods =
                List.of(
                        take(new BearingRecords(14, SECONDS, TURNS_HZ).noise(0.5)),
                        take(new BearingRecords(15, SECONDS, TURNS_HZ).noise(1)),
                        take(new BearingRecords(16, SECONDS, TURNS_HZ).noise(2)));
        BenchTake own = take(new BearingRecords(17, SECONDS, TURNS_HZ).noise(1));
        for (BenchDifference d : BenchComparison.of(own, goods)) {
            if (d.name().startsWith("acceleration")) {
                assertTrue(d.coversTouches());
                // Levels of -6, 0 and 6 dB scatter by 6.02 dB: 4.303 * 6.02 * sqrt(4/3) = 29.9.
                double within = 1;
                assertEquals(29.9, d.change().highDb() - d.change().changeDb(), within);
            }
        }
    }

    @Test
    void rhythmThatAGoodPartHasTooDoesNotAccuse() {
        double outer = ORDERS.outerRaceOrder();
        BenchTake own = take(sound(18).strikes(outer, 0, 8, 0.004));
        assertEquals(BenchVerdict.OUTER_RING, Bench.judge(own, List.of()).verdict());
        BenchResult result = Bench.judge(own, List.of(take(sound(19).strikes(outer, 0, 8, 0.004))));
        assertEquals(BenchVerdict.HEALTHY, result.verdict());
        assertTrue(
                result.notes().stream().anyMatch(n -> n.contains("outer ring")),
                result.notes().toString());
    }

    @Test
    void goodPartAtAnotherSpeedIsLeftOutAndSaid() {
        BenchTake other =
                BenchTake.atSpeed(
                        new BenchRecord(
                                new BearingRecords(20, SECONDS, 20)
                                        .noise(1)
                                        .shaftHarmonics(0.3)
                                        .samples(),
                                BearingRecords.SAMPLE_RATE_HZ,
                                BearingRecords.sixTwoOhThree(),
                                Ring.OUTER),
                        1200);
        BenchResult result = Bench.judge(take(sound(21)), List.of(other));
        assertTrue(result.differences().isEmpty());
        assertTrue(
                result.notes().stream().anyMatch(n -> n.contains("turns at 1200 rpm")),
                result.notes().toString());
    }

    @Test
    void findsTheSpeedThatTheRecordShowsAndRefusesWhereItDoesNot() {
        BenchRecord shown =
                new BenchRecord(
                        sound(22).samples(),
                        BearingRecords.SAMPLE_RATE_HZ,
                        BearingRecords.sixTwoOhThree(),
                        Ring.OUTER);
        // A bin of 1/6 Hz over twelve harmonics is 0.05 % of 29.3 Hz.
        assertEquals(RPM, BenchTake.findingSpeed(shown).meanRpm(), 0.0005 * RPM);
        BenchRecord noise =
                new BenchRecord(
                        new BearingRecords(23, SECONDS, TURNS_HZ).noise(1).samples(),
                        BearingRecords.SAMPLE_RATE_HZ,
                        BearingRecords.sixTwoOhThree(),
                        Ring.OUTER);
        IllegalArgumentException e =
                assertThrows(IllegalArgumentException.class, () -> BenchTake.findingSpeed(noise));
        assertTrue(e.getMessage().contains("give the speed"), e.getMessage());
    }

    @Test
    void doesNotTakeTheMainsForTheSpeed() {
        BearingRecords mains = new BearingRecords(24, SECONDS, 25).noise(1).shaftHarmonics(1);
        BenchRecord record =
                new BenchRecord(
                        mains.samples(),
                        BearingRecords.SAMPLE_RATE_HZ,
                        BearingRecords.sixTwoOhThree(),
                        Ring.OUTER);
        IllegalArgumentException e =
                assertThrows(IllegalArgumentException.class, () -> BenchTake.findingSpeed(record));
        assertTrue(e.getMessage().contains("mains"), e.getMessage());
    }

    @Test
    void allChannelsCountAndTheBestIsNamed() {
        double outer = ORDERS.outerRaceOrder();
        BenchRecord record =
                new BenchRecord(
                        List.of(
                                sound(25).samples(),
                                sound(26).samples(),
                                sound(27).strikes(outer, 1, 18, 0.004).samples()),
                        BearingRecords.SAMPLE_RATE_HZ,
                        BearingRecords.sixTwoOhThree(),
                        Ring.OUTER);
        BenchResult result = Bench.judge(BenchTake.atSpeed(record, RPM), List.of());
        assertEquals(BenchVerdict.OUTER_RING, result.verdict(), result.patterns().toString());
        assertEquals(2, result.patterns().get(0).band().channel());
        assertTrue(result.levels().stream().anyMatch(l -> l.name().equals("acceleration-rms-z")));
    }

    @Test
    void isoBandsAreLabelledByTheSpeed() {
        // 1800 r/min +1 % -2 %.
        assertTrue(IsoBand.isItsSpeed(1800));
        assertTrue(IsoBand.isItsSpeed(1765));
        assertTrue(!IsoBand.isItsSpeed(1763));
        assertTrue(!IsoBand.isItsSpeed(1819));
        BenchResult result = Bench.judge(take(sound(28)), List.of());
        assertTrue(
                result.levels().stream()
                        .filter(l -> l.name().equals("velocity-50-300"))
                        .anyMatch(l -> l.text().contains("not at the 1800 r/min of ISO 15242-2")),
                result.levels().toString());
    }

    /** Two-sided 95 % points of the printed table; 2.021 and 2.000 at 40 and 60. */
    @Test
    void studentsPointsAreThoseOfTheTable() {
        double printed = 0.0005;
        assertEquals(12.706, StudentT.twoSided95(1), printed);
        assertEquals(2.228, StudentT.twoSided95(10), printed);
        double expansion = 0.003;
        assertEquals(2.021, StudentT.twoSided95(40), expansion);
        assertEquals(2.000, StudentT.twoSided95(60), expansion);
    }
}

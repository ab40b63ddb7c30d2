package tickover.diagnose;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Test;
import tickover.align.CaptureSignal;
import tickover.align.TachPulses;
import tickover.drive.BearingOrders;
import tickover.drive.Ring;
import tickover.order.AngleFinder;
import tickover.order.AnglePrior;
import tickover.order.ShaftAngle;

class BenchTest {
    private static final double TURNS_HZ = 29.3;
    private static final double RPM = 60 * TURNS_HZ;

    private static BenchRecord record(double[] x, Ring turning) {
        return new BenchRecord(
                x, BearingRecords.SAMPLE_RATE_HZ, BearingRecords.sixTwoOhThree(), turning);
    }

    @Test
    void namesEachFaultOfEitherTurningRing() {
        for (Ring turning : Ring.values()) {
            assertNamed(Fault.BEARING_OUTER_RING, BenchVerdict.OUTER_RING, turning);
            assertNamed(Fault.BEARING_INNER_RING, BenchVerdict.INNER_RING, turning);
            assertNamed(Fault.ROLLING_ELEMENT, BenchVerdict.ROLLING_ELEMENT, turning);
            assertNamed(Fault.CAGE, BenchVerdict.CAGE, turning);
        }
    }

    private static void assertNamed(Fault fault, BenchVerdict verdict, Ring turning) {
        double[] x = BearingRecords.faulty(21, fault, turning, -0.008, TURNS_HZ);
        // The speed is given 1.2 % wrong, the balls slip 0.8 %.
        BenchResult result = Bench.atSpeed(record(x, turning), 1.012 * RPM);
        assertEquals(verdict, result.verdict(), turning + " turns: " + result.patterns());
        assertTrue(result.speedConfirmed());
        // The comb of twelve harmonics over eight seconds tells the speed to a hundredth of a bin
        // over twelve; a bin is 0.125 Hz.
        assertEquals(RPM, result.speedRpm(), 0.001 * RPM);
    }

    @Test
    void soundBearingsAreHealthyOnShaftLinesKnocksAndColouredNoise() {
        int accused = 0;
        int records = 60;
        for (int i = 0; i < records; i++) {
            BearingRecords made = new BearingRecords(300 + i, 4, TURNS_HZ).noise(1);
            double[] x =
                    switch (i % 3) {
                        case 0 -> made.samples();
                        case 1 -> made.shaftHarmonics(2).samples();
                        default -> made.shaftHarmonics(0.5).bursts(15, 50).samples();
                    };
            accused +=
                    Bench.atSpeed(record(x, Ring.INNER), RPM).verdict() == BenchVerdict.HEALTHY
                            ? 0
                            : 1;
        }
        assertTrue(accused <= 1, accused + " of " + records + " accused");
    }

    @Test
    void neighboursOuterRaceDoesNotAccuse() {
        // The neighbour has nine balls and strikes at 3.58 per turn of the same shaft.
        double[] x =
                new BearingRecords(9, 8, TURNS_HZ)
                        .noise(1)
                        .shaftHarmonics(0.5)
                        .strikes(3.58, 0, 12, 0.004)
                        .samples();
        assertEquals(BenchVerdict.HEALTHY, Bench.atSpeed(record(x, Ring.INNER), RPM).verdict());
    }

    @Test
    void probabilitiesAddUpToOneAndSilenceIsNeverCertain() {
        double[] x = new BearingRecords(4, 5, TURNS_HZ).noise(1).samples();
        BenchResult result = Bench.atSpeed(record(x, Ring.INNER), RPM);
        assertEquals(1, result.odds().stream().mapToDouble(BenchOdds::probability).sum(), 1e-12);
        assertEquals(result.odds().get(0).probability(), result.probability());
        assertTrue(result.probability() < 0.9, "a silent fault cannot be ruled out");
        assertFalse(result.speedConfirmed());
        assertFalse(result.notes().isEmpty());
    }

    @Test
    void tachCarriesTheVerdictThroughAChangingSpeed() {
        BearingOrders o = BearingOrders.of(BearingRecords.sixTwoOhThree(), Ring.OUTER);
        double fs = BearingRecords.SAMPLE_RATE_HZ;
        double fromHz = 22;
        double riseHzPerS = 1.5;
        Random random = new Random(8);
        double[] x = new double[(int) (8 * fs)];
        List<Double> pulses = new ArrayList<>();
        double ring = 0;
        double strikes = 0;
        for (int i = 0; i < x.length; i++) {
            double t = i / fs;
            double turns = fromHz * t + 0.5 * riseHzPerS * t * t;
            if (Math.floor(turns) >= pulses.size()) {
                pulses.add(
                        (-fromHz + Math.sqrt(fromHz * fromHz + 2 * riseHzPerS * pulses.size()))
                                / riseHzPerS);
            }
            if (Math.floor(o.innerRaceOrder() * turns) > strikes) {
                strikes++;
                ring += 5;
            }
            ring *= 0.93;
            x[i] = ring * Math.sin(2 * Math.PI * 3000 * t) + random.nextGaussian();
        }
        double[] timesS = pulses.stream().mapToDouble(Double::doubleValue).toArray();
        ShaftAngle angle =
                AngleFinder.find(
                                new CaptureSignal(
                                        fs, new double[][] {x}, new TachPulses(timesS, 1, 1)),
                                AnglePrior.of(4, 4))
                        .angle()
                        .orElseThrow();
        BenchResult result = Bench.withTach(record(x, Ring.OUTER), angle);
        assertEquals(BenchVerdict.INNER_RING, result.verdict(), result.patterns().toString());
        assertTrue(result.speedConfirmed());
        // Mean speed between the first and last pulse; the last turn is incomplete.
        assertEquals(60 * (fromHz + 4 * riseHzPerS), result.speedRpm(), 10);
    }

    @Test
    void levelsOfAToneAreThoseOfTheClosedForm() {
        double[] x = new double[60_000];
        double amplitudeMps2 = 2;
        double hz = 100;
        for (int i = 0; i < x.length; i++) {
            x[i] = amplitudeMps2 * Math.sin(2 * Math.PI * hz * i / BearingRecords.SAMPLE_RATE_HZ);
        }
        BenchResult result = Bench.atSpeed(record(x, Ring.INNER), 60 * 25);
        double rms = amplitudeMps2 / Math.sqrt(2);
        // Whole cycles in the record: what is left is the window's edge, far below this.
        double close = 1e-6;
        assertEquals(rms, level(result, "acceleration-rms"), close);
        assertEquals(rms, level(result, "acceleration-50-300"), close);
        assertEquals(1000 * rms / (2 * Math.PI * hz), level(result, "velocity-50-300"), 1e-3);
        assertEquals(1.5, level(result, "kurtosis"), close);
        assertEquals(Math.sqrt(2), level(result, "crest"), 1e-3);
        assertEquals(0, level(result, "velocity-300-1800"), close);
        assertTrue(result.levels().stream().noneMatch(l -> l.name().equals("velocity-1800-10000")));
    }

    private static double level(BenchResult result, String name) {
        return result.levels().stream()
                .filter(l -> l.name().equals(name))
                .findFirst()
                .orElseThrow()
                .value();
    }

    @Test
    void refusesAShortRecordAndAnImpossibleSpeed() {
        assertThrows(
                IllegalArgumentException.class,
                () -> Bench.atSpeed(record(new double[3000], Ring.INNER), RPM));
        assertThrows(
                IllegalArgumentException.class,
                () -> Bench.atSpeed(record(new double[60_000], Ring.INNER), 0));
    }
}

package tickover.diagnose;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.function.DoubleUnaryOperator;
import tickover.drive.BearingOrders;
import tickover.drive.Ring;
import tickover.order.ShaftAngle;

/**
 * Judges a removed pulley or a bearing that is turned alone on a bench. The class to read first
 * about bearings: it measures the speed, computes {@link EnvelopeOrders}, looks for the {@link
 * BearingSigns} and lets a judge weigh them.
 */
public final class Bench {
    /** Room for the third harmonic of the fastest pattern and for what chance makes around it. */
    private static final double MAX_ORDER = 40;

    /**
     * Speed error that may be left where twelve shaft harmonics or a tach show the speed: a bin
     * over twelve, half of it again for drift. The shaft's own lines are neutral within it, and no
     * wider: a 6203's balls strike at 3.99 per turn.
     */
    private static final double KNOWN_SPEED_ERROR_RATIO = 0.0005;

    /** The same where the speed was taken on trust. */
    private static final double GIVEN_SPEED_ERROR_RATIO = 0.003;

    /** So many times the fastest pattern rate must fit into a band, for two of its harmonics. */
    private static final double BAND_PER_RATE = 2.5;

    /** Fewer turns than this are judged, but with a note. */
    private static final int ENOUGH_TURNS = 100;

    private final double[] accelMps2;
    private final double sampleRateHz;
    private final Ring turning;
    private final BearingOrders orders;
    private final double meanHz;
    private final boolean speedConfirmed;
    private final DoubleUnaryOperator turnsAtS;

    private Bench(BenchRecord record, double meanHz, boolean confirmed, DoubleUnaryOperator turns) {
        this.accelMps2 = record.accelMps2();
        this.sampleRateHz = record.sampleRateHz();
        this.turning = record.turning();
        this.orders = BearingOrders.of(record.geometry(), turning);
        this.meanHz = meanHz;
        this.speedConfirmed = confirmed;
        this.turnsAtS = turns;
    }

    /**
     * Judges a record at steady speed that is roughly known.
     *
     * @param record the record
     * @param givenRpm speed, rpm, within 2.5 % of the truth; it is sharpened from the record
     * @return the verdict and what it rests on
     * @throws IllegalArgumentException if the record is too short or too slowly sampled
     */
    public static BenchResult atSpeed(BenchRecord record, double givenRpm) {
        BenchSpeed speed = speed(record, givenRpm);
        double turnsHz = speed.turnsHz();
        return new Bench(record, turnsHz, speed.refined(), timeS -> turnsHz * timeS)
                .judge(BenchJudge.FITTED);
    }

    /**
     * Judges a record with a tach. Samples before and after the known angle are left out.
     *
     * @param record the record
     * @param angle turns of the turning ring over time
     * @return the verdict and what it rests on
     * @throws IllegalArgumentException if the record is too short or too slowly sampled
     */
    public static BenchResult withTach(BenchRecord record, ShaftAngle angle) {
        double fs = record.sampleRateHz();
        int from = (int) Math.max(0, Math.ceil(angle.startS() * fs));
        int to = (int) Math.min(record.accelMps2().length, Math.floor(angle.endS() * fs) + 1);
        double[] known = Arrays.copyOfRange(record.accelMps2(), Math.min(from, to), to);
        double fromS = from / fs;
        double meanHz = (angle.endTurns() - angle.startTurns()) / (angle.endS() - angle.startS());
        return new Bench(
                        new BenchRecord(known, fs, record.geometry(), record.turning()),
                        meanHz,
                        true,
                        timeS -> angle.turnsAt(Math.min(angle.endS(), fromS + timeS)))
                .judge(BenchJudge.FITTED);
    }

    /** What was found, for another judge to weigh. */
    static BearingSigns signs(BenchRecord record, double givenRpm) {
        BenchSpeed speed = speed(record, givenRpm);
        double turnsHz = speed.turnsHz();
        Bench test = new Bench(record, turnsHz, speed.refined(), timeS -> turnsHz * timeS);
        return test.signs(test.spectra());
    }

    private static BenchSpeed speed(BenchRecord record, double givenRpm) {
        double secondsPerMinute = 60;
        return BenchSpeed.near(
                record.accelMps2(),
                record.sampleRateHz(),
                givenRpm / secondsPerMinute,
                BearingOrders.of(record.geometry(), record.turning()));
    }

    private EnvelopeOrders spectra() {
        double fastest = Math.max(orders.innerRaceOrder(), 2 * orders.ballSpinOrder());
        return EnvelopeOrders.of(
                accelMps2,
                sampleRateHz,
                turnsAtS,
                new EnvelopeOrders.Spec(
                        MAX_ORDER,
                        1,
                        speedConfirmed ? KNOWN_SPEED_ERROR_RATIO : GIVEN_SPEED_ERROR_RATIO,
                        1,
                        BAND_PER_RATE * fastest * meanHz));
    }

    private BearingSigns signs(EnvelopeOrders spectra) {
        return BearingSigns.search(
                spectra,
                orders,
                turning,
                1,
                speedConfirmed ? CombTolerance.KNOWN_SPEED : CombTolerance.ROUGH_SPEED);
    }

    private BenchResult judge(BenchJudge judge) {
        EnvelopeOrders spectra = spectra();
        BearingSigns signs = signs(spectra);
        List<BenchOdds> odds = judge.odds(signs, spectra.turns());
        BenchVerdict verdict = BenchJudge.verdict(odds);
        List<BenchPattern> patterns = new ArrayList<>();
        List<BenchLine> lines = new ArrayList<>();
        describe(BenchVerdict.OUTER_RING.word(), signs.outerRing(), patterns, lines);
        describe(BenchVerdict.INNER_RING.word(), signs.innerRing(), patterns, lines);
        describe(BenchVerdict.ROLLING_ELEMENT.word(), signs.ballSpin(), patterns, lines);
        describe(BenchVerdict.CAGE.word(), signs.cage(), patterns, lines);
        double secondsPerMinute = 60;
        return new BenchResult(
                verdict,
                odds.get(0).probability(),
                odds,
                meanHz * secondsPerMinute,
                speedConfirmed,
                patterns,
                lines,
                BenchLevels.of(accelMps2, sampleRateHz, turnsAtS),
                notes(spectra));
    }

    private void describe(
            String fault, CombFinding found, List<BenchPattern> patterns, List<BenchLine> lines) {
        patterns.add(
                new BenchPattern(
                        fault,
                        found.order(),
                        found.deviationRatio(),
                        found.strengthDb(),
                        found.modulationRatio(),
                        found.patternRmsMps2(),
                        found.falseAlarmProbability()));
        for (CombLine line : found.lines()) {
            lines.add(
                    new BenchLine(
                            fault,
                            text(line),
                            line.order(),
                            line.order() * meanHz,
                            line.strengthDb(),
                            line.modulationRatio()));
        }
    }

    private static String text(CombLine line) {
        String harmonic = "harmonic " + line.harmonic();
        return line.sideband() == 0
                ? harmonic
                : (line.sideband() < 0 ? "lower" : "upper") + " sideband of " + harmonic;
    }

    private List<String> notes(EnvelopeOrders spectra) {
        List<String> notes = new ArrayList<>();
        if (!speedConfirmed) {
            notes.add(
                    "The record does not show the speed by itself, so the given speed was taken on"
                            + " trust; a tach makes the verdict surer.");
        }
        if (spectra.turns() < ENOUGH_TURNS) {
            notes.add(
                    "Only "
                            + Math.round(spectra.turns())
                            + " turns were recorded; ten seconds at 1800 rpm are 300 turns and show"
                            + " ball and cage faults better.");
        }
        return notes;
    }
}

package tickover.session;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Arrays;
import java.util.Random;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;
import tickover.align.CaptureSignal;
import tickover.align.TachPulses;
import tickover.diagnose.CaptureInput;
import tickover.diagnose.CaptureMeasurement;
import tickover.diagnose.LineLevel;
import tickover.diagnose.PartLevel;
import tickover.diagnose.QualityProblem;
import tickover.diagnose.UnusableCaptureException;
import tickover.drive.DriveModel;
import tickover.order.AngleFinder;
import tickover.order.AngleFinding;
import tickover.order.AnglePrior;
import tickover.sim.SimulatedCapture;
import tickover.sim.SimulatedVisit;
import tickover.sim.SpeedRecord;
import tickover.sim.Workshop;
import tickover.sim.WorkshopCase;

/** One bad second in ten must not show in the levels of a capture. */
class QualityEffectTest {
    private static final long SEED = Workshop.TUNING_SEEDS_FROM + 5;
    private static final double FROM_S = 3.2;
    private static final double TO_S = 4.2;

    /**
     * Six of seven segments' worth is left, so a steady line moves by a part of its standard error;
     * this bounds what leaks in besides.
     */
    private static final double LEAK_DB = 0.3;

    /** A level this far above its standard error is a level. */
    private static final double CLEAR_SIGMAS = 4;

    private static final double SIGMAS = 3;

    /** Within the resolution of a segment of a quarter of ten seconds at idle. */
    private static final double SAME_LINE_ORDERS = 0.03;

    private static SimulatedVisit visit;
    private static SimulatedCapture capture;
    private static CaptureSignal signal;
    private static CaptureMeasurement clean;

    /** What happens in the bad second. */
    enum Trouble {
        CLIPPED(QualityProblem.CLIPPED),
        LIFTED(QualityProblem.LOST_CONTACT),
        KNOCKED(QualityProblem.KNOCK),
        TACH_OFF(QualityProblem.TACH_DROPOUT);

        private final QualityProblem problem;

        Trouble(QualityProblem problem) {
            this.problem = problem;
        }
    }

    @BeforeAll
    static void measureTheCleanOne() throws UnusableCaptureException {
        visit = Workshop.visit(SEED, WorkshopCase.any().withSpeed(SpeedRecord.Kind.TACH));
        capture = visit.captures().get(0);
        signal = SimulatedFolders.signal(capture, visit.vehicle());
        assertTrue(signal.durationS() > 9, "seed " + SEED);
        clean = measure(channels(), (TachPulses) signal.speed());
    }

    private static double[][] channels() {
        double[][] x = new double[signal.channels()][];
        Arrays.setAll(x, c -> signal.accelMps2(c).clone());
        return x;
    }

    private static CaptureMeasurement measure(double[][] x, TachPulses tach)
            throws UnusableCaptureException {
        CaptureSignal s = new CaptureSignal(signal.sampleRateHz(), x, tach);
        AngleFinding found = AngleFinder.find(s, AnglePrior.of(4, 4));
        return CaptureMeasurement.of(
                new CaptureInput(
                                SimulatedFolders.label(capture),
                                signal.sampleRateHz(),
                                x,
                                found.angle().orElseThrow(),
                                "tach")
                        .withAngleUnknown(found.unknown()),
                DriveModel.of(visit.vehicle()));
    }

    private static void spoil(double[] x, Trouble trouble) {
        double rate = signal.sampleRateHz();
        Random random = new Random(SEED);
        double mean = Arrays.stream(x).average().orElseThrow();
        double rms =
                Math.sqrt(
                        Arrays.stream(x).map(v -> (v - mean) * (v - mean)).average().orElseThrow());
        double limit = 1.05 * Arrays.stream(x).map(Math::abs).max().orElseThrow();
        for (int i = (int) (FROM_S * rate); i < (int) (TO_S * rate); i++) {
            double sinceS = i / rate - FROM_S;
            x[i] =
                    switch (trouble) {
                        case CLIPPED ->
                                Math.max(-limit, Math.min(limit, mean + 12 * (x[i] - mean)));
                        case LIFTED ->
                                mean + 0.03 * (x[i] - mean) + 0.02 * rms * random.nextGaussian();
                        case KNOCKED ->
                                x[i]
                                        + 30
                                                * rms
                                                * Math.exp(-25 * sinceS)
                                                * Math.sin(2 * Math.PI * 180 * sinceS);
                        case TACH_OFF -> x[i];
                    };
        }
    }

    @ParameterizedTest
    @EnumSource(Trouble.class)
    void oneBadSecondHardlyMovesAnyLevel(Trouble trouble) throws UnusableCaptureException {
        double[][] x = channels();
        for (double[] channel : x) {
            spoil(channel, trouble);
        }
        TachPulses tach = (TachPulses) signal.speed();
        if (trouble == Trouble.TACH_OFF) {
            tach =
                    new TachPulses(
                            Arrays.stream(tach.timesS())
                                    .filter(t -> t < FROM_S || t > TO_S)
                                    .toArray(),
                            tach.pulsesPerTurn(),
                            tach.turnsPerCrankTurn());
        }
        CaptureMeasurement spoiled = measure(x, tach);
        assertTrue(
                spoiled.notes().stream()
                        .filter(n -> n.problem() == trouble.problem)
                        .flatMap(n -> n.ranges().stream())
                        .anyMatch(r -> r.meets(FROM_S, FROM_S + 0.1)),
                () -> "seed " + SEED + ": " + spoiled.notes());
        int compared = 0;
        for (int p = 0; p < clean.levels().size(); p++) {
            PartLevel before = clean.levels().get(p);
            PartLevel after = spoiled.levels().get(p);
            assertEquals(before.part(), after.part());
            for (int i = 0; i < before.lines().size(); i++) {
                compared += compare(before.part(), before.lines().get(i), after.lines().get(i));
            }
        }
        assertTrue(compared >= 8, "only " + compared + " lines are clear");
        assertEquals(
                0,
                decibels(spoiled.summary().overallRmsMps2(), clean.summary().overallRmsMps2()),
                LEAK_DB);
    }

    private static int compare(String part, LineLevel before, LineLevel after) {
        double error = before.standardErrorMps2();
        // A line that hardly stands out may be found elsewhere in the noise of the shorter record.
        boolean sameLine = Math.abs(after.order() - before.order()) < SAME_LINE_ORDERS;
        if (!sameLine || !(before.levelRmsMps2() > CLEAR_SIGMAS * error)) {
            return 0;
        }
        double allowed =
                LEAK_DB + decibels(before.levelRmsMps2() + SIGMAS * error, before.levelRmsMps2());
        assertEquals(
                0,
                decibels(after.levelRmsMps2(), before.levelRmsMps2()),
                allowed,
                part + " " + before + " became " + after);
        return 1;
    }

    private static double decibels(double value, double reference) {
        return 20 * Math.log10(value / reference);
    }
}

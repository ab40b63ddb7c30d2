package tickover.session;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Objects;
import tickover.align.CaptureSignal;
import tickover.diagnose.CaptureInput;
import tickover.diagnose.CaptureLabel;
import tickover.diagnose.CaptureMeasurement;
import tickover.diagnose.LineChance;
import tickover.diagnose.Regime;
import tickover.diagnose.UnusableCaptureException;
import tickover.drive.DriveModel;
import tickover.drive.Engine;
import tickover.order.AngleFinder;
import tickover.order.AngleFinding;
import tickover.order.AnglePrior;
import tickover.sim.FaultKind;
import tickover.sim.SimulatedCapture;
import tickover.sim.SimulatedVisit;
import tickover.sim.Workshop;
import tickover.sim.WorkshopCase;

/**
 * Measures how often the bearing statistic of a running engine speaks on healthy engines, on every
 * capture of simulated healthy visits with all that workshops do wrong.
 */
public final class HealthyStudy {
    private HealthyStudy() {}

    /**
     * One capture.
     *
     * @param seed the visit's seed
     * @param capture its id
     * @param lines what was looked for in it
     */
    public record Heard(long seed, String capture, List<LineChance.Line> lines) {
        /** Keeps its own copy. */
        public Heard {
            Objects.requireNonNull(capture, "capture");
            lines = List.copyOf(lines);
        }
    }

    /**
     * Looks for bearing lines in captures of healthy engines.
     *
     * @param firstSeed first seed
     * @param count captures wanted; the last visit is taken whole
     * @param progress hears of every finished visit
     * @return one entry per capture that can be used
     */
    public static List<Heard> listen(long firstSeed, int count, VisitAnalysis.Progress progress) {
        List<Heard> out = new ArrayList<>();
        for (long seed = firstSeed; out.size() < count; seed++) {
            SimulatedVisit visit =
                    Workshop.visit(seed, WorkshopCase.any().withFault(FaultKind.NONE));
            DriveModel drive = DriveModel.of(visit.vehicle());
            for (SimulatedCapture capture : visit.captures()) {
                hear(capture, drive, seed, out);
            }
            progress.reached(Math.min(out.size(), count), count);
        }
        return out;
    }

    private static void hear(
            SimulatedCapture capture, DriveModel drive, long seed, List<Heard> out) {
        CaptureSignal signal = SimulatedFolders.signal(capture, drive.vehicle());
        CaptureLabel label = SimulatedFolders.label(capture);
        AngleFinding found = AngleFinder.find(signal, prior(drive.vehicle().engine(), label));
        if (found.angle().isEmpty()) {
            return;
        }
        double[][] channels = new double[signal.channels()][];
        for (int c = 0; c < channels.length; c++) {
            channels[c] = signal.accelMps2(c);
        }
        CaptureInput input =
                new CaptureInput(
                                label,
                                signal.sampleRateHz(),
                                channels,
                                found.angle().get(),
                                signal.speed().kind().name().toLowerCase(Locale.ROOT))
                        .withAngleUnknown(found.unknown());
        try {
            CaptureMeasurement measured = CaptureMeasurement.of(input, drive);
            out.add(new Heard(seed, label.id(), LineChance.of(measured, drive)));
        } catch (UnusableCaptureException e) {
            // The ranking does not weigh such a capture either.
            return;
        }
    }

    private static AnglePrior prior(Engine engine, CaptureLabel label) {
        AnglePrior prior = AnglePrior.of(engine.cylinders(), engine.strokes());
        if (engine.idleRpm().isPresent()) {
            prior = prior.withIdleRpm(engine.idleRpm().getAsDouble());
        }
        return label.regime() == Regime.IDLE ? prior.atIdle() : prior;
    }
}

package tickover.session;

import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import java.util.concurrent.Callable;
import java.util.concurrent.ExecutionException;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import java.util.concurrent.TimeUnit;
import tickover.align.CaptureSignal;
import tickover.diagnose.CaptureInput;
import tickover.diagnose.CaptureMeasurement;
import tickover.diagnose.CaptureSummary;
import tickover.diagnose.Complaint;
import tickover.diagnose.Findings;
import tickover.diagnose.MeasuredLevel;
import tickover.diagnose.PartLevel;
import tickover.diagnose.QualityNote;
import tickover.diagnose.QualityProblem;
import tickover.diagnose.Ranking;
import tickover.diagnose.RankingModel;
import tickover.diagnose.Regime;
import tickover.diagnose.TouchCheck;
import tickover.diagnose.UnusableCaptureException;
import tickover.diagnose.VisitEvidence;
import tickover.diagnose.VisitMoment;
import tickover.diagnose.VisitResult;
import tickover.drive.DriveModel;
import tickover.drive.DrivePart;
import tickover.drive.Engine;
import tickover.drive.Role;
import tickover.order.AngleFinder;
import tickover.order.AngleFinding;
import tickover.order.AnglePrior;
import tickover.store.Visit;
import tickover.store.VisitCapture;

/**
 * Analyses a visit: recordings to angle to orders to levels, evidence and ranking.
 *
 * <p>Captures are independent until the ranking, so each is a task of its own; as many run side by
 * side as there are processors. Samples are held only while their capture is being measured.
 */
public final class VisitAnalysis {
    private static final String SETTINGS =
            "bands=octave-from-300Hz steps-per-turn=256 harmonics=4,8 ranking=conditional-logit-3";

    /** Longest wait for running captures once one has failed, s. */
    private static final int STOP_S = 30;

    private VisitAnalysis() {}

    /** Hears how far a long piece of work is. Called from the thread that asked for the work. */
    @FunctionalInterface
    public interface Progress {
        /**
         * Takes note.
         *
         * @param done pieces that are finished
         * @param total all pieces
         */
        void reached(int done, int total);
    }

    /**
     * Analyses a visit.
     *
     * @param visit the visit; its recordings are read
     * @param progress hears of every finished capture
     * @return levels and findings
     * @throws tickover.store.StoreException if a recording cannot be read
     * @throws IllegalArgumentException if the vehicle has no crank pulley
     */
    public static VisitResult analyse(Visit visit, Progress progress) {
        Gathered gathered = gather(visit, progress);
        Findings findings =
                Ranking.of(
                        gathered.evidence,
                        Complaint.of(visit.complaint()),
                        RankingModel.learned(),
                        gathered.notes);
        return new VisitResult(
                findings, gathered.summaries, gathered.levels, CodeVersion.text(), SETTINGS);
    }

    /**
     * Gathers the evidence of a visit without ranking it.
     *
     * @param visit the visit
     * @return what its captures say
     */
    public static VisitEvidence evidence(Visit visit) {
        return gather(visit, (done, total) -> {}).evidence;
    }

    /** What all captures of a visit say. */
    record Gathered(
            VisitEvidence evidence,
            List<CaptureSummary> summaries,
            List<PartLevel> levels,
            List<QualityNote> notes) {
        /** The levels with what they are of. */
        List<MeasuredLevel> measured(Visit visit) {
            VisitMoment moment = VisitMoment.of(visit.id(), visit.date());
            List<MeasuredLevel> out = new ArrayList<>();
            for (PartLevel level : levels) {
                for (CaptureSummary s : summaries) {
                    if (s.label().id().equals(level.capture())) {
                        out.add(
                                new MeasuredLevel(
                                        moment,
                                        level.part(),
                                        s.label(),
                                        s.meanSpeedRpm(),
                                        level.levelRmsMps2(),
                                        level.standardErrorMps2(),
                                        CodeVersion.text()));
                    }
                }
            }
            return out;
        }
    }

    /** What one capture yields; without a measurement if its speed could not be found. */
    private record Measured(
            List<CaptureMeasurement> measurement,
            List<PartLevel> levels,
            List<QualityNote> notes) {}

    static Gathered gather(Visit visit, Progress progress) {
        Objects.requireNonNull(visit, "visit");
        Objects.requireNonNull(progress, "progress");
        DriveModel drive = DriveModel.of(visit.vehicle());
        List<Callable<Measured>> tasks = new ArrayList<>();
        for (VisitCapture capture : visit.captures()) {
            tasks.add(() -> measure(capture, drive));
        }
        List<CaptureMeasurement> measurements = new ArrayList<>();
        List<PartLevel> levels = new ArrayList<>();
        List<QualityNote> notes = new ArrayList<>();
        for (Measured m : runAll(tasks, progress)) {
            measurements.addAll(m.measurement);
            levels.addAll(m.levels);
            notes.addAll(m.notes);
        }
        notes.addAll(TouchCheck.notes(measurements));
        if (drive.parts().isEmpty()) {
            notes.add(
                    QualityNote.ofWhole(
                            "vehicle.toml",
                            QualityProblem.NO_DRIVE,
                            "No pulley is described, so no belt-driven part could be judged: add"
                                    + " the pulleys with their diameter_mm."));
        }
        return new Gathered(
                VisitEvidence.of(drive, measurements),
                measurements.stream().map(CaptureMeasurement::summary).toList(),
                levels,
                notes);
    }

    private static <T> List<T> runAll(List<Callable<T>> tasks, Progress progress) {
        int threads =
                Math.max(1, Math.min(tasks.size(), Runtime.getRuntime().availableProcessors()));
        ExecutorService pool = Executors.newFixedThreadPool(threads);
        try {
            List<Future<T>> futures = new ArrayList<>();
            for (Callable<T> task : tasks) {
                futures.add(pool.submit(task));
            }
            List<T> results = new ArrayList<>();
            for (Future<T> future : futures) {
                results.add(future.get());
                progress.reached(results.size(), tasks.size());
            }
            return results;
        } catch (ExecutionException e) {
            if (e.getCause() instanceof RuntimeException cause) {
                throw cause;
            }
            throw new IllegalStateException("a capture's analysis failed", e.getCause());
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
            throw new IllegalStateException("the analysis was interrupted", e);
        } finally {
            stop(pool);
        }
    }

    /** Nobody may still read files of a visit that its caller takes for done with. */
    static void stop(ExecutorService pool) {
        pool.shutdownNow();
        try {
            pool.awaitTermination(STOP_S, TimeUnit.SECONDS);
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
        }
    }

    private static Measured measure(VisitCapture capture, DriveModel drive) {
        CaptureSignal signal = capture.load();
        String id = capture.label().id();
        AngleFinding found = AngleFinder.find(signal, prior(drive, capture));
        if (found.angle().isEmpty()) {
            String why = found.problem().orElse("Engine speed could not be found.");
            return new Measured(
                    List.of(),
                    List.of(),
                    List.of(QualityNote.ofWhole(id, QualityProblem.NO_SPEED, why)));
        }
        CaptureInput input = input(capture, signal, found);
        try {
            CaptureMeasurement measurement = CaptureMeasurement.of(input, drive);
            return new Measured(List.of(measurement), measurement.levels(), measurement.notes());
        } catch (UnusableCaptureException e) {
            return new Measured(
                    List.of(),
                    List.of(),
                    List.of(QualityNote.ofWhole(id, e.problem(), e.getMessage())));
        }
    }

    /** A capture whose angle was found, as its quality is judged and its parts are measured. */
    static CaptureInput input(VisitCapture capture, CaptureSignal signal, AngleFinding found) {
        return new CaptureInput(
                        capture.label(),
                        signal.sampleRateHz(),
                        channels(signal),
                        found.angle().orElseThrow(),
                        speedWord(signal))
                .withRecorded(capture.quality())
                .withAngleUnknown(found.unknown());
    }

    /** The prior that a drive and a capture's regime give. */
    static AnglePrior prior(DriveModel drive, VisitCapture capture) {
        Engine engine = drive.vehicle().engine();
        AnglePrior prior =
                AnglePrior.of(engine.cylinders(), engine.strokes())
                        .withDriveOrders(
                                drive.parts().stream()
                                        .filter(p -> p.role() != Role.CRANK)
                                        .map(DrivePart::turnsPerCrankTurn)
                                        .toList());
        if (engine.idleRpm().isPresent()) {
            prior = prior.withIdleRpm(engine.idleRpm().getAsDouble());
        }
        return capture.label().regime() == Regime.IDLE ? prior.atIdle() : prior;
    }

    private static double[][] channels(CaptureSignal signal) {
        double[][] channels = new double[signal.channels()][];
        for (int i = 0; i < channels.length; i++) {
            channels[i] = signal.accelMps2(i);
        }
        return channels;
    }

    private static String speedWord(CaptureSignal signal) {
        return switch (signal.speed().kind()) {
            case TACH -> "tach";
            case OBD -> "obd";
            case KNOWN -> "known";
            case NONE -> "vibration";
        };
    }
}

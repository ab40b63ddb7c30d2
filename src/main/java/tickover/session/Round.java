package tickover.session;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Clock;
import java.util.List;
import java.util.Objects;
import java.util.Optional;
import java.util.concurrent.atomic.AtomicReference;
import tickover.diagnose.VisitResult;
import tickover.drive.Vehicle;
import tickover.store.Log;
import tickover.store.LogPlace;
import tickover.store.Visit;
import tickover.store.VisitFolder;

/**
 * A walk round an engine: one recording, captures one after another where the user wants them, and
 * what they say so far, found anew after each.
 *
 * <p>What is said is derived from the recording as it lies on the disk, by what an import would do
 * with it; nothing is known here that a later import does not find. One thread beside the
 * recorder's does that, and drops what a newer capture has overtaken.
 */
public final class Round implements AutoCloseable {
    private static final long LOOK_EVERY_MS = 100;
    private static final long JOIN_MS = 60_000;
    private static final double USUAL_CAPTURE_S = 10;

    /** A capture's last edges and readings arrive after its end, s. */
    private static final double TAIL_S = 1.5;

    /**
     * What to record.
     *
     * @param file where the recording goes; must not exist
     * @param vehicle whose engine it is
     * @param complaint what the driver says; may be empty
     * @param captureLengthS length of each capture, s
     * @param pulsesPerTurn tach edges per turn of the marked pulley
     * @param tachPulley the pulley that carries the mark
     */
    public record Spec(
            Path file,
            Vehicle vehicle,
            String complaint,
            double captureLengthS,
            int pulsesPerTurn,
            String tachPulley) {
        public Spec {
            Objects.requireNonNull(file, "file");
            Objects.requireNonNull(vehicle, "vehicle");
            Objects.requireNonNull(complaint, "complaint");
            Objects.requireNonNull(tachPulley, "tachPulley");
            if (!(captureLengthS > 0)) {
                throw new IllegalArgumentException(
                        "captureLengthS=" + captureLengthS + ", need > 0 s");
            }
        }
    }

    /**
     * What the captures say so far.
     *
     * @param captures how many it rests on
     * @param visit the visit as far as it has come
     * @param result what it says
     * @param remarks what a person should know of the recording
     */
    public record SoFar(int captures, Visit visit, VisitResult result, List<String> remarks) {
        public SoFar {
            Objects.requireNonNull(visit, "visit");
            Objects.requireNonNull(result, "result");
            remarks = List.copyOf(remarks);
        }
    }

    private final Spec spec;
    private final OpenRound.Mark mark;
    private final Path workFolder;
    private final StreamRun run;
    private final Thread analyst;

    /** What the captures are cut out of while it runs. */
    private final Path soFarFile;

    /** What was captured in a recording that runs again; empty while recording. */
    private final List<PlannedCapture> planned;

    private final AtomicReference<SoFar> soFar = new AtomicReference<>();
    private final AtomicReference<String> problem = new AtomicReference<>("");
    private volatile boolean closing;
    private volatile int analysed;

    private Round(
            Spec spec,
            Path workFolder,
            StreamRun run,
            Path soFarFile,
            List<PlannedCapture> planned,
            OpenRound.Mark mark) {
        this.mark = mark;
        this.spec = spec;
        this.workFolder = workFolder;
        this.run = run;
        this.soFarFile = soFarFile;
        this.planned = List.copyOf(planned);
        this.analyst = new Thread(this::analyse, "tickover-analyst");
        this.analyst.setDaemon(true);
    }

    /**
     * Begins to record.
     *
     * @param spec what
     * @param lines from where, at least one
     * @param clock the time of day
     * @param listener hears all of the stream, on the recorder's thread; must be quick
     * @return the running round
     * @throws AcquisitionException if a line cannot be opened or the file cannot be made
     */
    public static Round begin(
            Spec spec, List<RecordLine> lines, Clock clock, StreamListener listener) {
        Objects.requireNonNull(spec, "spec");
        try {
            Files.createDirectories(spec.file().toAbsolutePath().getParent());
            Path work = Files.createTempDirectory("tickover-round");
            RecordPlan plan =
                    new RecordPlan(
                            spec.file(),
                            VisitFolder.vehicleText(spec.vehicle()),
                            List.of(),
                            true,
                            spec.captureLengthS(),
                            0,
                            0,
                            spec.pulsesPerTurn(),
                            spec.tachPulley());
            OpenRound.Mark mark = OpenRound.Mark.on(spec.file(), spec.complaint());
            Recorder recorder;
            try {
                recorder = Recorder.start(plan, lines, clock, listener);
            } catch (AcquisitionException e) {
                mark.close();
                OpenRound.settle(spec.file());
                throw e;
            }
            Round round = new Round(spec, work, recorder, spec.file(), List.of(), mark);
            round.analyst.start();
            return round;
        } catch (IOException e) {
            throw new AcquisitionException(
                    AcquisitionException.Kind.OUTSIDE,
                    "the folder of " + spec.file() + " cannot be made: " + e.getMessage(),
                    e);
        }
    }

    /**
     * Lets a recording run again, as if it were being made: the same thing is derived from it, its
     * captures begin and end where they did, and are looked at as they end.
     *
     * @param recording the recording
     * @param vehicle whose engine it is
     * @param pace how many times as fast as it was
     * @param listener hears all of the stream; must be quick
     * @return the running round
     * @throws AcquisitionException if it is no recording
     */
    public static Round replay(
            Path recording, Vehicle vehicle, double pace, StreamListener listener) {
        Spec spec = new Spec(recording, vehicle, "", USUAL_CAPTURE_S, 1, "crank");
        try {
            Path work = Files.createTempDirectory("tickover-round");
            Path soFar = work.resolve("so-far.tkr");
            Replay replay = Replay.begin(recording, soFar, pace, listener);
            Round round =
                    new Round(spec, work, replay, soFar, replay.captures(), OpenRound.Mark.none());
            round.analyst.start();
            return round;
        } catch (IOException e) {
            throw new AcquisitionException(
                    AcquisitionException.Kind.OUTSIDE,
                    "no temporary folder can be made: " + e.getMessage(),
                    e);
        }
    }

    /**
     * Reads whose engine a recording is of.
     *
     * @param recording the recording
     * @return empty for a bench, or where it is not said
     * @throws AcquisitionException if it is no recording
     */
    public static Optional<Vehicle> vehicleOf(Path recording) {
        return Replay.Facts.of(recording).vehicle().stream().findFirst();
    }

    /**
     * Returns what was captured in a recording that runs again.
     *
     * @return in order; empty while recording, where captures are aimed at as one goes
     */
    public List<PlannedCapture> planned() {
        return planned;
    }

    /**
     * Lets a recording run faster or slower; nothing while recording.
     *
     * @param pace how many times as fast as it was
     */
    public void pace(double pace) {
        if (run instanceof Replay replay) {
            replay.pace(pace);
        }
    }

    /**
     * Says what the next press captures.
     *
     * @param next what and where
     */
    public void aim(PlannedCapture next) {
        run.aim(next);
    }

    /** Presses the button that begins and ends captures. */
    public void press() {
        run.press();
    }

    /**
     * Returns how the recording stands.
     *
     * @return the latest snapshot
     */
    public RecordStatus status() {
        return run.status();
    }

    /**
     * Returns where the recording is.
     *
     * @return the file
     */
    public Path file() {
        return spec.file();
    }

    /**
     * Returns what the captures say so far.
     *
     * @return empty until the first is understood
     */
    public Optional<SoFar> soFar() {
        return Optional.ofNullable(soFar.get());
    }

    /**
     * Returns why the captures say nothing.
     *
     * @return one sentence; empty if there is no reason
     */
    public String problem() {
        return problem.get();
    }

    /**
     * Returns how many captures have been looked at, in vain or not.
     *
     * @return counted from the first
     */
    public int analysed() {
        return analysed;
    }

    private void analyse() {
        double endedS = Double.NaN;
        int ended = 0;
        try {
            while (!closing) {
                RecordStatus now = run.status();
                int complete = now.capture() - 1;
                if (complete > ended) {
                    ended = complete;
                    endedS = now.elapsedS();
                }
                boolean settled = now.finished() || now.elapsedS() >= endedS + TAIL_S;
                if (ended > analysed && settled) {
                    look(ended);
                }
                Thread.sleep(LOOK_EVERY_MS);
            }
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
        }
    }

    private void look(int captures) {
        Path folder = workFolder.resolve("after-" + captures);
        try {
            RecordingVisit.Made made =
                    RecordingVisit.write(
                            soFarFile,
                            new RecordingVisit.About(null, spec.complaint(), Double.NaN),
                            folder);
            VisitResult result = VisitAnalysis.analyse(made.visit(), (done, total) -> {});
            soFar.set(new SoFar(captures, made.visit(), result, made.remarks()));
            problem.set("");
        } catch (RuntimeException e) {
            // A capture may hold nothing usable; the recording goes on, and so does the round.
            problem.set(e.getMessage() == null ? e.toString() : e.getMessage());
        } finally {
            analysed = captures;
        }
    }

    /**
     * Ends the recording and takes the visit into the log, with what it says. A recording that ran
     * again is taken in whole, unless the log has it.
     *
     * @param place where the log lives
     * @return the visit; empty if nothing usable was captured, in which case the recording stays
     *     where it is
     * @throws AcquisitionException if the recording cannot be read
     * @throws tickover.store.StoreException if the log fails
     */
    public Optional<Visit> keep(LogPlace place) {
        close();
        if (run.status().capture() <= 1 && !run.status().capturing()) {
            OpenRound.settle(spec.file());
            return Optional.empty();
        }
        if (run instanceof Replay) {
            Optional<Visit> known;
            try (Log log = Log.open(place)) {
                known = log.visit(RecordingVisit.idOf(spec.file()));
            }
            if (known.isPresent()) {
                WorkFolder.remove(workFolder);
                return known;
            }
        }
        Visit kept =
                OpenRound.take(spec.file(), spec.complaint(), workFolder.resolve("kept"), place);
        WorkFolder.remove(workFolder);
        return Optional.of(kept);
    }

    /** Ends the recording; what it holds stays on the disk. */
    @Override
    public void close() {
        closing = true;
        run.close();
        mark.close();
        try {
            analyst.join(JOIN_MS);
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
        }
    }
}

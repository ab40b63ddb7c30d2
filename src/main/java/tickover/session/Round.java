package tickover.session;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Clock;
import java.util.Comparator;
import java.util.List;
import java.util.Objects;
import java.util.Optional;
import java.util.concurrent.atomic.AtomicReference;
import java.util.stream.Stream;
import tickover.diagnose.VisitResult;
import tickover.drive.Vehicle;
import tickover.store.Log;
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
    private final Path workFolder;
    private final Recorder recorder;
    private final Thread analyst;
    private final AtomicReference<SoFar> soFar = new AtomicReference<>();
    private final AtomicReference<String> problem = new AtomicReference<>("");
    private volatile boolean closing;
    private volatile int analysed;

    private Round(Spec spec, Path workFolder, Recorder recorder) {
        this.spec = spec;
        this.workFolder = workFolder;
        this.recorder = recorder;
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
            Round round = new Round(spec, work, Recorder.start(plan, lines, clock, listener));
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
     * Says what the next press captures.
     *
     * @param next what and where
     */
    public void aim(PlannedCapture next) {
        recorder.aim(next);
    }

    /** Presses the button that begins and ends captures. */
    public void press() {
        recorder.press();
    }

    /**
     * Returns how the recording stands.
     *
     * @return the latest snapshot
     */
    public RecordStatus status() {
        return recorder.status();
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
                RecordStatus now = recorder.status();
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
                            spec.file(),
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
     * Ends the recording and takes the visit into the log, with what it says.
     *
     * @param dataDir folder of the log
     * @return the visit; empty if nothing usable was captured, in which case the recording stays
     *     where it is
     * @throws AcquisitionException if the recording cannot be read
     * @throws tickover.store.StoreException if the log fails
     */
    public Optional<Visit> keep(Path dataDir) {
        close();
        if (recorder.status().capture() <= 1 && !recorder.status().capturing()) {
            return Optional.empty();
        }
        Path folder = workFolder.resolve("kept");
        RecordingVisit.Made made =
                RecordingVisit.write(
                        spec.file(),
                        new RecordingVisit.About(null, spec.complaint(), Double.NaN),
                        folder);
        try (Log log = Log.open(dataDir)) {
            log.importVisit(made.visit());
        }
        KeptResults.of(dataDir, made.visit(), v -> VisitAnalysis.analyse(v, (done, total) -> {}));
        clear();
        return Optional.of(made.visit());
    }

    /** Ends the recording; what it holds stays on the disk. */
    @Override
    public void close() {
        closing = true;
        recorder.close();
        try {
            analyst.join(JOIN_MS);
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
        }
    }

    /** Folders of earlier looks are derived, and can be made again. */
    private void clear() {
        try (Stream<Path> all = Files.walk(workFolder)) {
            for (Path path : all.sorted(Comparator.reverseOrder()).toList()) {
                Files.deleteIfExists(path);
            }
        } catch (IOException | UncheckedIOException e) {
            // Temporary folders are the system's to clean as well.
        }
    }
}

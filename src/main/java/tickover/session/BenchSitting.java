package tickover.session;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Clock;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import java.util.Objects;
import tickover.diagnose.Mount;
import tickover.diagnose.Regime;
import tickover.drive.Condition;
import tickover.store.VisitCapture;

/**
 * Parts turned on a bench: one recording, captures one after another, each of which can be taken
 * out and judged as soon as it is over, and judged anew when it turns out that the bearing was
 * another one.
 *
 * <p>What is taken out is derived from the recording as it lies on the disk, as an import would.
 */
public final class BenchSitting implements AutoCloseable {
    /** A capture's last edges arrive after its end, s. */
    private static final double TAIL_S = 1.5;

    private static final String KNOWN_GOOD = ", known-good";

    /** Turns of the marked pulley count as they are: there is no belt on a bench. */
    private static final String MARKED = "crank";

    private final Path file;
    private final Path soFarFile;
    private final Path workFolder;
    private final StreamRun run;
    private int over;
    private double overS;

    private BenchSitting(Path file, Path soFarFile, Path workFolder, StreamRun run) {
        this.file = file;
        this.soFarFile = soFarFile;
        this.workFolder = workFolder;
        this.run = run;
    }

    /**
     * What to record.
     *
     * @param file where the recording goes; must not exist
     * @param captureLengthS length of each capture, s
     * @param pulsesPerTurn tach edges per turn of the turning ring
     */
    public record Spec(Path file, double captureLengthS, int pulsesPerTurn) {
        public Spec {
            Objects.requireNonNull(file, "file");
            if (!(captureLengthS > 0)) {
                throw new IllegalArgumentException(
                        "captureLengthS=" + captureLengthS + ", need > 0 s");
            }
        }
    }

    /**
     * Begins to record.
     *
     * @param spec what
     * @param lines from where, at least one
     * @param clock the time of day
     * @param listener hears all of the stream, on the recorder's thread; must be quick
     * @return the running sitting
     * @throws AcquisitionException if a line cannot be opened or the file cannot be made
     */
    public static BenchSitting begin(
            Spec spec, List<RecordLine> lines, Clock clock, StreamListener listener) {
        Objects.requireNonNull(spec, "spec");
        try {
            Files.createDirectories(spec.file().toAbsolutePath().getParent());
            RecordPlan plan =
                    new RecordPlan(
                            spec.file(),
                            "",
                            List.of(),
                            true,
                            spec.captureLengthS(),
                            0,
                            0,
                            spec.pulsesPerTurn(),
                            MARKED);
            Path work = Files.createTempDirectory("tickover-bench");
            return new BenchSitting(
                    spec.file(), spec.file(), work, Recorder.start(plan, lines, clock, listener));
        } catch (IOException e) {
            throw new AcquisitionException(
                    AcquisitionException.Kind.OUTSIDE,
                    "the folder of " + spec.file() + " cannot be made: " + e.getMessage(),
                    e);
        }
    }

    /**
     * Lets a recording run again; its captures begin and end where they did.
     *
     * @param recording the recording
     * @param pace how many times as fast as it was
     * @param listener hears all of the stream; must be quick
     * @return the running sitting
     * @throws AcquisitionException if it is no recording
     */
    public static BenchSitting replay(Path recording, double pace, StreamListener listener) {
        try {
            Path work = Files.createTempDirectory("tickover-bench");
            Path soFar = work.resolve("so-far.tkr");
            Replay replay = Replay.begin(recording, soFar, pace, listener);
            return new BenchSitting(recording, soFar, work, replay);
        } catch (IOException e) {
            throw new AcquisitionException(
                    AcquisitionException.Kind.OUTSIDE,
                    "no temporary folder can be made: " + e.getMessage(),
                    e);
        }
    }

    /**
     * Says what the next press captures.
     *
     * @param part what the part is called
     * @param knownGood whether it is a known-good one of its kind
     * @param mount how the probe is held
     */
    public void aim(String part, boolean knownGood, Mount mount) {
        run.aim(
                new PlannedCapture(
                        part + (knownGood ? KNOWN_GOOD : ""),
                        "radial",
                        mount,
                        Regime.HOLD,
                        Condition.UNLOADED));
    }

    /**
     * Tells whether a capture is of a known-good part.
     *
     * @param point what {@link RecordStatus#point} says of it
     * @return true if it was aimed at so
     */
    public static boolean isKnownGood(String point) {
        return point.endsWith(KNOWN_GOOD);
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
        return file;
    }

    /**
     * Returns how many captures are over and have all their edges. Called by one thread.
     *
     * @return counted from the first
     */
    public int over() {
        RecordStatus now = run.status();
        int ended = now.capture() - 1;
        if (ended > over) {
            boolean settled = now.finished() || (overS > 0 && now.elapsedS() >= overS + TAIL_S);
            if (settled) {
                over = ended;
                overS = 0;
            } else if (overS == 0) {
                overS = now.elapsedS();
            }
        }
        return over;
    }

    /**
     * Takes a capture out of the recording. Takes a while; any thread but the recorder's.
     *
     * @param number counted from 1
     * @return its longest stretch without a gap
     * @throws AcquisitionException if nothing usable came of it
     */
    public VisitCapture take(int number) {
        String id = String.format(Locale.ROOT, "c%02d", number);
        RecordingVisit.Made made;
        try {
            made =
                    RecordingVisit.write(
                            soFarFile,
                            RecordingVisit.About.NOTHING,
                            Files.createTempDirectory(workFolder, "after-" + number + "-"));
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
        return made.visit().captures().stream()
                .filter(c -> c.label().id().equals(id) || c.label().id().startsWith(id + "-"))
                .max(Comparator.comparingInt(c -> c.load().sampleCount()))
                .orElseThrow(
                        () ->
                                new AcquisitionException(
                                        AcquisitionException.Kind.BAD_INPUT,
                                        "Nothing usable came of it: it was too short, or samples"
                                                + " were lost all over; capture once more.",
                                        null));
    }

    /** Ends the recording, which stays on the disk; what was taken out of it is gone. */
    @Override
    public void close() {
        run.close();
        WorkFolder.remove(workFolder);
    }
}

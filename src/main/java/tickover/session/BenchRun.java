package tickover.session;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import tickover.align.CaptureSignal;
import tickover.align.SpeedSource;
import tickover.diagnose.Bench;
import tickover.diagnose.BenchRecord;
import tickover.diagnose.BenchResult;
import tickover.diagnose.BenchTake;
import tickover.drive.BearingGeometry;
import tickover.drive.Ring;
import tickover.order.AngleFinder;
import tickover.order.AngleFinding;
import tickover.order.AnglePrior;
import tickover.order.ShaftAngle;
import tickover.store.TachFile;
import tickover.store.VisitCapture;
import tickover.store.WavFile;

/** Judges records of a bearing that is turned alone. Immutable. */
public final class BenchRun {
    private final double scaleMps2;
    private final BearingGeometry geometry;
    private final Ring turning;

    /**
     * Sets out what is on the bench.
     *
     * @param scaleMps2 m/s² per full scale of whole numbers, per unit of floating point
     * @param geometry the bearing's internals
     * @param turning the ring that turns
     */
    public BenchRun(double scaleMps2, BearingGeometry geometry, Ring turning) {
        this.scaleMps2 = scaleMps2;
        this.geometry = Objects.requireNonNull(geometry, "geometry");
        this.turning = Objects.requireNonNull(turning, "turning");
    }

    /**
     * Sets out what is on the bench, for captures that say themselves what their samples are.
     *
     * @param geometry the bearing's internals
     * @param turning the ring that turns
     */
    public BenchRun(BearingGeometry geometry, Ring turning) {
        this(1, geometry, turning);
    }

    private BenchRecord record(WavFile wav) {
        return new BenchRecord(List.of(wav.valuesMps2()), wav.sampleRateHz(), geometry, turning);
    }

    private BenchRecord record(CaptureSignal signal) {
        List<double[]> channels = new ArrayList<>();
        for (int c = 0; c < signal.channels(); c++) {
            channels.add(signal.accelMps2(c));
        }
        return new BenchRecord(channels, signal.sampleRateHz(), geometry, turning);
    }

    /**
     * Takes a capture at a speed that is roughly known.
     *
     * @param capture the capture; all its channels count
     * @param speedRpm speed of the turning ring, rpm
     * @return the record with its angle
     * @throws tickover.store.VisitFolderException if its files changed for the worse
     * @throws IllegalArgumentException if the sample rate does not suit the speed
     */
    public BenchTake atSpeed(VisitCapture capture, double speedRpm) {
        return BenchTake.atSpeed(record(capture.load()), speedRpm);
    }

    /**
     * Takes a capture of which no speed is said.
     *
     * @param capture the capture; all its channels count
     * @return the record with its angle
     * @throws tickover.store.VisitFolderException if its files changed for the worse
     * @throws NoAngleException if it does not show its speed; the message says what to give
     */
    public BenchTake findingSpeed(VisitCapture capture) {
        try {
            return BenchTake.findingSpeed(record(capture.load()));
        } catch (IllegalArgumentException e) {
            throw new NoAngleException(capture.label().id(), e.getMessage());
        }
    }

    /**
     * Takes a capture with the tach edges that came with it: of a mark on the turning ring.
     *
     * @param capture the capture; all its channels count
     * @return the record with its angle
     * @throws tickover.store.VisitFolderException if its files changed for the worse
     * @throws NoAngleException if no edges came, or they give no angle
     */
    public BenchTake withTach(VisitCapture capture) {
        CaptureSignal signal = capture.load();
        if (signal.speed().kind() != SpeedSource.Kind.TACH) {
            throw new NoAngleException(
                    capture.label().id(),
                    "no edges of a tach came; point it at the mark on the turning ring, or give"
                            + " the speed");
        }
        return BenchTake.withTach(record(signal), angle(signal, capture.label().id()));
    }

    private static ShaftAngle angle(CaptureSignal signal, String name) {
        // The prior is for records without pulses; any engine will do.
        AngleFinding found = AngleFinder.find(signal, AnglePrior.of(4, 4));
        return found.angle()
                .orElseThrow(
                        () ->
                                new NoAngleException(
                                        name, found.problem().orElse("the tach gives no angle")));
    }

    /**
     * Reads a record at a speed that is roughly known.
     *
     * @param file the WAV file; all its channels count
     * @param speedRpm speed of the turning ring, rpm
     * @return the record with its angle
     * @throws tickover.store.VisitFolderException if the file cannot be used
     * @throws IllegalArgumentException if the sample rate does not suit the speed
     */
    public BenchTake atSpeed(Path file, double speedRpm) {
        return BenchTake.atSpeed(record(WavFile.read(file, scaleMps2)), speedRpm);
    }

    /**
     * Reads a record of which no speed is said.
     *
     * @param file the WAV file; all its channels count
     * @return the record with its angle
     * @throws tickover.store.VisitFolderException if the file cannot be used
     * @throws NoAngleException if it does not show its speed; the message says what to give
     */
    public BenchTake findingSpeed(Path file) {
        BenchRecord record = record(WavFile.read(file, scaleMps2));
        try {
            return BenchTake.findingSpeed(record);
        } catch (IllegalArgumentException e) {
            throw new NoAngleException(file.toString(), e.getMessage());
        }
    }

    /**
     * Reads a record with the pulses of a mark on the turning ring.
     *
     * @param file the WAV file; all its channels count
     * @param tach CSV with the header {@code time_s}
     * @param pulsesPerTurn marks per turn
     * @return the record with its angle
     * @throws tickover.store.VisitFolderException if a file cannot be used
     * @throws NoAngleException if the pulses give no angle
     */
    public BenchTake withTach(Path file, Path tach, int pulsesPerTurn) {
        WavFile wav = WavFile.read(file, scaleMps2);
        CaptureSignal signal =
                new CaptureSignal(
                        wav.sampleRateHz(), wav.valuesMps2(), TachFile.read(tach, pulsesPerTurn));
        return BenchTake.withTach(record(wav), angle(signal, file.toString()));
    }

    /**
     * Judges a record.
     *
     * @param take the record
     * @param goods records of known-good parts of the same kind on the same bench, perhaps none
     * @return the verdict and what it rests on
     * @throws IllegalArgumentException if a record is too short or too slowly sampled
     */
    public static BenchResult judge(BenchTake take, List<BenchTake> goods) {
        return Bench.judge(take, goods);
    }
}

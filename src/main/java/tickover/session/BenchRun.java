package tickover.session;

import java.nio.file.Path;
import java.util.Objects;
import tickover.align.CaptureSignal;
import tickover.diagnose.Bench;
import tickover.diagnose.BenchRecord;
import tickover.diagnose.BenchResult;
import tickover.drive.BearingGeometry;
import tickover.drive.Ring;
import tickover.order.AngleFinder;
import tickover.order.AngleFinding;
import tickover.order.AnglePrior;
import tickover.store.TachFile;
import tickover.store.WavFile;

/** Judges a record of a bearing that is turned alone. One thread. */
public final class BenchRun {
    private final String name;
    private final WavFile wav;
    private final BenchRecord record;

    private BenchRun(String name, WavFile wav, BenchRecord record) {
        this.name = name;
        this.wav = wav;
        this.record = record;
    }

    /**
     * Reads a record; of several channels the first counts.
     *
     * @param file the WAV file
     * @param scaleMps2 m/s² per full scale of whole numbers, per unit of floating point
     * @param geometry the bearing's internals
     * @param turning the ring that turns
     * @return the record, ready to be judged
     * @throws tickover.store.VisitFolderException if the file cannot be used
     */
    public static BenchRun read(
            Path file, double scaleMps2, BearingGeometry geometry, Ring turning) {
        Objects.requireNonNull(geometry, "geometry");
        WavFile wav = WavFile.read(file, scaleMps2);
        return new BenchRun(
                file.toString(),
                wav,
                new BenchRecord(wav.valuesMps2()[0], wav.sampleRateHz(), geometry, turning));
    }

    /**
     * Judges it at a speed that is roughly known.
     *
     * @param speedRpm speed of the turning ring, rpm
     * @return the verdict and what it rests on
     * @throws IllegalArgumentException if the record is too short or too slowly sampled
     */
    public BenchResult atSpeed(double speedRpm) {
        return Bench.atSpeed(record, speedRpm);
    }

    /**
     * Judges it with the pulses of a mark on the turning ring.
     *
     * @param tach CSV with the header {@code time_s}
     * @param pulsesPerTurn marks per turn
     * @return the verdict and what it rests on
     * @throws NoAngleException if the pulses give no angle
     * @throws IllegalArgumentException if the record is too short or too slowly sampled
     */
    public BenchResult withTach(Path tach, int pulsesPerTurn) {
        CaptureSignal signal =
                new CaptureSignal(
                        wav.sampleRateHz(), wav.valuesMps2(), TachFile.read(tach, pulsesPerTurn));
        // The prior is for records without pulses; any engine will do.
        AngleFinding found = AngleFinder.find(signal, AnglePrior.of(4, 4));
        return Bench.withTach(
                record,
                found.angle()
                        .orElseThrow(
                                () ->
                                        new NoAngleException(
                                                name,
                                                found.problem()
                                                        .orElse("the tach gives no angle"))));
    }
}

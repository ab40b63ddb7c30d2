package tickover.order;

import java.util.concurrent.TimeUnit;
import org.openjdk.jmh.annotations.Benchmark;
import org.openjdk.jmh.annotations.BenchmarkMode;
import org.openjdk.jmh.annotations.Fork;
import org.openjdk.jmh.annotations.Measurement;
import org.openjdk.jmh.annotations.Mode;
import org.openjdk.jmh.annotations.OutputTimeUnit;
import org.openjdk.jmh.annotations.Param;
import org.openjdk.jmh.annotations.Scope;
import org.openjdk.jmh.annotations.Setup;
import org.openjdk.jmh.annotations.State;
import org.openjdk.jmh.annotations.Warmup;

/**
 * How long orders of a run-up from 900 to 3000 rpm at 25.6 kHz take, second difference. Time and,
 * under {@code -prof gc}, bytes grow with the length of the record.
 */
@State(Scope.Thread)
@BenchmarkMode(Mode.AverageTime)
@OutputTimeUnit(TimeUnit.MILLISECONDS)
@Warmup(iterations = 3, time = 1)
@Measurement(iterations = 5, time = 1)
@Fork(1)
public class VoldKalmanBench {
    /** Length of the record, s. */
    @Param({"15", "60", "240"})
    public int lengthS;

    /** What is followed. */
    @Param({"order 1, 8 Hz", "order 1, 0.1 Hz", "crossing, 8 Hz", "four close, 8 Hz"})
    public String followed;

    private SweptRecord record;
    private VoldKalman.Spec spec;

    private VoldKalman.Spec specOf() {
        return switch (followed) {
            case "order 1, 8 Hz" -> VoldKalman.Spec.of(TrackedLine.orderWithinHz(1, 8));
            case "order 1, 0.1 Hz" -> VoldKalman.Spec.of(TrackedLine.orderWithinHz(1, 0.1));
            case "crossing, 8 Hz" ->
                    VoldKalman.Spec.of(
                            TrackedLine.orderWithinHz(2, 8), TrackedLine.toneWithinHz(60, 8));
            case "four close, 8 Hz" ->
                    VoldKalman.Spec.of(
                            TrackedLine.orderWithinHz(2, 8),
                            TrackedLine.orderWithinHz(2.1, 8),
                            TrackedLine.orderWithinHz(2.5, 8),
                            TrackedLine.orderWithinHz(3, 8));
            default -> throw new IllegalArgumentException("followed=" + followed);
        };
    }

    /** Makes the record. */
    @Setup
    public void makeRecord() {
        spec = specOf();
        record =
                new SweptRecord(25_600, 900, 3000, lengthS)
                        .add(1, 0, 0, 1)
                        .add(2, 0, 0.3, 0.5)
                        .add(0, 60, 0, 0.2)
                        .addNoise(0.3, 1);
    }

    /** Follows the lines once. */
    @Benchmark
    public LineTracks track() {
        return VoldKalman.track(record.x, record.rateHz, record.angle, spec);
    }
}

package tickover.order;

import java.util.Arrays;
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
import tickover.align.TachPulses;

/** How long the angle of a run-up from 900 to 3000 rpm takes, one jittered pulse per turn. */
@State(Scope.Thread)
@BenchmarkMode(Mode.AverageTime)
@OutputTimeUnit(TimeUnit.MILLISECONDS)
@Warmup(iterations = 3, time = 1)
@Measurement(iterations = 5, time = 1)
@Fork(1)
public class TachAngleBench {
    /** Length of the record, s. */
    @Param({"10", "60"})
    public int lengthS;

    private TachPulses pulses;

    /** Makes the pulses. */
    @Setup
    public void setUp() {
        double[] times = RunUp.exponential(900, 3000, lengthS).pulses(10e-6, 1);
        Arrays.sort(times);
        pulses = new TachPulses(times, 1, 1);
    }

    /**
     * Finds the angle.
     *
     * @return the finding
     */
    @Benchmark
    public AngleFinding find() {
        return TachAngle.find(pulses, lengthS);
    }
}

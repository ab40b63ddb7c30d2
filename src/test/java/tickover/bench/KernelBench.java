package tickover.bench;

import java.util.List;
import java.util.Random;
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
import tickover.dsp.Kurtogram;
import tickover.order.AngularRecord;
import tickover.order.AngularResampler;
import tickover.order.LineTrack;
import tickover.order.ShaftAngle;
import tickover.order.Waterfall;

/**
 * How long each kernel takes on a run-up from 900 to 3000 rpm at 25.6 kHz, one pulse per turn:
 * three orders and noise. Lengths four times apart show whether the cost is linear.
 */
@State(Scope.Thread)
@BenchmarkMode(Mode.AverageTime)
@OutputTimeUnit(TimeUnit.MILLISECONDS)
@Warmup(iterations = 3, time = 1)
@Measurement(iterations = 5, time = 1)
@Fork(1)
public class KernelBench {
    private static final double RATE_HZ = 25_600;
    private static final double FROM_HZ = 15;
    private static final double TO_HZ = 50;

    /** Length of the record, s. */
    @Param({"15", "60"})
    public int lengthS;

    private double[] x;
    private double[] pulsesS;
    private ShaftAngle angle;
    private AngularRecord onAngle;

    /** Makes the record. */
    @Setup
    public void makeRecord() {
        double rise = (TO_HZ - FROM_HZ) / lengthS;
        Random random = new Random(1);
        x = new double[(int) (lengthS * RATE_HZ)];
        for (int i = 0; i < x.length; i++) {
            double t = i / RATE_HZ;
            double rad = 2 * Math.PI * (FROM_HZ * t + rise / 2 * t * t);
            x[i] =
                    Math.sin(rad)
                            + 0.5 * Math.sin(2 * rad)
                            + 0.2 * Math.sin(5.4 * rad)
                            + 0.3 * random.nextGaussian();
        }
        int turns = (int) ((FROM_HZ + TO_HZ) / 2 * lengthS);
        pulsesS = new double[turns + 1];
        for (int i = 0; i <= turns; i++) {
            pulsesS[i] = (Math.sqrt(FROM_HZ * FROM_HZ + 2 * rise * i) - FROM_HZ) / rise;
        }
        angle = Kernels.angle(x, RATE_HZ, pulsesS);
        onAngle = AngularResampler.resample(x, RATE_HZ, angle, Kernels.PER_TURN);
    }

    @Benchmark
    public ShaftAngle pulsesToAngle() {
        return Kernels.angle(x, RATE_HZ, pulsesS);
    }

    @Benchmark
    public AngularRecord resampling() {
        return AngularResampler.resample(x, RATE_HZ, angle, Kernels.PER_TURN);
    }

    @Benchmark
    public Waterfall orderSpectra() {
        return Kernels.orderSpectra(onAngle, angle);
    }

    @Benchmark
    public double[] envelopeSpectrum() {
        return Kernels.envelopeSpectrum(x, RATE_HZ);
    }

    @Benchmark
    public List<Kurtogram.Band> kurtogram() {
        return Kernels.kurtogram(x, RATE_HZ);
    }

    @Benchmark
    public LineTrack voldKalman() {
        return Kernels.orderOne(x, RATE_HZ, angle);
    }
}

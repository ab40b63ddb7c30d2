package tickover.bench;

import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStreamReader;
import java.lang.management.ManagementFactory;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import tickover.align.CaptureSignal;
import tickover.align.TachPulses;
import tickover.dsp.Kurtogram;
import tickover.dsp.RealFft;
import tickover.dsp.RecordSpectrum;
import tickover.dsp.Statistics;
import tickover.dsp.Window;
import tickover.order.AngleFinder;
import tickover.order.AnglePrior;
import tickover.order.AngularRecord;
import tickover.order.AngularResampler;
import tickover.order.LineTrack;
import tickover.order.ShaftAngle;
import tickover.order.TrackedLine;
import tickover.order.VoldKalman;
import tickover.order.Waterfall;

/**
 * Runs one kernel at a time for {@code src/test/python/compare_kernels.py}, which runs the same in
 * SciPy in turn. Argument: the folder with the inputs, where outputs go too. Every line on standard
 * input is a kernel's letter; the answer is its processor time in seconds.
 */
final class KernelPartner {
    private static final double RATE_HZ = 25_600;
    private static final int PER_TURN = 256;
    private static final int TURNS_PER_FRAME = 16;
    private static final int TURNS_PER_ROW = 4;
    private static final double LO_HZ = 3400;
    private static final double HI_HZ = 5000;
    private static final int LEVELS = 6;
    private static final double BANDWIDTH_HZ = 8;

    private final Path folder;
    private final double[] x;
    private final double[] pulsesS;
    private final AngularRecord onAngle;
    private final ShaftAngle angle;

    private KernelPartner(Path folder) throws IOException {
        this.folder = folder;
        this.x = read("x");
        this.pulsesS = read("pulses");
        this.onAngle = new AngularRecord(PER_TURN, 0, read("y"));
        this.angle = angle();
    }

    public static void main(String[] args) throws IOException {
        KernelPartner partner = new KernelPartner(Path.of(args[0]));
        var bean = ManagementFactory.getThreadMXBean();
        BufferedReader in =
                new BufferedReader(new InputStreamReader(System.in, StandardCharsets.UTF_8));
        for (String kernel = in.readLine(); kernel != null; kernel = in.readLine()) {
            long before = bean.getCurrentThreadCpuTime();
            Object answer = partner.run(kernel);
            long took = bean.getCurrentThreadCpuTime() - before;
            partner.write(kernel, answer);
            System.out.println(String.format(Locale.ROOT, "%.9f", took * 1e-9));
        }
    }

    private Object run(String kernel) {
        return switch (kernel) {
            case "a" -> AngularResampler.resample(x, RATE_HZ, angle(), PER_TURN);
            case "b" ->
                    Waterfall.of(
                            onAngle,
                            angle,
                            new Waterfall.Spec(
                                    TURNS_PER_FRAME,
                                    Waterfall.Axis.TURNS,
                                    TURNS_PER_ROW,
                                    Window.HANN));
            case "c" -> envelopeSpectrum();
            case "d" -> Kurtogram.of(x, RATE_HZ, LEVELS);
            case "e" -> order();
            default -> throw new IllegalArgumentException("kernel=" + kernel + ", need a to e");
        };
    }

    private ShaftAngle angle() {
        CaptureSignal signal =
                new CaptureSignal(RATE_HZ, new double[][] {x}, new TachPulses(pulsesS, 1, 1));
        return AngleFinder.find(signal, AnglePrior.of(4, 4)).angle().orElseThrow();
    }

    /** Amplitudes of the squared envelope from 0 Hz in steps of 1/duration. */
    private double[] envelopeSpectrum() {
        // The upper edge is not part of the band.
        double stepHz = RATE_HZ / x.length;
        double[] e =
                RecordSpectrum.ofPeriod(x, RATE_HZ)
                        .squaredEnvelope(LO_HZ, HI_HZ - stepHz / 2)
                        .valuesSquared();
        double mean = Statistics.mean(e);
        for (int i = 0; i < e.length; i++) {
            e[i] -= mean;
        }
        RealFft fft = new RealFft(e.length);
        double[] re = new double[fft.bins()];
        double[] im = new double[fft.bins()];
        fft.forward(e, re, im);
        for (int k = 0; k < re.length; k++) {
            re[k] = Math.sqrt(re[k] * re[k] + im[k] * im[k]) * 2 / e.length;
        }
        return re;
    }

    /** Level and phase of order 1 at the points that the spline between them goes through. */
    private LineTrack order() {
        VoldKalman.Spec spec = VoldKalman.Spec.of(TrackedLine.orderWithinHz(1, BANDWIDTH_HZ));
        return VoldKalman.track(x, RATE_HZ, angle, spec).tracks().get(0);
    }

    private void write(String kernel, Object answer) throws IOException {
        switch (kernel) {
            case "a" -> {
                AngularRecord record = (AngularRecord) answer;
                save("a", new double[] {record.startTurns()}, record.values());
            }
            case "b" ->
                    save(
                            "b",
                            ((Waterfall) answer)
                                    .rows().stream()
                                            .map(Waterfall.Row::rms)
                                            .toArray(double[][]::new));
            case "c" -> save("c", (double[]) answer);
            case "d" -> {
                @SuppressWarnings("unchecked")
                List<Kurtogram.Band> bands = (List<Kurtogram.Band>) answer;
                save(
                        "d",
                        bands.stream()
                                .map(b -> new double[] {b.level(), b.loHz(), b.kurtosis()})
                                .toArray(double[][]::new));
            }
            default -> {
                LineTrack track = (LineTrack) answer;
                save("e", track.timesS(), track.rms(), track.phaseDeg());
            }
        }
    }

    private double[] read(String name) throws IOException {
        ByteBuffer bytes =
                ByteBuffer.wrap(Files.readAllBytes(folder.resolve(name + ".f64")))
                        .order(ByteOrder.LITTLE_ENDIAN);
        double[] values = new double[bytes.remaining() / Double.BYTES];
        bytes.asDoubleBuffer().get(values);
        return values;
    }

    private void save(String name, double[]... rows) throws IOException {
        int count = Arrays.stream(rows).mapToInt(r -> r.length).sum();
        ByteBuffer bytes = ByteBuffer.allocate(count * Double.BYTES).order(ByteOrder.LITTLE_ENDIAN);
        for (double[] row : rows) {
            for (double value : row) {
                bytes.putDouble(value);
            }
        }
        Files.write(folder.resolve(name + ".out"), bytes.array());
    }
}

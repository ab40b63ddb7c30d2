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
import tickover.dsp.Kurtogram;
import tickover.order.AngularRecord;
import tickover.order.LineTrack;
import tickover.order.ShaftAngle;
import tickover.order.Waterfall;

/**
 * Runs one kernel at a time for {@code src/test/python/compare_kernels.py}, which runs the same in
 * SciPy in turn. Argument: the folder with the inputs, where outputs go too. Every line on standard
 * input is a kernel's letter; the answer is its processor time in seconds.
 */
final class KernelPartner {
    private static final double RATE_HZ = 25_600;

    private final Path folder;
    private final double[] x;
    private final double[] pulsesS;
    private final AngularRecord onAngle;
    private final ShaftAngle angle;

    private KernelPartner(Path folder) throws IOException {
        this.folder = folder;
        this.x = read("x");
        this.pulsesS = read("pulses");
        this.onAngle = new AngularRecord(Kernels.PER_TURN, 0, read("y"));
        this.angle = Kernels.angle(x, RATE_HZ, pulsesS);
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
            case "a" -> Kernels.onAngle(x, RATE_HZ, pulsesS);
            case "b" -> Kernels.orderSpectra(onAngle, angle);
            case "c" -> Kernels.envelopeSpectrum(x, RATE_HZ);
            case "d" -> Kernels.kurtogram(x, RATE_HZ);
            case "e" -> Kernels.orderOne(x, RATE_HZ, angle);
            case "f" -> Kernels.whole(x, RATE_HZ, pulsesS);
            default -> throw new IllegalArgumentException("kernel=" + kernel + ", need a to f");
        };
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
            case "f" -> {
                Kernels.Whole whole = (Kernels.Whole) answer;
                double[] band = {whole.band().loHz(), whole.band().hiHz()};
                save("f", band, whole.levelsMps2(), whole.envelope());
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

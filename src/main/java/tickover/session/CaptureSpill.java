package tickover.session;

import java.io.BufferedInputStream;
import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import tickover.align.ProbeStart;
import tickover.align.SampleRun;
import tickover.align.StretchSink;
import tickover.store.WavEncoding;
import tickover.store.WavWriter;
import tickover.store.WrittenWav;

/**
 * Writes the samples of a capture to files as they come, one for each stretch, so that memory does
 * not grow with it. What came as whole numbers is kept as whole numbers, to the last count. One
 * thread.
 */
final class CaptureSpill implements StretchSink {
    /** Far below the smallest step between two steps of 16 bits, 1/256. */
    private static final double ROUND_OFF = 1e-6;

    private static final int STEPS_OF_16_BITS = 1 << 15;

    private final Path folder;
    private final String prefix;
    private final List<Stretch> stretches = new ArrayList<>();

    /**
     * @param folder gets the files; its disk is that of the visit folder
     * @param prefix begins their names, such as {@code .c01}
     */
    CaptureSpill(Path folder, String prefix) {
        this.folder = folder;
        this.prefix = prefix;
    }

    @Override
    public void begin(int stretch, ProbeStart start, int axes) {
        try {
            if (stretch > 0) {
                stretches.get(stretch - 1).out.close();
            }
            stretches.add(
                    new Stretch(
                            folder.resolve(prefix + "-" + stretch + ".part"),
                            axes,
                            start.fullScaleMps2()));
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    @Override
    public void samples(SampleRun run) {
        try {
            stretches.get(stretches.size() - 1).add(run.accelMps2());
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    /** Makes a stretch's file whole. */
    WrittenWav written(int stretch, double rateHz) {
        try {
            return stretches.get(stretch).finished(rateHz);
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    /** Removes the files of stretches that nobody asked for, and closes all. */
    void discard() {
        try {
            for (Stretch s : stretches) {
                s.out.close();
                if (!s.finished) {
                    Files.deleteIfExists(s.file);
                }
            }
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    /** One stretch: in 16 bits until a sample comes that needs more. */
    private static final class Stretch {
        private final int axes;
        private final double scaleMps2;
        private Path file;
        private WavEncoding encoding;
        private WavWriter out;
        private boolean finished;

        Stretch(Path file, int axes, double fullScaleMps2) throws IOException {
            this.file = file;
            this.axes = axes;
            this.encoding = fullScaleMps2 > 0 ? WavEncoding.PCM_16 : WavEncoding.FLOAT_32;
            this.scaleMps2 = fullScaleMps2 > 0 ? fullScaleMps2 : 1;
            this.out = new WavWriter(file, axes, encoding, scaleMps2);
        }

        void add(double[] accelMps2) throws IOException {
            if (encoding == WavEncoding.PCM_16 && !fitsSixteenBits(accelMps2)) {
                widen();
            }
            out.add(accelMps2);
        }

        private boolean fitsSixteenBits(double[] accelMps2) {
            double stepMps2 = scaleMps2 / STEPS_OF_16_BITS;
            for (double a : accelMps2) {
                double steps = a / stepMps2;
                if (Math.abs(steps - Math.rint(steps)) > ROUND_OFF) {
                    return false;
                }
            }
            return true;
        }

        /** A probe of 24 bits fills the steps between those of 16 within its first samples. */
        private void widen() throws IOException {
            out.close();
            Path wide = file.resolveSibling(file.getFileName() + ".wide");
            WavWriter wider = new WavWriter(wide, axes, WavEncoding.PCM_24, scaleMps2);
            double[] held = new double[1 << 12];
            int count = 0;
            int bytes = Short.BYTES;
            try (InputStream in = new BufferedInputStream(Files.newInputStream(file))) {
                in.skipNBytes(out.headBytes());
                byte[] sample = in.readNBytes(bytes);
                while (sample.length == bytes) {
                    int steps = (sample[0] & 0xFF) | sample[1] << 8;
                    held[count++] = steps * (scaleMps2 / STEPS_OF_16_BITS);
                    if (count == held.length / axes * axes) {
                        wider.add(Arrays.copyOf(held, count));
                        count = 0;
                    }
                    sample = in.readNBytes(bytes);
                }
            }
            wider.add(Arrays.copyOf(held, count));
            Files.delete(file);
            file = wide;
            encoding = WavEncoding.PCM_24;
            out = wider;
        }

        WrittenWav finished(double rateHz) throws IOException {
            out.finish(rateHz);
            finished = true;
            return new WrittenWav(file, scaleMps2);
        }
    }
}

package tickover.session;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import tickover.store.WavEncoding;
import tickover.store.WavFile;

/** Writes sounds of parts as WAV files that any player plays: one channel, 16 bit. */
public final class ListeningFile {
    /** Pause between two sounds in one file, s. */
    static final double PAUSE_S = 0.6;

    /** Sounds fade in and out for so long, s, so that they neither click nor pop. */
    private static final double FADE_S = 0.02;

    private ListeningFile() {}

    /**
     * Puts sounds after each other, each times its gain.
     *
     * @param sounds at least one, all of one sample rate
     * @param gains full scale per m/s², one per sound
     * @return samples, 1 at full scale
     * @throws IllegalArgumentException if the rates differ
     */
    public static double[] inARow(List<PartAudio> sounds, List<Double> gains) {
        double rateHz = sounds.get(0).sampleRateHz();
        int pause = (int) Math.round(PAUSE_S * rateHz);
        int length = pause * (sounds.size() - 1);
        for (PartAudio sound : sounds) {
            if (sound.sampleRateHz() != rateHz) {
                throw new IllegalArgumentException(
                        "sampleRateHz="
                                + rateHz
                                + " and "
                                + sound.sampleRateHz()
                                + ", need one rate for one file; write two files");
            }
            length += sound.accelMps2().length;
        }
        double[] out = new double[length];
        int at = 0;
        for (int i = 0; i < sounds.size(); i++) {
            double[] x = sounds.get(i).accelMps2();
            int fade = (int) Math.max(1, Math.min(x.length / 2.0, FADE_S * rateHz));
            for (int k = 0; k < x.length; k++) {
                double edge = Math.min(1, Math.min(k, x.length - 1 - k) / (double) fade);
                out[at + k] = gains.get(i) * edge * x[k];
            }
            at += x.length + pause;
        }
        return out;
    }

    /**
     * Writes a file, in place of one that is there.
     *
     * @param file the file
     * @param sounds at least one, all of one sample rate
     * @param gains full scale per m/s², one per sound
     * @throws IOException if it cannot be written
     * @throws IllegalArgumentException if the rates differ
     */
    public static void write(Path file, List<PartAudio> sounds, List<Double> gains)
            throws IOException {
        Objects.requireNonNull(file, "file");
        double[] samples = inARow(sounds, new ArrayList<>(gains));
        Path part = file.resolveSibling("." + file.getFileName() + ".part");
        Files.deleteIfExists(part);
        try {
            WavFile.write(
                    part,
                    Math.rint(sounds.get(0).sampleRateHz()),
                    new double[][] {samples},
                    WavEncoding.PCM_16,
                    1);
            Files.move(part, file, StandardCopyOption.REPLACE_EXISTING);
        } finally {
            Files.deleteIfExists(part);
        }
    }
}

package tickover.cli;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Locale;
import java.util.Random;
import tickover.store.WavEncoding;
import tickover.store.WavFile;

/**
 * A made-up record of an idler turned on a bench at 1500 rpm: noise, a faint turn, and a spot on
 * the outer ring of a bearing with 8 balls of 6.747 mm on 28.5 mm, outer ring turning. A spot that
 * turns passes the load once per turn, so its knocks swell once per turn.
 */
final class BenchRecording {
    static final double SPEED_RPM = 1500;
    static final double OUTER_ORDER = 4 * (1 - 6.747 / 28.5);

    private static final double RATE_HZ = 25600;
    private static final double LENGTH_S = 10;
    private static final double RING_HZ = 4200;
    private static final double DECAY_S = 0.0008;
    private static final double KNOCK_MPS2 = 6;
    private static final double JITTER_RATIO = 0.01;

    private BenchRecording() {}

    static void write(Path wav, Path tach) throws IOException {
        Random random = new Random(11);
        double[] x = new double[(int) (RATE_HZ * LENGTH_S)];
        double turnsHz = SPEED_RPM / 60;
        for (int i = 0; i < x.length; i++) {
            x[i] =
                    0.5 * random.nextGaussian()
                            + 0.2 * Math.sin(2 * Math.PI * turnsHz * i / RATE_HZ);
        }
        double period = 1 / (OUTER_ORDER * turnsHz);
        for (double t = 0.01; t < LENGTH_S - 0.02; ) {
            double load = 1 + 0.9 * Math.cos(2 * Math.PI * turnsHz * t);
            int first = (int) Math.ceil(t * RATE_HZ);
            for (int i = first; i < first + 256; i++) {
                double since = i / RATE_HZ - t;
                x[i] +=
                        KNOCK_MPS2
                                * load
                                * Math.exp(-since / DECAY_S)
                                * Math.sin(2 * Math.PI * RING_HZ * since);
            }
            t += period * (1 + JITTER_RATIO * random.nextGaussian());
        }
        WavFile.write(wav, RATE_HZ, new double[][] {x}, WavEncoding.FLOAT_32, 1);
        StringBuilder csv = new StringBuilder("time_s\n");
        for (int k = 0; k / turnsHz < LENGTH_S; k++) {
            csv.append(String.format(Locale.ROOT, "%.7f%n", k / turnsHz));
        }
        Files.writeString(tach, csv.toString());
    }
}

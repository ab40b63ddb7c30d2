package tickover.diagnose;

import java.util.Random;
import tickover.sim.EndlessScene;

/** Some seconds of one or more axes with known orders, and when the mark passes. */
final class LiveScene {
    final double rateHz;
    final int axes;
    final double[] x;
    final double[] edges;

    /** Orders and their rms go by pairs; noise is white. */
    LiveScene(
            double rateHz,
            int axes,
            double lengthS,
            EndlessScene.Turning turning,
            double noiseRms,
            double... ordersAndRms) {
        this.rateHz = rateHz;
        this.axes = axes;
        int count = (int) (lengthS * rateHz);
        this.x = new double[count * axes];
        Random random = new Random(11);
        for (int i = 0; i < count; i++) {
            double turns = turning.turnsAt(i / rateHz);
            for (int a = 0; a < axes; a++) {
                double v = noiseRms * random.nextGaussian();
                for (int k = 0; k < ordersAndRms.length; k += 2) {
                    double angle = 2 * Math.PI * ordersAndRms[k] * turns + k + a;
                    v += Math.sqrt(2) * ordersAndRms[k + 1] * Math.cos(angle);
                }
                x[i * axes + a] = v;
            }
        }
        int passages = (int) turning.turnsAt(lengthS);
        this.edges = new double[passages];
        for (int k = 0; k < passages; k++) {
            double lo = 0;
            double hi = lengthS;
            for (int step = 0; step < 60; step++) {
                double middle = (lo + hi) / 2;
                if (turning.turnsAt(middle) < k) {
                    lo = middle;
                } else {
                    hi = middle;
                }
            }
            edges[k] = hi * rateHz;
        }
    }

    int count() {
        return x.length / axes;
    }

    /** Feeds all of it in blocks of random length, edges as late as they may come. */
    void feed(LiveAnalysis analysis, int longest, long seed) {
        Random random = new Random(seed);
        int edge = 0;
        for (int from = 0; from < count(); ) {
            int block = Math.min(1 + random.nextInt(longest), count() - from);
            double lateSamples = random.nextDouble() * rateHz;
            boolean edgesFirst = random.nextBoolean();
            if (!edgesFirst) {
                analysis.samples(from, x, from, block);
            }
            while (edge < edges.length
                    && edges[edge] < from + block - (edgesFirst ? 0 : lateSamples)) {
                analysis.edge(edges[edge++], 0);
            }
            if (edgesFirst) {
                analysis.samples(from, x, from, block);
            }
            from += block;
        }
        while (edge < edges.length) {
            analysis.edge(edges[edge++], 0);
        }
    }
}

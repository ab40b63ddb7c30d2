package tickover.order;

import java.util.Random;

/**
 * Vibration of an invented engine: lines at multiples of half an order, strongest at firings;
 * belt-driven lines beside them; injector knocks far up; a fan that keeps its own speed; noise.
 */
final class EngineSignal {
    private EngineSignal() {}

    static double[] of(RunUp run, int cylinders, double rateHz, long seed) {
        Random random = new Random(seed);
        int n = (int) (run.durationS * rateHz);
        double[] turns = new double[n];
        for (int i = 0; i < n; i++) {
            turns[i] = run.turnsAt(i / rateHz);
        }
        double[] x = new double[n];
        for (int half = 1; half <= 48; half++) {
            double order = half / 2.0;
            boolean firing = half % cylinders == 0;
            double size = (firing ? 1 : 0.15 + 0.2 * random.nextDouble()) / Math.sqrt(order);
            addLine(x, turns, order, size, random);
        }
        addLine(x, turns, 1.9643, 0.4, random);
        addLine(x, turns, 2.5667, 0.4, random);
        addLine(x, turns, 2.5667 * 36, 0.3, random);
        double phase = 2 * Math.PI * random.nextDouble();
        double[] knock = new double[cylinders];
        for (int c = 0; c < cylinders; c++) {
            knock[c] = 1 + 0.3 * random.nextGaussian();
        }
        double ring = 0;
        double ringBefore = 0;
        double pole = Math.exp(-2 * Math.PI * 60 / rateHz);
        double turn = 2 * pole * Math.cos(2 * Math.PI * 0.17);
        for (int i = 0; i < n; i++) {
            double cycles = turns[i] * cylinders / 2;
            double before = i == 0 ? cycles : turns[i - 1] * cylinders / 2;
            boolean fires = Math.floor(cycles) > Math.floor(before);
            double hit = fires ? knock[Math.floorMod((int) Math.floor(cycles), cylinders)] : 0;
            double next = turn * ring - pole * pole * ringBefore + hit;
            ringBefore = ring;
            ring = next;
            x[i] += ring + 0.3 * Math.cos(2 * Math.PI * 47 * i / rateHz + phase);
            x[i] += 0.3 * random.nextGaussian();
        }
        return x;
    }

    private static void addLine(
            double[] x, double[] turns, double order, double amplitude, Random random) {
        double phase = 2 * Math.PI * random.nextDouble();
        for (int i = 0; i < x.length; i++) {
            x[i] += amplitude * Math.cos(2 * Math.PI * order * turns[i] + phase);
        }
    }

    /** Idle that hunts by about a percent. */
    static RunUp idle(double rpm, double durationS) {
        double f = rpm / 60;
        return RunUp.of(
                durationS,
                t ->
                        f * t
                                + f
                                        * 0.008
                                        * Math.sin(2 * Math.PI * 0.45 * t)
                                        / (2 * Math.PI * 0.45)
                                + f
                                        * 0.003
                                        * Math.sin(2 * Math.PI * 1.3 * t)
                                        / (2 * Math.PI * 1.3));
    }
}

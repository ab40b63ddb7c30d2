package tickover.sim;

import java.util.ArrayList;
import java.util.List;

/**
 * The way from every place to every point: shared resonances of the whole structure, of which each
 * pair of place and point has its own share, plus a direct way that loses level and treble with
 * distance. Every pair keeps its own uncertain gain.
 */
final class Structure {
    private static final int MODES = 9;
    private static final double LOW_HZ = 140;
    private static final double HIGH_HZ = 9000;

    /** Distance over which level first halves, mm. */
    private static final double NEAR_MM = 65;

    private static final double DB_PER_DOUBLING = 4.5;
    private static final double PAIR_SIGMA_DB = 3;

    /** Treble falls by 1/e over this distance times frequency, mm Hz. */
    private static final double TREBLE_MM_HZ = 2.2e6;

    /** Distance over which the direct way turns from bright to dull, mm. */
    private static final double BRIGHT_MM = 220;

    private static final double DULL_CORNER_HZ = 2500;
    private static final int BLOCK_SAMPLES = 2048;

    private final Draw draw;
    private final List<Mode> modes;

    Structure(Draw draw) {
        this.draw = draw;
        List<Mode> drawn = new ArrayList<>();
        for (int k = 0; k < MODES; k++) {
            double at =
                    LOW_HZ
                            * Math.pow(
                                    HIGH_HZ / LOW_HZ, (k + draw.between(-0.4, 0.4)) / (MODES - 1));
            drawn.add(new Mode(at, draw.logBetween(0.015, 0.06), 1));
        }
        this.modes = List.copyOf(drawn);
    }

    /** Gains of one place at one point and axis: direct bright, direct dull, one per mode. */
    private double[] gains(Place place, String point, Site at, String axis) {
        Draw pair = draw.branch(place.name() + ">" + point);
        Draw sense = draw.branch(place.name() + ">" + point + ">" + axis);
        double distance = place.site().distanceMm(at);
        double db = -DB_PER_DOUBLING * Math.log1p(distance / NEAR_MM) / Math.log(2);
        double gain =
                Math.pow(10, db / 20)
                        * (distance < 1 ? pair.ratioOfDb(1) : pair.ratioOfDb(PAIR_SIGMA_DB))
                        * sense.ratioOfDb(2);
        if (place.name().equals("engine")) {
            // The engine shakes as one body: distance hardly matters.
            gain = pair.ratioOfDb(1.5) * sense.ratioOfDb(3);
        }
        if (place.name().equals("cooling-fan")) {
            gain *= 0.3;
        }
        double[] out = new double[2 + modes.size()];
        double bright = Math.exp(-distance / BRIGHT_MM);
        double sign = sense.chance(0.5) ? 1 : -1;
        out[0] = sign * 0.75 * gain * bright;
        out[1] = sign * 0.75 * gain * (1 - bright);
        for (int k = 0; k < modes.size(); k++) {
            double treble = Math.exp(-distance * modes.get(k).frequencyHz() / TREBLE_MM_HZ);
            out[2 + k] = gain * treble * 0.9 * sense.gaussian();
        }
        return out;
    }

    /**
     * Adds up what arrives at a point.
     *
     * @param places the places
     * @param shaken acceleration of each, m/s²
     * @param point the point's name
     * @param at where it is
     * @param axis direction; each direction has its own gains
     * @param sampleRateHz rate, Hz
     * @return acceleration at the point, m/s²
     */
    double[] arriving(
            List<Place> places,
            List<double[]> shaken,
            String point,
            Site at,
            String axis,
            double sampleRateHz) {
        int count = shaken.get(0).length;
        double[] out = new double[count];
        List<double[]> gains = places.stream().map(p -> gains(p, point, at, axis)).toList();
        ModeBank bank = ModeBank.passing(modes, sampleRateHz);
        double[] state = bank.state();
        double[] mixed = new double[BLOCK_SAMPLES];
        double dull = Math.exp(-2 * Math.PI * DULL_CORNER_HZ / sampleRateHz);
        double last = 0;
        for (int from = 0; from < count; from += BLOCK_SAMPLES) {
            int n = Math.min(BLOCK_SAMPLES, count - from);
            mix(shaken, gains, 0, from, n, mixed);
            for (int i = 0; i < n; i++) {
                out[from + i] = mixed[i];
            }
            mix(shaken, gains, 1, from, n, mixed);
            for (int i = 0; i < n; i++) {
                last = dull * last + (1 - dull) * mixed[i];
                out[from + i] += last;
            }
            for (int k = 0; k < bank.size(); k++) {
                mix(shaken, gains, 2 + k, from, n, mixed);
                bank.add(k, mixed, 0, out, from, n, state);
            }
        }
        return out;
    }

    private static void mix(
            List<double[]> shaken,
            List<double[]> gains,
            int gain,
            int from,
            int n,
            double[] mixed) {
        java.util.Arrays.fill(mixed, 0, n, 0);
        for (int p = 0; p < shaken.size(); p++) {
            double g = gains.get(p)[gain];
            double[] x = shaken.get(p);
            for (int i = 0; i < n; i++) {
                mixed[i] += g * x[from + i];
            }
        }
    }
}

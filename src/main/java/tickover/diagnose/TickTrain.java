package tickover.diagnose;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.List;

/**
 * Knocks that come once per firing, slot by slot, in the bands where ticks ring.
 *
 * @param offset place of the first slot, values of the mean cycle
 * @param peaks power of each slot's knock, (m/s²)², at least the floor
 * @param floor the least that counts as a knock, (m/s²)²
 */
@SuppressWarnings("ArrayRecordComponent") // only read, by the classes beside this one
record TickTrain(int offset, double[] peaks, double floor) {
    /** A knock is sought this far from its place, as a share of the cycle. */
    private static final double REACH_SHARE = 0.006;

    /** Two trains are at least this far apart, as a share of the cycle. */
    private static final double APART_SHARE = 0.015;

    /** What is weaker than this share of the mean is no knock. */
    private static final double FLOOR_SHARE = 0.03;

    /** What rises less than this over what lies between knocks is no knock. */
    private static final double NOISE_SPREADS = 4;

    static TickTrain loudest(CaptureMeasurement c, int slots) {
        return of(c, slots, 1).get(0);
    }

    /** The strongest trains, strongest first. */
    static List<TickTrain> of(CaptureMeasurement c, int slots, int most) {
        double[] narrow = new double[0];
        double level = 0;
        for (BandMeasurement band : c.bands()) {
            if (Quantities.isRinging(c, band)) {
                double[] x = band.cycle().narrow();
                narrow = narrow.length == 0 ? new double[x.length] : narrow;
                for (int i = 0; i < x.length; i++) {
                    narrow[i] += x[i];
                }
                level += band.cycle().level();
            }
        }
        int n = narrow.length;
        double floor = Math.max(FLOOR_SHARE * level, NOISE_SPREADS * spread(narrow)) + 1e-12;
        List<TickTrain> all = new ArrayList<>();
        for (int offset = 0; offset < n / slots; offset++) {
            all.add(at(narrow, offset, slots, floor));
        }
        all.sort(Comparator.comparingDouble((TickTrain t) -> -t.sum()));
        List<TickTrain> out = new ArrayList<>();
        double period = (double) n / slots;
        for (TickTrain t : all) {
            boolean apart = true;
            for (TickTrain o : out) {
                double d = Math.abs(t.offset - o.offset);
                apart &= Math.min(d, period - d) > APART_SHARE * n;
            }
            if (apart && out.size() < most) {
                out.add(t);
            }
        }
        return out;
    }

    /** Standard deviation of what lies between the knocks, which are few. */
    private static double spread(double[] narrow) {
        double[] sizes = Arrays.stream(narrow).map(Math::abs).sorted().toArray();
        return 1.4826 * sizes[sizes.length / 2];
    }

    private static TickTrain at(double[] narrow, int offset, int slots, double floor) {
        int n = narrow.length;
        int reach = (int) Math.rint(REACH_SHARE * n);
        double[] peaks = new double[slots];
        for (int s = 0; s < slots; s++) {
            int centre = offset + (int) Math.rint((double) s * n / slots);
            double best = floor;
            for (int d = -reach; d <= reach; d++) {
                best = Math.max(best, narrow[Math.floorMod(centre + d, n)]);
            }
            peaks[s] = best;
        }
        return new TickTrain(offset, peaks, floor);
    }

    private double sum() {
        double sum = 0;
        for (double p : peaks) {
            sum += p;
        }
        return sum;
    }

    /** How far the loudest slot rises above the median one, dB. */
    double oddDb() {
        double[] sorted = peaks.clone();
        Arrays.sort(sorted);
        int n = sorted.length;
        return 10 * Math.log10(sorted[n - 1] / sorted[(n - 1) / 2]);
    }
}

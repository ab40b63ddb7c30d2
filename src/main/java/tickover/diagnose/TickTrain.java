package tickover.diagnose;

import java.util.Arrays;

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

    /** What is weaker than this share of the mean is no knock. */
    private static final double FLOOR_SHARE = 0.03;

    /** What rises less than this over what lies between knocks is no knock. */
    private static final double NOISE_SPREADS = 4;

    /** The strongest train. */
    static TickTrain loudest(CaptureMeasurement c, int slots) {
        Knocks knocks = Knocks.of(c);
        TickTrain out = at(knocks, 0, slots);
        for (int offset = 1; offset < knocks.narrow.length / slots; offset++) {
            TickTrain next = at(knocks, offset, slots);
            out = next.sum() > out.sum() ? next : out;
        }
        return out;
    }

    /**
     * How far one cylinder's knock rises over the loudest of the others' at the same place in their
     * parts of the cycle, wherever that is most, dB; 0 where no knock stands out.
     */
    static double oddDb(CaptureMeasurement c, int slots) {
        Knocks knocks = Knocks.of(c);
        double most = 1;
        for (int offset = 0; offset < knocks.narrow.length / slots; offset++) {
            double[] near = at(knocks, offset, slots).peaks;
            for (int s = 0; s < slots; s++) {
                double others = knocks.floor;
                for (int o = 0; o < slots; o++) {
                    others = o == s ? others : Math.max(others, near[o]);
                }
                most = Math.max(most, knocks.narrow[place(knocks, offset, s, slots)] / others);
            }
        }
        return 10 * Math.log10(most);
    }

    /** The mean cycle of the bands where ticks ring, less what is broad in it. */
    private record Knocks(double[] narrow, double floor) {
        static Knocks of(CaptureMeasurement c) {
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
            double floor = Math.max(FLOOR_SHARE * level, NOISE_SPREADS * spread(narrow));
            return new Knocks(narrow, floor + 1e-12);
        }
    }

    private static int place(Knocks knocks, int offset, int slot, int slots) {
        int n = knocks.narrow.length;
        return (offset + (int) Math.rint((double) slot * n / slots)) % n;
    }

    /** Standard deviation of what lies between the knocks, which are few. */
    private static double spread(double[] narrow) {
        double[] sizes = Arrays.stream(narrow).map(Math::abs).sorted().toArray();
        return 1.4826 * sizes[sizes.length / 2];
    }

    private static TickTrain at(Knocks knocks, int offset, int slots) {
        int n = knocks.narrow.length;
        int reach = (int) Math.rint(REACH_SHARE * n);
        double[] peaks = new double[slots];
        for (int s = 0; s < slots; s++) {
            int centre = place(knocks, offset, s, slots);
            double best = knocks.floor;
            for (int d = -reach; d <= reach; d++) {
                best = Math.max(best, knocks.narrow[Math.floorMod(centre + d, n)]);
            }
            peaks[s] = best;
        }
        return new TickTrain(offset, peaks, knocks.floor);
    }

    private double sum() {
        double sum = 0;
        for (double p : peaks) {
            sum += p;
        }
        return sum;
    }
}

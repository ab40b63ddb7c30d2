package tickover.diagnose;

import java.util.Arrays;

/**
 * Knocks that come once per firing, slot by slot, in one band.
 *
 * <p>Bands are looked at one by one: an injector that rings high and a firing that rings low make
 * trains of their own, and in their sum the louder one hides the other.
 *
 * @param peaks power of each slot's knock, (m/s²)², at least the floor
 * @param floor the least that counts as a knock, (m/s²)²
 */
@SuppressWarnings("ArrayRecordComponent") // only read, by the classes beside this one
record TickTrain(double[] peaks, double floor) {
    /** A knock is sought this far from its place, as a share of the cycle. */
    private static final double REACH_SHARE = 0.006;

    /** Knocks of one cylinder alone are sought this narrow, as a share of the cycle. */
    private static final double ODD_SHARE = 0.008;

    /** One cylinder's knock is sought in bands from here on, Hz; a slow probe has its highest. */
    private static final double ODD_FROM_HZ = 600;

    /** From here on a knock is sharp, Hz. */
    private static final double SHARP_FROM_HZ = 2400;

    /** What is weaker than this share of the mean is no knock. */
    private static final double FLOOR_SHARE = 0.03;

    /** What rises less than this over what lies between knocks is no knock. */
    private static final double NOISE_SPREADS = 4;

    /** The strongest train of a band's mean cycle. */
    static TickTrain loudest(CycleProfile cycle, int slots) {
        Knocks knocks = Knocks.of(cycle.narrow(), cycle.level(), REACH_SHARE);
        double[] most = knocks.at(0, slots);
        for (int offset = 1; offset < knocks.narrow.length / slots; offset++) {
            double[] next = knocks.at(offset, slots);
            most = sum(next) > sum(most) ? next : most;
        }
        return new TickTrain(most, knocks.floor);
    }

    /**
     * How far one cylinder's knock rises over the loudest of the others' at the same place in their
     * parts of the cycle, wherever and in whatever band that is most, dB; 0 where none stands out.
     */
    static double oddDb(CaptureMeasurement c, int slots) {
        double highest = c.bands().get(c.bands().size() - 1).loHz();
        return oddDb(c, slots, Math.min(ODD_FROM_HZ, highest), Double.POSITIVE_INFINITY);
    }

    /**
     * How much further one cylinder stands out from {@value #ODD_FROM_HZ} to {@value
     * #SHARP_FROM_HZ} Hz than above, dB: the knock of a rod or piston is dull, an injector's tick
     * sharp (common practice); 0 where the probe is too slow to tell.
     */
    static double dullDb(CaptureMeasurement c, int slots) {
        boolean hearsBoth =
                c.bands().get(c.bands().size() - 1).loHz() >= SHARP_FROM_HZ
                        && c.bands().get(0).loHz() < SHARP_FROM_HZ;
        return hearsBoth
                ? oddDb(c, slots, ODD_FROM_HZ, SHARP_FROM_HZ)
                        - oddDb(c, slots, SHARP_FROM_HZ, Double.POSITIVE_INFINITY)
                : 0;
    }

    private static double oddDb(CaptureMeasurement c, int slots, double fromHz, double toHz) {
        double most = 1;
        for (BandMeasurement band : c.bands()) {
            if (band.loHz() >= fromHz && band.loHz() < toHz) {
                CycleProfile cycle = band.cycle();
                most =
                        Math.max(
                                most,
                                Knocks.of(cycle.narrow(ODD_SHARE), cycle.level(), ODD_SHARE)
                                        .oddest(slots));
            }
        }
        return 10 * Math.log10(most);
    }

    /** The mean cycle of a band less what is broad in it; a knock is sought within the reach. */
    private record Knocks(double[] narrow, double floor, int reach) {
        static Knocks of(double[] narrow, double level, double reachShare) {
            double floor = Math.max(FLOOR_SHARE * level, NOISE_SPREADS * spread(narrow));
            return new Knocks(narrow, floor + 1e-12, (int) Math.rint(reachShare * narrow.length));
        }

        /** The largest ratio of one slot to the others, over all places; 1 at least. */
        double oddest(int slots) {
            double most = 1;
            for (int offset = 0; offset < narrow.length / slots; offset++) {
                double[] near = at(offset, slots);
                for (int s = 0; s < slots; s++) {
                    double others = floor;
                    for (int o = 0; o < slots; o++) {
                        others = o == s ? others : Math.max(others, near[o]);
                    }
                    most = Math.max(most, narrow[place(offset, s, slots)] / others);
                }
            }
            return most;
        }

        double[] at(int offset, int slots) {
            double[] peaks = new double[slots];
            for (int s = 0; s < slots; s++) {
                int centre = place(offset, s, slots);
                double best = floor;
                for (int d = -reach; d <= reach; d++) {
                    best = Math.max(best, narrow[Math.floorMod(centre + d, narrow.length)]);
                }
                peaks[s] = best;
            }
            return peaks;
        }

        private int place(int offset, int slot, int slots) {
            int n = narrow.length;
            return (offset + (int) Math.rint((double) slot * n / slots)) % n;
        }
    }

    /** Standard deviation of what lies between the knocks, which are few. */
    private static double spread(double[] narrow) {
        double[] sizes = Arrays.stream(narrow).map(Math::abs).sorted().toArray();
        return 1.4826 * sizes[sizes.length / 2];
    }

    private static double sum(double[] peaks) {
        double sum = 0;
        for (double p : peaks) {
            sum += p;
        }
        return sum;
    }
}

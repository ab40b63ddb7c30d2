package tickover.diagnose;

import java.util.Arrays;
import java.util.List;
import java.util.function.Function;

/**
 * Looks for the base order that fits a suspect's rhythm best in all captures of a visit together.
 *
 * <p>Slip and internals are the same for all captures, so their odds for one base order multiply;
 * captures at the suspect's own point should show the rhythm, others may. What they say together is
 * the mean of these odds over all base orders that the suspect could have, weighed by how likely
 * each is: a wide range finds something to fit more easily, and the mean takes that into account
 * where the best fit does not.
 *
 * @param at the likeliest base order, an index of {@link RhythmScan}
 * @param nats logarithm of the mean odds for the rhythm in this part, nats
 * @param heardNats the same for the lines at that base order alone, place left out
 */
record RhythmSearch(int at, double nats, double heardNats) {
    /** Chance that a rhythm that is there shows at its own point, and at another. */
    private static final double HEARD_OWN = 0.8;

    private static final double HEARD_ELSEWHERE = 0.3;

    /** From here on the odds of something that need not show are its odds times the chance. */
    private static final double SURE_NATS = 30;

    /** Base orders this many steps apart are one rhythm. */
    private static final int NEAR_STEPS = 5;

    /** What place says counts so much more than lines; from the tuning visits. */
    private static final double PLACE_WEIGHT = 1.3;

    private static final double MOST_AGAINST_NATS = 6;
    private static final double MOST_FOR_NATS = 4;

    /** Looks among combs whose odds, for all captures together, are known for every base order. */
    static RhythmSearch of(Suspect s, double[] combs) {
        int from = RhythmScan.indexOf(s.rhythm().fromOrders());
        return weigh(s, from, stretch(s, combs));
    }

    /**
     * Looks for strikes in a bearing: what lines say for each base order, those beside them that
     * the fault makes, and where such a rhythm comes from, all multiply before the mean is taken.
     * So a wide range does not take hold of a clearer rhythm that is another part's.
     */
    static RhythmSearch ofStrikes(Suspect s, LineMap lines, LinePlaces places) {
        int from = RhythmScan.indexOf(s.rhythm().fromOrders());
        double[] heard = stretch(s, lines.combs(s.ownPoint(), LineMap.Comb.STRIKES));
        for (double apart : s.rhythm().sidebandOrders()) {
            double[] sides = lines.sides(s.ownPoint(), apart, from, from + heard.length - 1);
            Arrays.setAll(heard, i -> heard[i] + sides[i]);
        }
        double[] place = stretch(s, places.nats(s.ownPoint()));
        double[] both = new double[heard.length];
        Arrays.setAll(
                both,
                i ->
                        heard[i]
                                + PLACE_WEIGHT
                                        * ClueFinder.clip(
                                                place[i], -MOST_AGAINST_NATS, MOST_FOR_NATS));
        RhythmSearch found = weigh(s, from, both);
        // The whole range having been looked through, as any of it could have been found.
        double[] near = new double[heard.length];
        Arrays.setAll(
                near,
                i ->
                        Math.abs(from + i - found.at) <= NEAR_STEPS
                                ? heard[i]
                                : Double.NEGATIVE_INFINITY);
        return new RhythmSearch(found.at, found.nats, weigh(s, from, near).nats);
    }

    /** The part of a map of all base orders that a suspect could have. */
    private static double[] stretch(Suspect s, double[] all) {
        int from = RhythmScan.indexOf(s.rhythm().fromOrders());
        double[] out = new double[RhythmScan.indexOf(s.rhythm().toOrders()) - from + 1];
        for (int i = 0; i < out.length; i++) {
            out[i] = from + i < all.length ? all[from + i] : 0;
        }
        return out;
    }

    /** Looks in the scans of single captures. */
    static RhythmSearch of(
            Suspect s,
            List<CaptureMeasurement> captures,
            Function<CaptureMeasurement, RhythmScan> scan) {
        int from = RhythmScan.indexOf(s.rhythm().fromOrders());
        int to = RhythmScan.indexOf(s.rhythm().toOrders());
        double[] nats = new double[to - from + 1];
        for (int i = 0; i < nats.length; i++) {
            for (CaptureMeasurement c : captures) {
                boolean own = c.label().point().equals(s.ownPoint());
                nats[i] +=
                        perhaps(scan.apply(c).around(from + i), own ? HEARD_OWN : HEARD_ELSEWHERE);
            }
        }
        return weigh(s, from, nats);
    }

    /** Weighs what speaks for each base order by how likely it is. */
    private static RhythmSearch weigh(Suspect s, int from, double[] nats) {
        double[] sum = new double[nats.length];
        double weights = 0;
        int best = 0;
        for (int i = 0; i < nats.length; i++) {
            double prior = prior(s, RhythmScan.orderAt(from + i));
            weights += Math.exp(prior);
            sum[i] = prior + nats[i];
            best = sum[i] > sum[best] ? i : best;
        }
        double all = 0;
        for (double n : sum) {
            all += Math.exp(n - sum[best]);
        }
        double mean = sum[best] + Math.log(all / weights);
        return new RhythmSearch(from + best, mean, mean);
    }

    /** How likely a base order is before anything was heard, nats below the likeliest. */
    private static double prior(Suspect s, double orders) {
        return s.group().isWide() ? 0 : -0.5 * misfitSquared(s.rhythm(), orders);
    }

    /** How many spreads squared a base order is from where it should be. */
    static double misfitSquared(Suspect.Rhythm rhythm, double orders) {
        double off = Math.log(orders / rhythm.centreOrders()) / rhythm.spreadRatio();
        return off * off;
    }

    /** What evidence says of something that need not show in it. */
    private static double perhaps(double nats, double chance) {
        return nats > SURE_NATS ? nats + Math.log(chance) : Math.log1p(chance * Math.expm1(nats));
    }
}

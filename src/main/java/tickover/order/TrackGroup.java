package tickover.order;

import java.util.ArrayList;
import java.util.List;

/** Lines that are solved together, because at some speed of the record they come close. */
final class TrackGroup {
    private final int[] places;
    private final int intervalSamples;
    private final double widestHz;

    /**
     * Takes the values over.
     *
     * @param places places of the lines in the spec
     * @param intervalSamples samples between knots
     * @param widestHz widest bandwidth, Hz
     */
    TrackGroup(int[] places, int intervalSamples, double widestHz) {
        this.places = places;
        this.intervalSamples = intervalSamples;
        this.widestHz = widestHz;
    }

    int[] places() {
        return places;
    }

    int intervalSamples() {
        return intervalSamples;
    }

    double widestHz() {
        return widestHz;
    }

    /**
     * Knots per cycle of the widest bandwidth. With twelve, what a cubic spline cannot follow of a
     * line at the edge of the band is below -100 dB, a line two bandwidths from the edge still
     * comes out with the filter's own gain, and what folds into the band from a multiple of the
     * knot rate is weaker than what the filter itself lets through there.
     */
    static final int KNOTS_PER_BANDWIDTH = 12;

    /**
     * Lines further apart than this many turns of their difference per knot do not see each other:
     * the sum of a spline with such a turning phase is below (8 pi)^-4, 3e-6.
     */
    static final int FAR_TURNS = 8;

    static List<TrackGroup> of(
            List<TrackedLine> lines, double[] speedLimitsHz, double sampleRateHz) {
        int[] group = new int[lines.size()];
        for (int i = 0; i < group.length; i++) {
            group[i] = i;
        }
        for (int i = 0; i < group.length; i++) {
            for (int j = 0; j < i; j++) {
                double wide =
                        Math.max(widest(lines, i, speedLimitsHz), widest(lines, j, speedLimitsHz));
                double far = FAR_TURNS * KNOTS_PER_BANDWIDTH * wide;
                if (group[i] != group[j]
                        && nearestHz(lines.get(i), lines.get(j), -1, speedLimitsHz) < far) {
                    int joined = group[i];
                    for (int k = 0; k < group.length; k++) {
                        group[k] = group[k] == joined ? group[j] : group[k];
                    }
                }
            }
        }
        List<TrackGroup> groups = new ArrayList<>();
        for (int g = 0; g < group.length; g++) {
            int[] places = placesOf(group, g);
            if (places.length > 0) {
                double wide = 0;
                for (int place : places) {
                    wide = Math.max(wide, widest(lines, place, speedLimitsHz));
                }
                int samples = (int) (sampleRateHz / (KNOTS_PER_BANDWIDTH * wide));
                groups.add(new TrackGroup(places, samples, wide));
            }
        }
        return groups;
    }

    /** Puts the curves of this group where they belong among those of all lines. */
    void put(TrackCurve[] found, TrackCurve[] all) {
        for (int k = 0; k < found.length; k++) {
            all[places[k]] = found[k];
        }
    }

    private static int[] placesOf(int[] group, int wanted) {
        List<Integer> places = new ArrayList<>();
        for (int i = 0; i < group.length; i++) {
            if (group[i] == wanted) {
                places.add(i);
            }
        }
        return places.stream().mapToInt(Integer::intValue).toArray();
    }

    private static double widest(List<TrackedLine> lines, int place, double[] speedLimitsHz) {
        return lines.get(place).bandwidthHzAt(speedLimitsHz[1]);
    }

    /**
     * The smallest distance of two lines, or (sign 1) of one from the other's mirror image at
     * negative frequency, Hz. It is linear in speed, so the ends of the speed range tell.
     */
    static double nearestHz(TrackedLine a, TrackedLine b, int sign, double[] speedLimitsHz) {
        double slow = a.frequencyHz(speedLimitsHz[0]) + sign * b.frequencyHz(speedLimitsHz[0]);
        double fast = a.frequencyHz(speedLimitsHz[1]) + sign * b.frequencyHz(speedLimitsHz[1]);
        return slow * fast <= 0 ? 0 : Math.min(Math.abs(slow), Math.abs(fast));
    }

    /** The largest sum of the frequencies of two lines, Hz. */
    static double highestSumHz(TrackedLine a, TrackedLine b, double[] speedLimitsHz) {
        return Math.max(
                a.frequencyHz(speedLimitsHz[0]) + b.frequencyHz(speedLimitsHz[0]),
                a.frequencyHz(speedLimitsHz[1]) + b.frequencyHz(speedLimitsHz[1]));
    }
}

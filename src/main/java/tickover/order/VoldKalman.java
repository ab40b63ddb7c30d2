package tickover.order;

import java.util.ArrayList;
import java.util.List;
import java.util.Objects;

/**
 * The Vold-Kalman filter of the second generation: orders and tones followed through a record by
 * least squares, one by one or together.
 *
 * <p>In: samples, m/s², steps of 1/{@code sampleRateHz} s from time 0, and the shaft angle. <br>
 * Out: for each {@link TrackedLine} k the complex amplitude A over time in {@code x = sum over k of
 * Re(A_k exp(j 2 pi (order_k turns + toneHz_k t)))}, see {@link LineTracks}. <br>
 * It minimises the squares of what the lines leave of x, plus {@code r²/2} times the squares of the
 * first or second difference of A from sample to sample, with r by {@link #weight}; r follows the
 * bandwidth along the record. A constant in x is fitted along. Lines that come close at some speed
 * are solved together, so that close lines are parted and crossing ones go through each other;
 * lines that never do are solved apart. The mirror image of a line at negative frequency is part of
 * the fit, near half the sample rate too. <br>
 * A is sought among cubic splines with twelve knots per cycle of the widest bandwidth. The sums
 * over samples bring the record straight to that rate, which suits the bandwidth, so the system is
 * as well conditioned at 0.1 Hz as at 100 Hz. <br>
 * Accuracy: a constant amplitude comes out to 1e-6 at any bandwidth, with an exact angle; the gain
 * for a lone line is {@link #gain} to 0.02 dB down to -40 dB, and no more than it beyond. Two lines
 * are parted where their distance, times the stretch of time in which they keep it, is well above
 * one turn. <br>
 * Cost: O(length): two dozen products per sample and line, as many per pair of lines that comes
 * close, and {@code 1600 bandwidthHz lengthS lines³} for the solve. Memory while solving: {@code
 * 1600 bandwidthHz lengthS lines²} bytes for each group of lines that come close; a copy of the
 * record, too, where there are several groups. Thread: any. <br>
 * Source: [VoldLeuridan1993], [Tuma2005], both from memory; differs from them in the splines, in
 * the mirror image and in the constant.
 */
public final class VoldKalman {
    /** The widest bandwidth over the sample rate; leaves at least two samples per knot. */
    private static final double WIDEST_RATIO = 1.0 / 32;

    /**
     * How much narrower than the widest a line solved together with it may be. The solve loses
     * digits with the fourth power of this; 50 leaves three to spare.
     */
    private static final double NARROWEST_RATIO = 1.0 / 50;

    /** A record this much shorter than one cycle of the bandwidth says nothing about a change. */
    private static final double LEAST_CYCLES = 0.01;

    private VoldKalman() {}

    /**
     * What to follow, and how smoothly.
     *
     * @param differences 1 or 2: which difference of the amplitude from sample to sample is kept
     *     small. With 1 the filter falls off by 20 dB per decade beside the line, with 2 by 40 dB
     *     and has the flatter top. Some authors call these one and two poles.
     * @param lines at least one, all different
     */
    public record Spec(int differences, List<TrackedLine> lines) {
        public Spec {
            requireDifferences(differences);
            lines = List.copyOf(lines);
            if (lines.isEmpty()) {
                throw new IllegalArgumentException("lines is empty, need at least one");
            }
            for (int i = 0; i < lines.size(); i++) {
                for (int j = 0; j < i; j++) {
                    TrackedLine a = lines.get(i);
                    TrackedLine b = lines.get(j);
                    if (a.order() == b.order() && a.toneHz() == b.toneHz()) {
                        throw new IllegalArgumentException(
                                "lines has " + a + " and " + b + ", need lines that differ");
                    }
                }
            }
        }

        /**
         * The usual choice: second difference.
         *
         * @param lines at least one, all different
         * @return the spec
         */
        public static Spec of(TrackedLine... lines) {
            return new Spec(2, List.of(lines));
        }
    }

    /**
     * Follows lines through a whole record.
     *
     * @param x samples, m/s², from time 0; not copied, nobody may write to it while the result is
     *     in use
     * @param sampleRateHz samples per second, Hz, &gt; 0
     * @param angle angle over the time of the samples; what it does not cover is not used
     * @param spec what to follow
     * @return the lines' amplitudes
     */
    public static LineTracks track(double[] x, double sampleRateHz, ShaftAngle angle, Spec spec) {
        return track(x, sampleRateHz, angle, spec, List.of());
    }

    /**
     * Follows lines through a record with stretches that must not be used, such as knocks or lost
     * contact. The amplitude runs smoothly across them; what the samples hold there does not
     * matter.
     *
     * @param x samples, m/s², from time 0; not copied, nobody may write to it while the result is
     *     in use
     * @param sampleRateHz samples per second, Hz, &gt; 0
     * @param angle angle over the time of the samples; what it does not cover is not used
     * @param spec what to follow
     * @param leftOut stretches not to be used, on the samples' time base
     * @return the lines' amplitudes
     * @throws IllegalArgumentException if a line reaches half the sample rate or never leaves 0 Hz,
     *     a bandwidth is above 1/32 of the sample rate or below 1/50 of that of a line that comes
     *     close, or the record cannot tell the lines apart
     */
    public static LineTracks track(
            double[] x, double sampleRateHz, ShaftAngle angle, Spec spec, List<TimeRange> leftOut) {
        Objects.requireNonNull(x, "x");
        Objects.requireNonNull(spec, "spec");
        if (!(sampleRateHz > 0)) {
            throw new IllegalArgumentException("sampleRateHz=" + sampleRateHz + ", need > 0 Hz");
        }
        SampleGaps gaps = new SampleGaps(leftOut, sampleRateHz, x.length);
        TrackInput input = TrackInput.of(x, sampleRateHz, angle, gaps);
        if (input.count() == gaps.count(input.first(), input.first() + input.count())) {
            throw new IllegalArgumentException(
                    "no sample of the "
                            + x.length / sampleRateHz
                            + " s is both within the angle's "
                            + angle.startS()
                            + " to "
                            + angle.endS()
                            + " s and in use");
        }
        double[] speedLimitsHz = input.speedLimitsHz();
        for (TrackedLine line : spec.lines()) {
            requireInReach(line, input, speedLimitsHz[1]);
        }
        List<TrackGroup> groups = TrackGroup.of(spec.lines(), speedLimitsHz, sampleRateHz);
        List<TrackSystem> systems = new ArrayList<>();
        TrackCurve[] curves = new TrackCurve[spec.lines().size()];
        for (TrackGroup group : groups) {
            double narrowestHz = NARROWEST_RATIO * group.widestHz();
            requireAlike(spec.lines(), group, narrowestHz, speedLimitsHz[1]);
            TrackSystem system =
                    TrackSystem.of(
                            input,
                            spec.lines(),
                            group,
                            spec.differences(),
                            narrowestHz,
                            speedLimitsHz);
            systems.add(system);
            group.put(system.curves(), curves);
        }
        LineTracks alone = new LineTracks(input, spec.lines(), curves);
        return groups.size() == 1 ? alone : withoutTheOthers(alone, groups, systems);
    }

    /**
     * Solves each group for what the other groups leave. At the ends of the record and beside gaps
     * the filter lets some thousandths of a far line through, which counts beside a strong one.
     */
    private static LineTracks withoutTheOthers(
            LineTracks alone, List<TrackGroup> groups, List<TrackSystem> systems) {
        double[] left = alone.residual();
        TrackCurve[] curves = new TrackCurve[alone.lineCount()];
        for (int g = 0; g < groups.size(); g++) {
            double[] own = left.clone();
            alone.add(groups.get(g).places(), 1, own);
            systems.get(g).solveAgain(own);
            groups.get(g).put(systems.get(g).curves(), curves);
        }
        return alone.with(curves);
    }

    private static void requireAlike(
            List<TrackedLine> lines, TrackGroup group, double narrowestHz, double fastestHz) {
        for (int place : group.places()) {
            if (!(lines.get(place).bandwidthHzAt(fastestHz) >= narrowestHz)) {
                throw new IllegalArgumentException(
                        lines.get(place)
                                + " comes close to a line of bandwidth "
                                + group.widestHz()
                                + " Hz, need at least 1/50 of that");
            }
        }
    }

    private static void requireInReach(TrackedLine line, TrackInput input, double fastestHz) {
        double highestHz = line.frequencyHz(fastestHz);
        if (!(highestHz > 0 && highestHz < input.sampleRateHz() / 2)) {
            throw new IllegalArgumentException(
                    line
                            + " goes up to "
                            + highestHz
                            + " Hz, need above 0 and below half of the sample rate of "
                            + input.sampleRateHz()
                            + " Hz");
        }
        double wide = line.bandwidthHzAt(fastestHz);
        double widest = WIDEST_RATIO * input.sampleRateHz();
        double least = LEAST_CYCLES / input.lengthS();
        if (!(wide <= widest && wide >= least)) {
            throw new IllegalArgumentException(
                    line
                            + " has a bandwidth up to "
                            + wide
                            + " Hz, need "
                            + least
                            + " to "
                            + widest
                            + " Hz for this record and sample rate");
        }
    }

    /**
     * The weight r of the differences that gives a bandwidth.
     *
     * <p>{@code r = sqrt((sqrt(2) - 1) / (2 (1 - cos(pi bandwidthRatio)))^differences)}
     *
     * @param differences 1 or 2
     * @param bandwidthRatio full -3 dB width over the sample rate, above 0 and up to 1
     * @return r
     */
    public static double weight(int differences, double bandwidthRatio) {
        requireDifferences(differences);
        if (!(bandwidthRatio > 0 && bandwidthRatio <= 1)) {
            throw new IllegalArgumentException(
                    "bandwidthRatio=" + bandwidthRatio + ", need above 0 and up to 1");
        }
        return Math.sqrt(Math.sqrt(2) - 1) / step(bandwidthRatio / 2, differences);
    }

    /**
     * What the filter lets through of a lone line of steady amplitude that stands beside the one
     * followed.
     *
     * <p>{@code 1 / (1 + r² (2 (1 - cos(2 pi offsetRatio)))^differences)}
     *
     * @param differences 1 or 2
     * @param bandwidthRatio full -3 dB width over the sample rate, above 0 and up to 1
     * @param offsetRatio distance from the line over the sample rate
     * @return gain, 0 to 1
     */
    public static double gain(int differences, double bandwidthRatio, double offsetRatio) {
        double change = weight(differences, bandwidthRatio) * step(offsetRatio, differences);
        return 1 / (1 + change * change);
    }

    /** Size of the difference of a unit tone; 2 (1 - cos w) is 4 sin²(w/2), which keeps digits. */
    private static double step(double ratio, int differences) {
        double once = Math.abs(2 * Math.sin(Math.PI * ratio));
        return differences == 1 ? once : once * once;
    }

    private static void requireDifferences(int differences) {
        if (!(differences == 1 || differences == 2)) {
            throw new IllegalArgumentException("differences=" + differences + ", need 1 or 2");
        }
    }
}

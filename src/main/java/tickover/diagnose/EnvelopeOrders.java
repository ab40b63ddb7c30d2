package tickover.diagnose;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Objects;
import java.util.function.DoubleUnaryOperator;
import tickover.dsp.RealFft;
import tickover.order.ShaftAngle;

/**
 * Squared-envelope order spectra of one record in several frequency bands: the ground that every
 * search for a bearing pattern stands on, computed once per record.
 *
 * <p>In: acceleration, even time steps, and the angle of a reference (crank, pulley or shaft) over
 * time. The record is first whitened: every bin of its transform is brought to the same magnitude
 * and keeps its phase, so that steady tones, however strong, count no more than any other bin and
 * what repeats in bursts stands out. Then each band's squared envelope is taken, resampled to even
 * angle, cut into segments, transformed and averaged, and each bin is divided by the median of its
 * surroundings.
 *
 * <p>Bins at multiples of {@link Spec#maskStepOrders} are made neutral: what turns with the
 * reference itself is no sign of a bearing. For an engine that step is half an order, which takes
 * out valves and injectors; for a bearing on a bench it is one order.
 *
 * <p>Immutable. Cost: one transform of the record, then per band two of the band's own length.
 */
public final class EnvelopeOrders {
    /** Below it lie the tones of the machine rather than the ringing that impacts excite. */
    private static final double LOWEST_BAND_HZ = 500;

    /** Share of half the sample rate that is used; above it anti-alias filters fall off. */
    private static final double USABLE_RATIO = 0.98;

    private static final double HIGHEST_BAND_START_HZ = 12_000;
    private static final double OCTAVE_RATIO = 2;

    private final double resolutionOrders;
    private final double turns;
    private final List<EnvelopeBand> bands;

    private EnvelopeOrders(double resolutionOrders, double turns, List<EnvelopeBand> bands) {
        this.resolutionOrders = resolutionOrders;
        this.turns = turns;
        this.bands = List.copyOf(bands);
    }

    /**
     * What to compute.
     *
     * @param maxOrder highest order of the spectra, per turn of the reference, &gt; 0
     * @param maskStepOrders bins at multiples of it are made neutral, &gt; 0
     * @param maskHalfWidthRatio how far from such a multiple bins are still neutral, as a share of
     *     it, besides the bins that its own line fills; as large as the speed may be wrong, &gt;= 0
     * @param backgroundOrders width of the surroundings that a bin is held against, &gt; 0; a
     *     quarter of it at order 0, growing to all of it at three times its own width
     * @param minBandwidthHz narrower bands are left out, Hz, &gt;= 0; two and a half times the
     *     highest pattern rate lets two harmonics of it through
     */
    public record Spec(
            double maxOrder,
            double maskStepOrders,
            double maskHalfWidthRatio,
            double backgroundOrders,
            double minBandwidthHz) {
        public Spec {
            if (!(maxOrder > 0 && maskStepOrders > 0 && backgroundOrders > 0)) {
                throw new IllegalArgumentException(
                        "maxOrder="
                                + maxOrder
                                + ", maskStepOrders="
                                + maskStepOrders
                                + ", backgroundOrders="
                                + backgroundOrders
                                + ", need > 0");
            }
            if (!(maskHalfWidthRatio >= 0 && maskHalfWidthRatio < 0.1)) {
                throw new IllegalArgumentException(
                        "maskHalfWidthRatio=" + maskHalfWidthRatio + ", need 0 to below 0.1");
            }
            if (!(minBandwidthHz >= 0)) {
                throw new IllegalArgumentException(
                        "minBandwidthHz=" + minBandwidthHz + ", need >= 0 Hz");
            }
        }
    }

    /**
     * Computes the spectra of a record at steady speed.
     *
     * @param accelMps2 samples, m/s²
     * @param sampleRateHz samples per second, Hz
     * @param turnsHz turns of the reference per second, Hz, &gt; 0
     * @param spec what to compute
     * @return spectra
     * @throws IllegalArgumentException if the rate or the length leaves nothing to look at
     */
    public static EnvelopeOrders atSteadySpeed(
            double[] accelMps2, double sampleRateHz, double turnsHz, Spec spec) {
        if (!(turnsHz > 0 && Double.isFinite(turnsHz))) {
            throw new IllegalArgumentException("turnsHz=" + turnsHz + ", need > 0 Hz");
        }
        return of(accelMps2, sampleRateHz, timeS -> turnsHz * timeS, spec);
    }

    /**
     * Computes the spectra of the part of a record for which the angle is known.
     *
     * @param accelMps2 samples, m/s²; sample i is at i / {@code sampleRateHz}
     * @param sampleRateHz samples per second, Hz
     * @param angle turns of the reference over time
     * @param spec what to compute
     * @return spectra
     * @throws IllegalArgumentException if the rate or the length leaves nothing to look at
     */
    public static EnvelopeOrders of(
            double[] accelMps2, double sampleRateHz, ShaftAngle angle, Spec spec) {
        int from = (int) Math.max(0, Math.ceil(angle.startS() * sampleRateHz));
        int to = (int) Math.min(accelMps2.length, Math.floor(angle.endS() * sampleRateHz) + 1);
        double fromS = from / sampleRateHz;
        return of(
                Arrays.copyOfRange(accelMps2, Math.min(from, to), to),
                sampleRateHz,
                timeS -> angle.turnsAt(Math.min(angle.endS(), fromS + timeS)),
                spec);
    }

    /**
     * Computes the spectra of a record.
     *
     * @param accelMps2 samples, m/s²; sample i is at i / {@code sampleRateHz}
     * @param sampleRateHz samples per second, Hz
     * @param turnsAtS turns of the reference at a time in s, rising over the whole record
     * @param spec what to compute
     * @return spectra
     * @throws IllegalArgumentException if the rate or the length leaves nothing to look at
     */
    public static EnvelopeOrders of(
            double[] accelMps2, double sampleRateHz, DoubleUnaryOperator turnsAtS, Spec spec) {
        return ofChannels(List.of(accelMps2), sampleRateHz, turnsAtS, spec);
    }

    /**
     * Computes the spectra of all channels of a record; each channel has all bands.
     *
     * @param channelsMps2 samples, m/s², all of one length, at least one channel
     * @param sampleRateHz samples per second, Hz
     * @param turnsAtS turns of the reference at a time in s, rising over the whole record
     * @param spec what to compute
     * @return spectra
     * @throws IllegalArgumentException if the rate or the length leaves nothing to look at
     */
    static EnvelopeOrders ofChannels(
            List<double[]> channelsMps2,
            double sampleRateHz,
            DoubleUnaryOperator turnsAtS,
            Spec spec) {
        Objects.requireNonNull(spec, "spec");
        List<EnvelopeBand> bands = new ArrayList<>();
        EnvelopeAngle angle = null;
        for (int c = 0; c < channelsMps2.size(); c++) {
            EnvelopeSource source = EnvelopeSource.of(channelsMps2.get(c), sampleRateHz);
            angle = EnvelopeAngle.of(turnsAtS, source.durationS(), spec.maxOrder());
            for (double[] edge : edgesHz(sampleRateHz, spec.minBandwidthHz())) {
                double[] envelope = source.relativeEnvelope(edge[0], edge[1]);
                double[] power = angle.averagedPower(envelope, source.durationS());
                bands.add(
                        EnvelopeBand.of(
                                new SignalBand(
                                        c, edge[0], edge[1], source.rmsMps2(edge[0], edge[1])),
                                power,
                                angle.segments(),
                                spec.backgroundOrders() / angle.resolutionOrders(),
                                neutral(power.length, angle.resolutionOrders(), spec)));
            }
        }
        if (angle == null) {
            throw new IllegalArgumentException("channelsMps2 is empty, need at least one");
        }
        return new EnvelopeOrders(angle.resolutionOrders(), angle.turns(), bands);
    }

    /** The whole usable range, and octaves that overlap by half. */
    private static List<double[]> edgesHz(double sampleRateHz, double minBandwidthHz) {
        double topHz = 0.5 * USABLE_RATIO * sampleRateHz;
        if (!(topHz > OCTAVE_RATIO * LOWEST_BAND_HZ)) {
            throw new IllegalArgumentException(
                    "sampleRateHz="
                            + sampleRateHz
                            + ", need more than "
                            + Math.round(2 * OCTAVE_RATIO * LOWEST_BAND_HZ / USABLE_RATIO)
                            + " Hz to hear a bearing ring");
        }
        List<double[]> edges = new ArrayList<>();
        edges.add(new double[] {LOWEST_BAND_HZ, topHz});
        double lo = LOWEST_BAND_HZ;
        while (lo * Math.sqrt(OCTAVE_RATIO) < topHz && lo <= HIGHEST_BAND_START_HZ) {
            double hi = Math.min(OCTAVE_RATIO * lo, topHz);
            if (hi - lo >= minBandwidthHz) {
                edges.add(new double[] {lo, hi});
            }
            lo *= Math.sqrt(OCTAVE_RATIO);
        }
        return edges;
    }

    private static boolean[] neutral(int bins, double resolutionOrders, Spec spec) {
        // The reference's own line leaks by a bin, and the search for the largest of three bins
        // reaches into that from outside.
        double lineBins = 2;
        boolean[] neutral = new boolean[bins];
        neutral[0] = true;
        for (double order = spec.maskStepOrders();
                order < bins * resolutionOrders;
                order += spec.maskStepOrders()) {
            double half = Math.max(lineBins, spec.maskHalfWidthRatio() * order / resolutionOrders);
            half = Math.min(half, 0.25 * spec.maskStepOrders() / resolutionOrders);
            int centre = (int) Math.round(order / resolutionOrders);
            int reach = (int) Math.ceil(half);
            for (int k = Math.max(0, centre - reach); k <= centre + reach && k < bins; k++) {
                neutral[k] = true;
            }
        }
        return neutral;
    }

    /**
     * Returns the width of a bin.
     *
     * @return orders, per turn of the reference
     */
    public double resolutionOrders() {
        return resolutionOrders;
    }

    /**
     * Returns how many turns of the reference were used.
     *
     * @return turns
     */
    public double turns() {
        return turns;
    }

    List<EnvelopeBand> bands() {
        return bands;
    }

    int binOf(double order) {
        return (int) Math.max(0, Math.rint(Math.abs(order) / resolutionOrders));
    }

    /** Largest size without prime factors above 5 that is not above a number. */
    static int smoothSizeAtMost(int most) {
        for (int n = most; n > 2; n--) {
            int rest = n;
            for (int p : new int[] {2, 3, 5}) {
                while (rest % p == 0) {
                    rest /= p;
                }
            }
            if (rest == 1) {
                return n;
            }
        }
        return Math.max(2, Math.min(most, RealFft.goodSize(1)));
    }
}

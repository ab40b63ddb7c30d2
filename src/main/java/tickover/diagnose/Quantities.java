package tickover.diagnose;

import java.util.Arrays;

/** Quantities of one capture at one base order: how strong a rhythm is, and what goes with it. */
final class Quantities {
    /** Rhythms wander this much within a visit, as a share. */
    private static final double WANDER_RATIO = 2e-3;

    /** Noise from here on counts as the ringing of bearings, Hz. */
    private static final double RINGING_FROM_HZ = 1200;

    /** Keeps the logarithm of a level finite, (m/s²)². */
    private static final double SILENCE = 1e-9;

    /** A line this far over its background says all that one line can say. */
    private static final double CLEAR_RATIO = 12;

    /** Chance that a sideband of a line that has them can be seen. */
    private static final double SIDEBAND_SEEN = 0.5;

    private Quantities() {}

    /** Whether a band is one of those where things ring; a slow probe has only its highest. */
    static boolean isRinging(CaptureMeasurement c, BandMeasurement band) {
        double highest = c.bands().get(c.bands().size() - 1).loHz();
        return band.loHz() >= Math.min(RINGING_FROM_HZ, highest);
    }

    /** Strength of a rhythm in the envelope, dB re (1 m/s²)². */
    static double envelopeDb(CaptureMeasurement c, double base, int harmonics) {
        double sum = SILENCE;
        for (BandMeasurement band : c.bands()) {
            double power = 0;
            for (int k = 1; k <= harmonics; k++) {
                if (!band.field().isBlind(k * base)) {
                    power += band.field().excessNear(k * base, WANDER_RATIO * k * base);
                }
            }
            sum += band.meanSquare() * Math.sqrt(power);
        }
        return 10 * Math.log10(sum);
    }

    /** The same for every base order of {@link RhythmScan}. */
    static double[] envelopesDb(CaptureMeasurement c, int harmonics) {
        double[] out = new double[RhythmScan.COUNT];
        Arrays.fill(out, SILENCE);
        int[] shifts = new int[harmonics];
        Arrays.setAll(shifts, k -> RhythmScan.stepsTo(k + 1));
        double[] excess = new double[RhythmScan.COUNT + shifts[harmonics - 1]];
        for (BandMeasurement band : c.bands()) {
            for (int i = 0; i < excess.length; i++) {
                double order = RhythmScan.orderAt(i);
                excess[i] =
                        band.field().isBlind(order)
                                ? 0
                                : band.field().excessNear(order, WANDER_RATIO * order);
            }
            for (int i = 0; i < out.length; i++) {
                double power = 0;
                for (int shift : shifts) {
                    power += excess[i + shift];
                }
                out[i] += band.meanSquare() * Math.sqrt(power);
            }
        }
        for (int i = 0; i < out.length; i++) {
            out[i] = 10 * Math.log10(out[i]);
        }
        return out;
    }

    /** Strength of the first three multiples of a turn, dB re (1 m/s²)². */
    static double turnsDb(CaptureMeasurement c, double turns) {
        double sum = 1e-12;
        for (int k = 1; k <= 3; k++) {
            sum += c.motion().powerNear(k * turns, 1e-3 * k * turns);
        }
        return 10 * Math.log10(sum);
    }

    /** Once per turn as it is felt: dB re 1 m/s². */
    static double shakeDb(CaptureMeasurement c, double base) {
        return 10 * Math.log10(c.motion().peakNear(base, WANDER_RATIO * base) + 1e-12);
    }

    /** Once per turn as a movement: dB re 1 m/s² at 1 Hz, falling with frequency squared. */
    static double motionDb(CaptureMeasurement c, double base) {
        double hz = base * c.summary().meanSpeedRpm() / 60;
        double power = c.motion().peakNear(base, WANDER_RATIO * base);
        return 10 * Math.log10(power + 1e-12) - 40 * Math.log10(hz);
    }

    /** Noise in the bands where bearings ring, between what the engine does, dB re (1 m/s²)². */
    static double ringingDb(CaptureMeasurement c) {
        double sum = SILENCE;
        for (BandMeasurement band : c.bands()) {
            if (isRinging(c, band)) {
                sum += band.cycle().quiet();
            }
        }
        return 10 * Math.log10(sum);
    }

    /** Quiet level of every ringing band, dB re (1 m/s²)²; bands of one visit are the same. */
    static double[] quietDb(CaptureMeasurement c) {
        return c.bands().stream()
                .filter(b -> isRinging(c, b))
                .mapToDouble(b -> 10 * Math.log10(b.cycle().quiet() + SILENCE))
                .toArray();
    }

    static double tickDb(CaptureMeasurement c) {
        double sum = SILENCE;
        for (BandMeasurement band : c.bands()) {
            if (isRinging(c, band)) {
                sum += Math.max(0, band.cycle().sharpest());
            }
        }
        return 10 * Math.log10(sum);
    }

    /** What the four sidebands of the first two harmonics say, in the band that says most, nats. */
    static double sidebandNats(CaptureMeasurement c, double f, double apart) {
        double best = 4 * Math.log(1 - SIDEBAND_SEEN);
        for (BandMeasurement band : c.bands()) {
            double sum = 0;
            for (int k = 1; k <= 2; k++) {
                for (int side = -1; side <= 1; side += 2) {
                    double order = k * f + side * apart;
                    if (order > 0 && !band.field().isBlind(order)) {
                        double odds = band.field().lineOdds(order, WANDER_RATIO * order);
                        sum += Math.log(1 - SIDEBAND_SEEN + SIDEBAND_SEEN * odds);
                    }
                }
            }
            best = Math.max(best, sum);
        }
        return best;
    }

    private static double lineScore(OrderField field, double order, double reachOrders) {
        double ratio = field.ratioNear(order, Math.max(field.stepOrders(), reachOrders));
        return Math.min(CLEAR_RATIO, ratio) / CLEAR_RATIO;
    }

    static double oddMultiples(CaptureMeasurement c, double f) {
        double best = oddScore(c.motion(), f);
        for (BandMeasurement band : c.bands()) {
            best = Math.max(best, oddScore(band.field(), f));
        }
        return best;
    }

    private static double oddScore(OrderField field, double f) {
        double sum = 0;
        int seen = 0;
        for (int k = 1; k <= 5; k += 2) {
            if (!field.isBlind(k * f)) {
                sum += lineScore(field, k * f, WANDER_RATIO * k * f);
                seen++;
            }
        }
        return seen == 0 ? 0 : sum / seen;
    }

    static double motionLines(CaptureMeasurement c, double... orders) {
        double sum = 0;
        int seen = 0;
        for (double order : orders) {
            if (!c.motion().isBlind(order)) {
                sum += lineScore(c.motion(), order, WANDER_RATIO * order);
                seen++;
            }
        }
        return seen == 0 ? 0 : sum / seen;
    }

    /**
     * How many of the first multiples stand out by themselves, 0 to 1, in the band where most do: a
     * comb whose few strong lines belong to something else leaves gaps.
     */
    static double coverage(CaptureMeasurement c, double base, int multiples) {
        double best = 0;
        for (BandMeasurement band : c.bands()) {
            double sum = 0;
            int seen = 0;
            for (int k = 1; k <= multiples; k++) {
                if (!band.field().isBlind(k * base)) {
                    sum += lineScore(band.field(), k * base, WANDER_RATIO * k * base);
                    seen++;
                }
            }
            best = Math.max(best, seen == 0 ? 0 : sum / seen);
        }
        return best;
    }

    /** Share of a band's power that comes and goes with a rhythm, in the best band, dB. */
    static double depthDb(CaptureMeasurement c, double base, int harmonics) {
        double best = SILENCE;
        for (BandMeasurement band : c.bands()) {
            double power = 0;
            for (int k = 1; k <= harmonics; k++) {
                if (!band.field().isBlind(k * base)) {
                    power += band.field().excessNear(k * base, WANDER_RATIO * k * base);
                }
            }
            best = Math.max(best, power);
        }
        return 10 * Math.log10(best);
    }
}

package tickover.diagnose;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;

/**
 * Judges whether a capture can be trusted: clipping, a flat or lifted probe, knocks, too short, a
 * band that the mount does not carry.
 *
 * <p>In: samples of every channel. Out: notes in words, and the stretches of {@link #BLOCK_S}
 * seconds that nothing should be concluded from. Cost: O(samples).
 */
final class SignalQuality {
    /** Length of the stretches that are judged one by one, s. */
    static final double BLOCK_S = 0.05;

    /** More than one sample in a thousand at the end of the range is clipping. Common practice. */
    private static final double CLIPPED_RATIO = 1e-3;

    /** How close to the largest value counts as being at the end of the range. */
    private static final double AT_LIMIT_RATIO = 0.99;

    /** A stretch this far below the capture's own median has lost contact, amplitude ratio. */
    private static final double LIFTED_RATIO = 0.15;

    /** A stretch this far above the capture's own median is a knock, amplitude ratio. */
    private static final double KNOCK_RATIO = 6.0;

    /** Below this length few turns are averaged, s. */
    private static final double SHORT_S = 3.0;

    private final List<QualityNote> notes;
    private final boolean[] usableBlocks;
    private final double blockS;

    private SignalQuality(List<QualityNote> notes, boolean[] usableBlocks, double blockS) {
        this.blockS = blockS;
        this.notes = List.copyOf(notes);
        this.usableBlocks = usableBlocks;
    }

    /** Notes in words, empty if nothing is wrong. */
    List<QualityNote> notes() {
        return notes;
    }

    /** Whether the stretch that holds a moment can be trusted. */
    boolean usableAt(double timeS) {
        int i = (int) (timeS / blockS);
        return i < 0 || i >= usableBlocks.length || usableBlocks[i];
    }

    static SignalQuality of(CaptureInput input) {
        String id = input.label().id();
        double rate = input.sampleRateHz();
        int samples = input.accelMps2()[0].length;
        List<QualityNote> notes = new ArrayList<>();
        double durationS = samples / rate;
        if (durationS < SHORT_S) {
            notes.add(
                    new QualityNote(
                            id,
                            "short",
                            say(
                                    "Only %.1f s long: record at least 8 s so that slow parts turn"
                                            + " often enough.",
                                    durationS)));
        }
        for (double[] channel : input.accelMps2()) {
            double clipped = clippedRatio(channel);
            if (clipped > CLIPPED_RATIO) {
                notes.add(
                        new QualityNote(
                                id,
                                "clipped",
                                say(
                                        "%.1f %% of the samples are at the end of the sensor's"
                                                + " range: use a larger range or a quieter spot"
                                                + " near by, then repeat.",
                                        100 * clipped)));
                break;
            }
        }
        boolean[] usable = judgeBlocks(input, notes);
        return new SignalQuality(notes, usable, blockSamples(rate) / rate);
    }

    private static int blockSamples(double sampleRateHz) {
        return Math.max(1, (int) Math.round(BLOCK_S * sampleRateHz));
    }

    private static boolean[] judgeBlocks(CaptureInput input, List<QualityNote> notes) {
        String id = input.label().id();
        int span = blockSamples(input.sampleRateHz());
        int blocks = input.accelMps2()[0].length / span;
        boolean[] usable = new boolean[blocks];
        Arrays.fill(usable, true);
        if (blocks < 4) {
            return usable;
        }
        double[] levels = new double[blocks];
        for (int b = 0; b < blocks; b++) {
            double sum = 0;
            for (double[] x : input.accelMps2()) {
                // First differences: gravity and hand tremor must not hide a lifted probe.
                for (int i = b * span + 1; i < (b + 1) * span; i++) {
                    double d = x[i] - x[i - 1];
                    sum += d * d;
                }
            }
            levels[b] = Math.sqrt(sum);
        }
        double[] sorted = levels.clone();
        Arrays.sort(sorted);
        double median = sorted[blocks / 2];
        int lifted = 0;
        int knocks = 0;
        for (int b = 0; b < blocks; b++) {
            if (levels[b] < LIFTED_RATIO * median) {
                usable[b] = false;
                lifted++;
            } else if (levels[b] > KNOCK_RATIO * median) {
                usable[b] = false;
                knocks++;
            }
        }
        if (lifted > 0) {
            notes.add(
                    new QualityNote(
                            id,
                            "lost-contact",
                            say(
                                    "The probe lost contact for about %.1f s; rhythms are not"
                                            + " sought there.",
                                    lifted * BLOCK_S)));
        }
        // One or two stretches are a knock; many are how this engine sounds, and stay in.
        if (knocks > 0 && knocks <= Math.max(2, blocks / 20)) {
            notes.add(
                    new QualityNote(
                            id,
                            "knock",
                            say(
                                    "Something knocked against the probe or the engine %d times;"
                                            + " rhythms are not sought in those moments.",
                                    knocks)));
        } else if (knocks > 0) {
            for (int b = 0; b < blocks; b++) {
                usable[b] = levels[b] >= LIFTED_RATIO * median;
            }
        }
        return usable;
    }

    /** Share of samples within one per cent of the largest magnitude, if that value recurs. */
    private static double clippedRatio(double[] x) {
        double high = Double.NEGATIVE_INFINITY;
        double low = Double.POSITIVE_INFINITY;
        for (double v : x) {
            high = Math.max(high, v);
            low = Math.min(low, v);
        }
        double middle = 0.5 * (high + low);
        double swing = high - middle;
        if (!(swing > 0)) {
            return 0;
        }
        int near = 0;
        int exact = 0;
        for (double v : x) {
            double d = Math.abs(v - middle);
            near += d >= AT_LIMIT_RATIO * swing ? 1 : 0;
            exact += d == swing ? 1 : 0;
        }
        // A sine also lingers near its peak, but does not repeat one value to the last bit.
        return 2 * exact >= near ? (double) near / x.length : 0;
    }

    private static String say(String format, Object... values) {
        return String.format(Locale.ROOT, format, values);
    }
}

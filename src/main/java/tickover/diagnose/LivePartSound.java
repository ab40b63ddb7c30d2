package tickover.diagnose;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Objects;

/**
 * One part's lines as a sound, while samples come in.
 *
 * <p>In: steps of crank angle. Out: values at even times, {@value #RATE_HZ} of them a second of the
 * probe's clock. Every line of the part that it shares with nobody sounds as it is felt: a line of
 * the motion as a tone at its order, of the first axis; a line that is measured by knocks as the
 * envelope of all bands at its rhythm and the multiples of that, for the knocks themselves ring
 * where a loudspeaker tells one part from another no more. <br>
 * Each tone is what two low-passes of {@value #SETTLE_TURNS} turns leave of the product with the
 * line's own turning phasor, turned back: in angle a line stands still, whatever the speed does. So
 * a change is heard {@link #DELAY_TURNS} turns late; the tone itself keeps its phase. What stands
 * 0.16 orders beside comes out 20 dB lower, half an order 39 dB. <br>
 * The same steps give the same values, bit for bit. Cost: some 6 angle functions per tone and step,
 * 4 products per tone and value. Allocates nothing after construction. Thread: one.
 */
public final class LivePartSound {
    /** Values a second: what every loudspeaker takes, Hz. */
    public static final int RATE_HZ = 48_000;

    /** Each of two low-passes settles within so many crank turns. */
    public static final int SETTLE_TURNS = 3;

    /** A change of level is heard so much late, crank turns. */
    public static final int DELAY_TURNS = 2 * SETTLE_TURNS;

    /** Multiples of a rhythm that are heard: enough for a rattle, few enough for a rhythm. */
    private static final int MULTIPLES = 8;

    private static final int STEPS = AngleGrid.STEPS_PER_TURN;

    /** Beyond, the steps themselves are filtered. */
    private static final double TOP_ORDERS = LiveAnalysis.TOP_ORDERS;

    /** Values that one step can stand for, at the lowest speed. */
    private static final int MOST_VALUES = 1024;

    private static final double NEWEST_RATIO = 1 - Math.exp(-1.0 / (SETTLE_TURNS * STEPS));

    /** Takes values. */
    @FunctionalInterface
    public interface Sink {
        /**
         * Takes a value.
         *
         * @param mps2 m/s²
         */
        void sound(double mps2);
    }

    private final LiveParts parts;
    private final Sink sink;
    private final LivePartLevels levels;
    private final double everySamples;
    private final int[] line;
    private final int[] multiple;
    private final boolean[] byKnocks;
    private final boolean[] heard;

    /** Phase of each tone at the last step and turns from one step to the next. */
    private final double[] phase;

    private final double[] perStep;
    private final double[] re0;
    private final double[] im0;
    private final double[] re;
    private final double[] im;
    private final double[] values = new double[MOST_VALUES];
    private boolean begun;
    private double lastAt;
    private long next;

    /**
     * Begins to listen.
     *
     * @param parts whose lines, asked for where they stand
     * @param part number of the part
     * @param sampleRateHz samples per second, Hz
     * @param sink takes values
     */
    public LivePartSound(LiveParts parts, int part, double sampleRateHz, Sink sink) {
        this.parts = Objects.requireNonNull(parts, "parts");
        this.sink = Objects.requireNonNull(sink, "sink");
        if (!(part >= 0 && part < parts.parts().size() && sampleRateHz > 0)) {
            throw new IllegalArgumentException(
                    "part="
                            + part
                            + ", sampleRateHz="
                            + sampleRateHz
                            + ", need 0 to "
                            + (parts.parts().size() - 1)
                            + ", > 0 Hz");
        }
        this.levels = new LivePartLevels(parts.parts().size(), parts.lines().size());
        this.everySamples = sampleRateHz / RATE_HZ;
        List<int[]> tones = new ArrayList<>();
        for (int i = 0; i < parts.lines().size(); i++) {
            LivePartLine l = parts.lines().get(i);
            for (int k = 1; l.part().equals(parts.parts().get(part)) && k <= MULTIPLES; k++) {
                if (k == 1 || l.byKnocks()) {
                    tones.add(new int[] {i, k});
                }
            }
        }
        int n = tones.size();
        this.line = tones.stream().mapToInt(t -> t[0]).toArray();
        this.multiple = tones.stream().mapToInt(t -> t[1]).toArray();
        this.byKnocks = new boolean[n];
        for (int t = 0; t < n; t++) {
            byKnocks[t] = parts.lines().get(line[t]).byKnocks();
        }
        this.heard = new boolean[n];
        this.phase = new double[n];
        this.perStep = new double[n];
        this.re0 = new double[n];
        this.im0 = new double[n];
        this.re = new double[n];
        this.im = new double[n];
        retune();
    }

    /** The next step does not follow on the one before: all begins from silence. */
    public void begin() {
        begun = false;
        Arrays.fill(re0, 0);
        Arrays.fill(im0, 0);
        Arrays.fill(re, 0);
        Arrays.fill(im, 0);
    }

    /** Lines may have been found elsewhere, or be shared now. */
    public void retune() {
        parts.write(levels);
        for (int t = 0; t < line.length; t++) {
            double order = multiple[t] * levels.orders(line[t]);
            perStep[t] = order / STEPS;
            heard[t] = order < TOP_ORDERS && !isShared(line[t]);
        }
    }

    private boolean isShared(int of) {
        for (int p = 0; p < parts.parts().size(); p++) {
            if (levels.isShared(of, p)) {
                return true;
            }
        }
        return false;
    }

    /**
     * Takes a step.
     *
     * @param atSamples when it was
     * @param accelMps2 acceleration of each axis, m/s²
     * @param squaredEnvelopes of each band, (m/s²)²
     */
    public void step(double atSamples, double[] accelMps2, double[] squaredEnvelopes) {
        int count = begun ? (int) (Math.floor(atSamples / everySamples) - next + 1) : 0;
        if (!begun || count > MOST_VALUES) {
            begin();
            begun = true;
            lastAt = atSamples;
            next = (long) Math.floor(atSamples / everySamples) + 1;
            return;
        }
        double envelope = 0;
        for (double square : squaredEnvelopes) {
            envelope += square;
        }
        envelope = Math.sqrt(Math.max(0, envelope));
        double length = atSamples - lastAt;
        double first = (next * everySamples - lastAt) / length;
        double each = everySamples / length;
        Arrays.fill(values, 0, count, 0);
        for (int t = 0; t < line.length; t++) {
            tone(t, heard[t] ? (byKnocks[t] ? envelope : accelMps2[0]) : 0, count, first, each);
        }
        for (int k = 0; k < count; k++) {
            sink.sound(values[k]);
        }
        next += count;
        lastAt = atSamples;
    }

    /** Follows one tone by one step of angle and adds what it is at the times in between. */
    private void tone(int t, double x, int count, double first, double each) {
        double from = phase[t];
        double to = from + perStep[t];
        double fromRe = re[t];
        double fromIm = im[t];
        double angle = 2 * Math.PI * to;
        re0[t] += NEWEST_RATIO * (x * Math.cos(angle) - re0[t]);
        im0[t] += NEWEST_RATIO * (-x * Math.sin(angle) - im0[t]);
        re[t] += NEWEST_RATIO * (re0[t] - re[t]);
        im[t] += NEWEST_RATIO * (im0[t] - im[t]);
        phase[t] = to - Math.floor(to);
        double start = 2 * Math.PI * (from + first * perStep[t]);
        double turn = 2 * Math.PI * each * perStep[t];
        double c = Math.cos(start);
        double s = Math.sin(start);
        double turnRe = Math.cos(turn);
        double turnIm = Math.sin(turn);
        for (int k = 0; k < count; k++) {
            double share = first + k * each;
            double a = fromRe + share * (re[t] - fromRe);
            double b = fromIm + share * (im[t] - fromIm);
            values[k] += 2 * (a * c - b * s);
            double turned = c * turnRe - s * turnIm;
            s = s * turnRe + c * turnIm;
            c = turned;
        }
    }
}

package tickover.diagnose;

import java.util.Arrays;
import java.util.List;
import java.util.Objects;
import tickover.drive.DriveModel;
import tickover.drive.PartLine;
import tickover.dsp.CosSin;
import tickover.dsp.RealFft;
import tickover.dsp.Window;

/**
 * The level of every part as it forms, segment by segment.
 *
 * <p>In: steps of crank angle. Out: after every {@value #HOP_TURNS} turns what the latest {@value
 * #SEGMENTS} half-overlapping segments of {@value #SEGMENT_TURNS} turns say: lines, background
 * beside them taken off, shared ones marked and counted for no part, and the root of the summed
 * powers of those that are a part's own, as {@link PartLevels} does it for a whole capture. Where
 * that looks for a line in the record it measures, this looks in the segments before, so that what
 * stands high by chance is not picked out. <br>
 * Cost: some 100 products per line, axis and turn step, in one go per {@value #HOP_TURNS} turns;
 * allocates nothing after construction. Thread: one.
 */
public final class LiveParts {
    /** Length of a segment, crank turns: a quarter of ten seconds at idle, as in a capture. */
    public static final int SEGMENT_TURNS = 32;

    /** Distance of segments, crank turns. */
    public static final int HOP_TURNS = 16;

    /** Segments that a level rests on; a capture has as many. */
    public static final int SEGMENTS = 7;

    private static final int STEPS = AngleGrid.STEPS_PER_TURN;
    private static final int LENGTH = SEGMENT_TURNS * STEPS;
    private static final int HALF = LENGTH / 2;

    /** Lines are looked for in a spectrum with so many bins to a segment's own bin. */
    private static final int PADDING = 4;

    private static final double ASIDE_ORDERS = 3.0 / SEGMENT_TURNS;

    /** Half the main lobe of a segment's window. */
    private static final double NEAR_ORDERS = 2.0 / SEGMENT_TURNS;

    /** Half-overlapping Hann segments count as this share of independent ones: [Welch1967]. */
    private static final double INDEPENDENT_RATIO = 0.75;

    private final List<LivePartLine> lines;
    private final List<String> parts;
    private final int[] partOf;
    private final double cycleOrders;
    private final int axes;
    private final int channels;
    private final double[] window = Window.HANN.periodic(LENGTH);
    private final double windowSum = Arrays.stream(window).sum();
    private final double[][] buffer;
    private final double[][] even;
    private final double[][] odd;
    private final double[] turns = new double[HALF];
    private final double[][] cos = new double[3][HALF];
    private final double[][] sin = new double[3][HALF];
    private final RealFft fft = new RealFft(PADDING * LENGTH);
    private final double[] padded = Arrays.copyOf(window, PADDING * LENGTH);
    private final double[] squares = new double[fft.bins()];

    /** Mean power spectrum of the motion, then of each band. */
    private final double[][] spectra;

    private final double[] orders;
    private final double[][] powers;
    private final double[][] partPowers;

    /** For every line and part whether the part has a line there too. */
    private final boolean[][] shared;

    private final boolean[] isShared;
    private int filled;
    private int segments;
    private int looks;

    /**
     * Prepares the lines of a drive.
     *
     * @param drive the drive
     * @param axes of every step, &gt;= 1
     * @param bands squared envelopes that come with every step; without any, bearing lines are
     *     measured by the motion at their order
     */
    public LiveParts(DriveModel drive, int axes, int bands) {
        if (!(axes >= 1 && bands >= 0)) {
            throw new IllegalArgumentException(
                    "axes=" + axes + ", bands=" + bands + ", need >= 1 and >= 0");
        }
        Objects.requireNonNull(drive, "drive");
        this.axes = axes;
        this.channels = axes + bands;
        this.cycleOrders = drive.vehicle().engine().cycleOrder();
        double top = STEPS / 2.0 - 2 * ASIDE_ORDERS;
        this.lines =
                LivePartLine.of(drive, bands > 0, top).stream()
                        .filter(l -> l.nominalOrders() > ASIDE_ORDERS)
                        .toList();
        this.parts = lines.stream().map(LivePartLine::part).distinct().toList();
        this.partOf = lines.stream().mapToInt(l -> parts.indexOf(l.part())).toArray();
        this.buffer = new double[channels][PADDING * LENGTH];
        this.even = new double[channels][HALF];
        this.odd = new double[channels][HALF];
        this.spectra = new double[1 + bands][fft.bins()];
        this.orders = lines.stream().mapToDouble(LivePartLine::nominalOrders).toArray();
        this.powers = new double[lines.size()][SEGMENTS];
        this.partPowers = new double[parts.size()][SEGMENTS];
        this.shared = new boolean[lines.size()][parts.size()];
        this.isShared = new boolean[lines.size()];
        markShared();
    }

    /** The next step does not follow on the one before: the segment in the making begins anew. */
    public void begin() {
        filled = 0;
    }

    /** Forgets the levels, as the probe is somewhere else now; where lines stand is kept. */
    public void restart() {
        filled = 0;
        segments = 0;
    }

    /**
     * Takes a step.
     *
     * @param accelMps2 acceleration of each axis, m/s²
     * @param squaredEnvelopes of each band, (m/s²)²
     * @return whether the levels changed
     */
    public boolean step(double[] accelMps2, double[] squaredEnvelopes) {
        for (int c = 0; c < channels; c++) {
            buffer[c][filled] = c < axes ? accelMps2[c] : squaredEnvelopes[c - axes];
        }
        filled++;
        if (filled < LENGTH) {
            return false;
        }
        measure();
        for (double[] channel : buffer) {
            System.arraycopy(channel, HALF, channel, 0, HALF);
        }
        filled = HALF;
        return true;
    }

    private void measure() {
        for (int c = 0; c < channels; c++) {
            fold(buffer[c], even[c], odd[c]);
        }
        if (looks > 0) {
            for (int i = 0; i < orders.length; i++) {
                orders[i] = look(lines.get(i));
            }
            markShared();
        }
        int slot = segments % SEGMENTS;
        for (double[] part : partPowers) {
            part[slot] = 0;
        }
        for (int i = 0; i < orders.length; i++) {
            probe(orders[i]);
            double power = lines.get(i).byKnocks() ? knocks() : motion();
            powers[i][slot] = power;
            if (!isShared[i]) {
                partPowers[partOf[i]][slot] += power;
            }
        }
        segments++;
        learnSpectra();
    }

    /** The window's first weight is zero, so the rest is symmetric about the middle. */
    private void fold(double[] x, double[] sum, double[] difference) {
        sum[0] = window[HALF] * x[HALF];
        difference[0] = 0;
        for (int d = 1; d < HALF; d++) {
            double after = x[HALF + d];
            double before = x[HALF - d];
            sum[d] = window[HALF + d] * (after + before);
            difference[d] = window[HALF + d] * (after - before);
        }
    }

    private void probe(double order) {
        for (int k = 0; k < 3; k++) {
            double at = order + (k == 0 ? 0 : k == 1 ? -ASIDE_ORDERS : ASIDE_ORDERS);
            double step = at / STEPS;
            for (int d = 0; d < HALF; d++) {
                turns[d] = d * step;
            }
            CosSin.ofTurns(turns, HALF, cos[k], sin[k]);
        }
    }

    private double motion() {
        double sum = 0;
        for (int c = 0; c < axes; c++) {
            sum += power(c);
        }
        return sum;
    }

    /** As {@link KnockMeter} does: the mean square of bursts is a quarter of the amplitude. */
    private double knocks() {
        double sum = 0;
        for (int c = axes; c < channels; c++) {
            double square = power(c);
            sum += Math.copySign(Math.sqrt(2 * Math.abs(square)), square) / 4;
        }
        return sum;
    }

    /** Power of the probed line in a channel, less the mean of what stands to either side. */
    private double power(int channel) {
        double background = 0.5 * (square(channel, 1) + square(channel, 2));
        return square(channel, 0) - background;
    }

    private double square(int channel, int k) {
        double re = product(even[channel], cos[k]);
        double im = product(odd[channel], sin[k]);
        return 2 * (re * re + im * im) / (windowSum * windowSum);
    }

    private static double product(double[] a, double[] b) {
        double s0 = 0;
        double s1 = 0;
        double s2 = 0;
        double s3 = 0;
        for (int i = 0; i < HALF; i += 4) {
            s0 += a[i] * b[i];
            s1 += a[i + 1] * b[i + 1];
            s2 += a[i + 2] * b[i + 2];
            s3 += a[i + 3] * b[i + 3];
        }
        return (s0 + s1) + (s2 + s3);
    }

    /** Adds this segment to the spectra in which the next one's lines are looked for. */
    private void learnSpectra() {
        looks++;
        double part = 1.0 / Math.min(SEGMENTS, looks);
        for (int s = 0; s < spectra.length; s++) {
            double[] mean = spectra[s];
            int from = s == 0 ? 0 : axes + s - 1;
            int to = s == 0 ? axes : from + 1;
            for (int k = 0; k < mean.length; k++) {
                mean[k] *= 1 - part;
            }
            for (int c = from; c < to; c++) {
                fft.squares(buffer[c], 0, padded, squares);
                for (int k = 0; k < mean.length; k++) {
                    mean[k] += part * squares[k];
                }
            }
        }
    }

    /** Where a line stands out most within its tolerance, clear of what the engine repeats. */
    private double look(LivePartLine line) {
        double nominal = line.nominalOrders();
        double halfWidth = nominal * line.uncertaintyRatio();
        if (!(halfWidth > 0) || isEngines(nominal)) {
            return nominal;
        }
        int first = line.byKnocks() ? 1 : 0;
        int end = line.byKnocks() ? spectra.length : 1;
        double binOrders = 1.0 / (SEGMENT_TURNS * PADDING);
        int from = (int) Math.ceil((nominal - halfWidth) / binOrders);
        int to = (int) Math.floor((nominal + halfWidth) / binOrders);
        int around = Math.max(to - from, 4 * PADDING);
        double best = nominal;
        double highest = 0;
        for (int s = first; s < end; s++) {
            double[] mean = spectra[s];
            double sum = 0;
            int count = 0;
            int top = Math.min(mean.length - 1, to + around);
            for (int k = Math.max(1, from - around); k <= top; k++) {
                if (!isEngines(k * binOrders)) {
                    sum += mean[k];
                    count++;
                }
            }
            for (int k = Math.max(1, from); k <= to && k < mean.length; k++) {
                boolean clear = !isEngines(k * binOrders) && sum > 0;
                if (clear && mean[k] * count / sum > highest) {
                    highest = mean[k] * count / sum;
                    best = k * binOrders;
                }
            }
        }
        return best;
    }

    private boolean isEngines(double order) {
        return Math.abs(order - cycleOrders * Math.rint(order / cycleOrders)) < NEAR_ORDERS;
    }

    private void markShared() {
        int engine = parts.indexOf(PartLine.ENGINE);
        for (int i = 0; i < orders.length; i++) {
            Arrays.fill(shared[i], false);
            isShared[i] = false;
            for (int j = 0; j < orders.length; j++) {
                if (partOf[i] != partOf[j] && Math.abs(orders[i] - orders[j]) < NEAR_ORDERS) {
                    shared[i][partOf[j]] = true;
                    isShared[i] = true;
                }
            }
            if (partOf[i] != engine && isEngines(orders[i])) {
                isShared[i] = true;
                if (engine >= 0) {
                    shared[i][engine] = true;
                }
            }
        }
    }

    /**
     * Returns the lines that are followed.
     *
     * @return in the order of the drive; what is asked by a line's number counts from 0 in it
     */
    public List<LivePartLine> lines() {
        return lines;
    }

    /**
     * Returns the parts that have lines.
     *
     * @return names; what is asked by a part's number counts from 0 in it
     */
    public List<String> parts() {
        return parts;
    }

    /**
     * Returns how many segments the levels rest on.
     *
     * @return 0 to {@value #SEGMENTS}
     */
    public int segments() {
        return Math.min(SEGMENTS, segments);
    }

    /**
     * Writes the levels as they are.
     *
     * @param into takes them
     */
    public void write(LivePartLevels into) {
        int n = segments();
        into.begin(n);
        for (int p = 0; p < partPowers.length; p++) {
            into.part(p, level(partPowers[p], n), error(partPowers[p], n));
        }
        for (int i = 0; i < orders.length; i++) {
            into.line(i, orders[i], level(powers[i], n), error(powers[i], n), shared[i]);
        }
    }

    /** Mean of segment powers, not below 0, as an rms level, m/s². */
    static double level(double[] powers, int count) {
        return count == 0 ? 0 : Math.sqrt(Math.max(0, mean(powers, count)));
    }

    /** Standard error of {@link #level}, m/s²; 0 where there are too few segments to tell. */
    static double error(double[] powers, int count) {
        if (count < SegmentPlan.FEWEST) {
            return 0;
        }
        double mean = mean(powers, count);
        double squares = 0;
        for (int i = 0; i < count; i++) {
            squares += (powers[i] - mean) * (powers[i] - mean);
        }
        double ofPower = Math.sqrt(squares / (count - 1) / (count * INDEPENDENT_RATIO));
        double level = Math.sqrt(Math.max(0, mean));
        return ofPower > level * level ? Math.sqrt(ofPower) : ofPower / (2 * level + 1e-300);
    }

    private static double mean(double[] values, int count) {
        double sum = 0;
        for (int i = 0; i < count; i++) {
            sum += values[i];
        }
        return sum / count;
    }
}

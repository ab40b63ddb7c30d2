package tickover.order;

import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import tickover.dsp.RealFft;

/**
 * Synchronous averages of several parts of one record, and what remains without them.
 *
 * <p>In: samples, m/s², steps of 1/{@code sampleRateHz} s from time 0, the crank's angle, and each
 * part's turns per crank turn, any real number. <br>
 * Out: for each part the mean of the record over the part's own turns, at each angle of the part,
 * its harmonics up to a highest order; the part's signal over time; the residual. Signals and
 * residual add up to the record. <br>
 * Each part is averaged over what the others leave, in turn until nothing changes. So a line of one
 * part does not show in the average of another, however short the record. Harmonics of two parts
 * that come within one turn over the record of each other cannot be told apart: they go to the part
 * named first. <br>
 * Accuracy: what repeats exactly comes out to the bounds of {@link ResamplingDesign}, with an exact
 * angle and ratio. A ratio that is off by d turns the k-th harmonic by {@code k d} turns per crank
 * turn; over L crank turns {@code sinc(k d L)} of it is left. What else is there leaks by {@link
 * SynchronousAverage#combGain}, noise by one over the root of the number of turns. <br>
 * Cost: O(length) per part and pass, as resampling. Thread: any.
 */
public final class SynchronousAverages {
    /** Harmonics lie up to this part of the highest that the steps per turn can show. */
    private static final double USABLE_RATIO = 0.8;

    private static final int FEWEST_STEPS = 16;
    private static final int MOST_PASSES = 12;

    /** Passes end when no average changes by more than this part of the record's rms. */
    private static final double SETTLED_RATIO = 1e-7;

    private static final int BLOCK = 1024;

    private final TrackInput input;
    private final List<SynchronousAverage> averages;

    private SynchronousAverages(TrackInput input, List<SynchronousAverage> averages) {
        this.input = input;
        this.averages = List.copyOf(averages);
    }

    /**
     * Averages a record over the turns of each part.
     *
     * @param x samples, m/s², from time 0; not copied, nobody may write to it while the result is
     *     in use
     * @param sampleRateHz samples per second, Hz, &gt; 0
     * @param angle the crank's angle over the time of the samples; what it does not cover is not
     *     used
     * @param highestOrders highest order wanted, per crank turn; a frequency below 0.8 of half the
     *     sample rate at every speed
     * @param turnsPerCrankTurn of each part, at least one, in the sequence in which they may claim
     *     what they share
     * @return the averages
     * @throws IllegalArgumentException if a part turns faster than the highest order, makes fewer
     *     than two whole turns, or is within one turn per record of another
     */
    public static SynchronousAverages of(
            double[] x,
            double sampleRateHz,
            ShaftAngle angle,
            double highestOrders,
            double... turnsPerCrankTurn) {
        Objects.requireNonNull(x, "x");
        Objects.requireNonNull(angle, "angle");
        if (!(sampleRateHz > 0)) {
            throw new IllegalArgumentException("sampleRateHz=" + sampleRateHz + ", need > 0 Hz");
        }
        requireApart(angle, highestOrders, turnsPerCrankTurn);
        boolean[][] own = own(angle, highestOrders, turnsPerCrankTurn);
        List<SynchronousAverage> averages = new ArrayList<>();
        SampleGaps none = new SampleGaps(List.of(), sampleRateHz, x.length);
        TrackInput input = TrackInput.of(x, sampleRateHz, angle, none);
        double[] left = x.clone();
        for (int p = 0; p < own.length; p++) {
            averages.add(average(input, left, turnsPerCrankTurn[p], own[p]));
            add(input, averages.get(p), -1, left);
        }
        double settled = SETTLED_RATIO * rms(x);
        double change = averages.size() > 1 ? Double.POSITIVE_INFINITY : 0;
        for (int pass = 1; pass < MOST_PASSES && change > settled; pass++) {
            change = 0;
            for (int p = 0; p < averages.size(); p++) {
                SynchronousAverage before = averages.get(p);
                add(input, before, 1, left);
                averages.set(p, average(input, left, turnsPerCrankTurn[p], own[p]));
                add(input, averages.get(p), -1, left);
                change = Math.max(change, distance(before, averages.get(p)));
            }
        }
        return new SynchronousAverages(input, averages);
    }

    private static void requireApart(ShaftAngle angle, double highestOrders, double[] ratios) {
        if (!(ratios.length >= 1)) {
            throw new IllegalArgumentException("turnsPerCrankTurn is empty, need at least one");
        }
        double lengthTurns = angle.endTurns() - angle.startTurns();
        for (int i = 0; i < ratios.length; i++) {
            if (!(ratios[i] > 0 && ratios[i] <= highestOrders)) {
                throw new IllegalArgumentException(
                        "turnsPerCrankTurn="
                                + ratios[i]
                                + ", need above 0 and at most the highest order of "
                                + highestOrders);
            }
            for (int j = 0; j < i; j++) {
                if (!(Math.abs(ratios[i] - ratios[j]) * lengthTurns >= 1)) {
                    throw new IllegalArgumentException(
                            "turnsPerCrankTurn="
                                    + ratios[i]
                                    + " and "
                                    + ratios[j]
                                    + ", need parts that differ by a turn over the record's "
                                    + lengthTurns
                                    + " crank turns");
                }
            }
        }
    }

    /** For each part its harmonics 0 (not used), 1, 2, …: whether no part before has that line. */
    private static boolean[][] own(ShaftAngle angle, double highestOrders, double[] ratios) {
        double apart = 1 / (angle.endTurns() - angle.startTurns());
        boolean[][] own = new boolean[ratios.length][];
        for (int p = 0; p < ratios.length; p++) {
            own[p] = new boolean[(int) Math.floor(highestOrders / ratios[p] + 1e-9) + 1];
            for (int k = 1; k < own[p].length; k++) {
                double order = k * ratios[p];
                own[p][k] = true;
                for (int q = 0; q < p; q++) {
                    int nearest = (int) Math.rint(order / ratios[q]);
                    boolean taken = nearest >= 1 && nearest < own[q].length && own[q][nearest];
                    if (taken && Math.abs(order - nearest * ratios[q]) < apart) {
                        own[p][k] = false;
                    }
                }
            }
        }
        return own;
    }

    /**
     * Returns the average of each part.
     *
     * @return in the sequence in which the parts were given
     */
    public List<SynchronousAverage> averages() {
        return averages;
    }

    /**
     * The signal of one part alone.
     *
     * @param part place of the part, from 0
     * @return m/s², one value per sample of the record; zero where the angle is not known
     */
    public double[] signal(int part) {
        double[] out = new double[input.x().length];
        add(input, averages.get(part), 1, out);
        return out;
    }

    /**
     * The record without what repeats with any of the parts; the mean stays.
     *
     * @return m/s², one value per sample of the record
     */
    public double[] residual() {
        double[] out = input.x().clone();
        for (SynchronousAverage average : averages) {
            add(input, average, -1, out);
        }
        return out;
    }

    private static SynchronousAverage average(
            TrackInput input, double[] from, double ratio, boolean[] own) {
        int steps = FEWEST_STEPS;
        while (USABLE_RATIO * steps / 2 < own.length - 1) {
            steps *= 2;
        }
        AngularRecord record =
                AngularResampler.resample(
                        from, input.sampleRateHz(), input.angle().ofPart(ratio), steps);
        int turns = record.values().length / steps;
        if (!(turns >= 2)) {
            throw new IllegalArgumentException(
                    "turnsPerCrankTurn="
                            + ratio
                            + ": the record holds "
                            + turns
                            + " whole turns of the part, need at least 2");
        }
        return mean(record, ratio, turns, own);
    }

    /** Mean over whole turns of the harmonics of each, and what the scatter leaves of it. */
    private static SynchronousAverage mean(
            AngularRecord record, double ratio, int turns, boolean[] own) {
        int steps = record.samplesPerTurn();
        int harmonics = own.length - 1;
        RealFft fft = new RealFft(steps);
        double[] turn = new double[steps];
        double[] binRe = new double[fft.bins()];
        double[] binIm = new double[fft.bins()];
        double[] re = new double[harmonics + 1];
        double[] im = new double[harmonics + 1];
        double[] squares = new double[harmonics + 1];
        for (int t = 0; t < turns; t++) {
            System.arraycopy(record.values(), t * steps, turn, 0, steps);
            fft.forward(turn, binRe, binIm);
            for (int k = 1; k <= harmonics; k++) {
                if (!own[k]) {
                    continue;
                }
                re[k] += 2 * binRe[k] / steps / turns;
                im[k] += 2 * binIm[k] / steps / turns;
                squares[k] += 4 * (binRe[k] * binRe[k] + binIm[k] * binIm[k]) / steps / steps;
            }
        }
        double[] errorRms = new double[harmonics + 1];
        double start = record.startTurns() - Math.floor(record.startTurns());
        for (int k = 1; k <= harmonics; k++) {
            double scatter = squares[k] - turns * (re[k] * re[k] + im[k] * im[k]);
            errorRms[k] = Math.sqrt(Math.max(0, scatter) / 2 / turns / (turns - 1));
            double c = Math.cos(-2 * Math.PI * k * start);
            double s = Math.sin(-2 * Math.PI * k * start);
            double a = re[k];
            re[k] = a * c - im[k] * s;
            im[k] = a * s + im[k] * c;
        }
        return new SynchronousAverage(ratio, turns, steps, re, im, errorRms);
    }

    /** Adds an average, times a factor, to samples over time. */
    private static void add(
            TrackInput input, SynchronousAverage average, double factor, double[] to) {
        PartTurn turn = new PartTurn(average.re(), average.im());
        double[] crankTurns = new double[BLOCK];
        int end = input.first() + input.count();
        for (int from = input.first(); from < end; from += BLOCK) {
            int size = Math.min(BLOCK, end - from);
            input.angle().turnsAtSamples(from, input.sampleRateHz(), size, crankTurns);
            for (int i = 0; i < size; i++) {
                to[from + i] += factor * turn.at(average.turnsPerCrankTurn() * crankTurns[i]);
            }
        }
    }

    private static double distance(SynchronousAverage a, SynchronousAverage b) {
        double squares = 0;
        for (int k = 1; k <= a.harmonics(); k++) {
            double re = a.re()[k] - b.re()[k];
            double im = a.im()[k] - b.im()[k];
            squares += (re * re + im * im) / 2;
        }
        return Math.sqrt(squares);
    }

    private static double rms(double[] values) {
        double squares = 0;
        for (double value : values) {
            squares += value * value;
        }
        return Math.sqrt(squares / values.length);
    }
}

package tickover.order;

import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import tickover.dsp.CosSin;

/**
 * Lines followed together along a record: level and phase over time, the signal of each, and what
 * is left without them. Immutable; {@link #signal} and {@link #residual} work on demand, so that a
 * result costs a few numbers per second until its sound is asked for.
 */
public final class LineTracks {
    private static final int BLOCK = 1024;

    private final TrackInput input;
    private final List<TrackedLine> lines;
    private final TrackCurve[] curves;

    LineTracks(TrackInput input, List<TrackedLine> lines, TrackCurve[] curves) {
        this.input = input;
        this.lines = lines;
        this.curves = curves;
    }

    LineTracks with(TrackCurve[] others) {
        return new LineTracks(input, lines, others);
    }

    int lineCount() {
        return curves.length;
    }

    /**
     * Level and phase of every line.
     *
     * @return one track per line, in the sequence of the spec
     */
    public List<LineTrack> tracks() {
        List<LineTrack> tracks = new ArrayList<>();
        for (int k = 0; k < curves.length; k++) {
            tracks.add(track(k));
        }
        return List.copyOf(tracks);
    }

    private LineTrack track(int k) {
        TrackCurve curve = curves[k];
        int step = curve.intervalSamples();
        int points = (input.count() - 1) / step + 1;
        double[][] out = new double[4][points];
        boolean[] bridged = new boolean[points];
        for (int i = 0; i < points; i++) {
            double re = SplineBasis.atKnot(curve.re(), i);
            double im = SplineBasis.atKnot(curve.im(), i);
            int sample = input.first() + i * step;
            out[0][i] = sample / input.sampleRateHz();
            out[1][i] = 60 * input.angle().speedHzAt(out[0][i]);
            out[2][i] = Math.hypot(re, im) / Math.sqrt(2);
            out[3][i] = Math.toDegrees(Math.atan2(im, re));
            bridged[i] = input.gaps().count(sample, sample + 1) > 0;
        }
        return new LineTrack(lines.get(k), out[0], out[1], out[2], out[3], bridged);
    }

    /**
     * The signal of one line alone.
     *
     * @param line place of the line in the spec, from 0
     * @return m/s², one value per sample of the record; bridged over stretches that were left out,
     *     zero where the shaft angle is not known
     */
    public double[] signal(int line) {
        Objects.checkIndex(line, curves.length);
        double[] out = new double[input.x().length];
        add(new int[] {line}, 1, out);
        return out;
    }

    /**
     * The record without the lines; the mean and all else stays.
     *
     * @return m/s², one value per sample of the record
     */
    public double[] residual() {
        double[] out = input.x().clone();
        int[] all = new int[curves.length];
        for (int k = 0; k < all.length; k++) {
            all[k] = k;
        }
        add(all, -1, out);
        return out;
    }

    /** Adds the signals of some lines, times a factor, to a record. */
    void add(int[] chosen, double scale, double[] out) {
        double[] turns = new double[BLOCK];
        double[] phase = new double[BLOCK];
        double[] cos = new double[BLOCK];
        double[] sin = new double[BLOCK];
        for (int at = 0; at < input.count(); at += BLOCK) {
            int n = Math.min(BLOCK, input.count() - at);
            input.angle().turnsAtSamples(input.first() + at, input.sampleRateHz(), n, turns);
            for (int k : chosen) {
                input.phaseTurns(lines.get(k), turns, at, n, phase);
                CosSin.ofTurns(phase, n, cos, sin);
                curves[k].addTo(at, n, scale, cos, sin, out, input.first() + at);
            }
        }
    }
}

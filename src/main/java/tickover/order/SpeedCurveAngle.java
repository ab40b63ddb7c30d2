package tickover.order;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import tickover.align.SpeedReadings;
import tickover.dsp.Statistics;
import tickover.unit.Rpm;

/** Shaft angle from an exact speed curve, by integrating it. */
final class SpeedCurveAngle {
    /** The curve is held beyond its ends for this many of its own steps. */
    private static final double HELD_STEPS = 2;

    /** And for at least this long, s. */
    private static final double HELD_S = 0.25;

    /** Assumed error of the integral where the curve is held, over the speed held. */
    private static final double HELD_ERROR_RATIO = 0.02;

    private SpeedCurveAngle() {}

    static AngleFinding find(SpeedReadings readings, double durationS) {
        return find(readings, durationS, 0);
    }

    /** The same for a curve whose speeds are off by a part of themselves, slowly changing. */
    static AngleFinding find(SpeedReadings readings, double durationS, double errorRatio) {
        double[] times = readings.timesS();
        double[] speeds = Arrays.stream(readings.speedsRpm()).map(r -> new Rpm(r).hz()).toArray();
        if (times.length < 2 || !(times[times.length - 1] > times[0])) {
            return AngleFinding.none(
                    "The speed curve has only "
                            + times.length
                            + " rows at different times; at least two are needed.");
        }
        Curve curve = new Curve(times, speeds, durationS);
        if (!(curve.endS() > curve.startS())) {
            return AngleFinding.none(
                    String.format(
                            Locale.ROOT,
                            "The speed curve (%.2f s to %.2f s) and the record (0 s to %.2f s) do"
                                    + " not overlap.",
                            times[0],
                            times[times.length - 1],
                            durationS));
        }
        List<AngleNote> notes = new ArrayList<>();
        if (curve.startS() > 0 || curve.endS() < durationS) {
            notes.add(
                    new AngleNote(
                            AngleNote.Kind.PART_OF_RECORD,
                            0,
                            String.format(
                                    Locale.ROOT,
                                    "The speed curve covers %.2f s to %.2f s of a record of %.2f"
                                            + " s; only that part is used.",
                                    curve.startS(),
                                    curve.endS(),
                                    durationS)));
        }
        AnglePieces pieces = AnglePieces.ofSpeeds(curve.times(), curve.speeds());
        if (!(pieces.knotTurns()[curve.times().length - 1] > 0)) {
            return AngleFinding.none("The speed curve is 0 rpm throughout; nothing turned.");
        }
        return AngleFinding.found(
                new ShaftAngle(pieces, curve.sigma(times, errorRatio), false), notes);
    }

    /** Speed at a time, straight between rows and held beyond them. */
    static double at(double[] t, double[] v, double time) {
        int n = t.length;
        if (time <= t[0]) {
            return v[0];
        }
        if (time >= t[n - 1]) {
            return v[n - 1];
        }
        int k = Arrays.binarySearch(t, time);
        k = Math.max(1, k >= 0 ? k : -k - 1);
        if (!(t[k] > t[k - 1])) {
            return v[k];
        }
        return v[k - 1] + (v[k] - v[k - 1]) * (time - t[k - 1]) / (t[k] - t[k - 1]);
    }

    /** The curve cut or held to the length of the record, with steps made steep. */
    private static final class Curve {
        private final double[] times;
        private final double[] speeds;
        private int count;

        Curve(double[] t, double[] v, double durationS) {
            int n = t.length;
            double[] steps = new double[n - 1];
            for (int i = 0; i + 1 < n; i++) {
                steps[i] = t[i + 1] - t[i];
            }
            double held = Math.max(HELD_S, HELD_STEPS * Statistics.median(steps));
            times = new double[n + 2];
            speeds = new double[n + 2];
            double start = Math.max(0, t[0] - held);
            double end = Math.min(durationS, t[n - 1] + held);
            add(start, at(t, v, start));
            for (int i = 0; i < n; i++) {
                if (t[i] > start && t[i] < end) {
                    add(t[i], v[i]);
                }
            }
            if (end > start) {
                add(end, at(t, v, end));
            }
        }

        private void add(double time, double speed) {
            if (count > 0 && time <= times[count - 1]) {
                // Two rows at one time are a step, taken within a nanosecond.
                times[count] = times[count - 1] + 1e-9;
            } else {
                times[count] = time;
            }
            speeds[count++] = speed;
        }

        double startS() {
            return times[0];
        }

        double endS() {
            return times[count - 1];
        }

        double[] times() {
            return Arrays.copyOf(times, count);
        }

        double[] speeds() {
            return Arrays.copyOf(speeds, count);
        }

        double[] sigma(double[] t, double errorRatio) {
            double[] sigma = new double[count];
            for (int i = 0; i < count; i++) {
                double outside = Math.max(t[0] - times[i], times[i] - t[t.length - 1]);
                double held = HELD_ERROR_RATIO * speeds[i] * Math.max(0, outside);
                double drift = errorRatio * speeds[i] * Math.sqrt(times[i] - times[0]);
                sigma[i] = Math.hypot(held, drift);
            }
            return sigma;
        }
    }
}

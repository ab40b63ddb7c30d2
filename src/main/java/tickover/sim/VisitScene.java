package tickover.sim;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Objects;

/**
 * A simulated visit as it happens: somebody holds the probe against one point after another, and
 * presses its button when a capture begins and when it ends. Between captures the probe hangs in
 * the air; the engine runs on at the next capture's first speed.
 *
 * <p>Every capture has to bring tach pulses of the crank, one a turn, or readings of speed.
 */
public final class VisitScene implements LineScene {
    /** From lifting the probe off one point to pressing it on the next, s. */
    public static final double PAUSE_S = 1.5;

    /** The button is pressed this long after the probe sits, and again this long before it goes. */
    private static final double SETTLED_S = 0.2;

    private static final double AIR_RMS_MPS2 = 0.02;

    private final List<SimulatedCapture> captures;
    private final double[] beginsS;
    private final double rateHz;
    private final double[] passagesS;

    /**
     * Lays the captures out in time.
     *
     * @param captures at least one, all of one sample rate and number of channels
     */
    public VisitScene(List<SimulatedCapture> captures) {
        this.captures = List.copyOf(captures);
        if (this.captures.isEmpty()) {
            throw new IllegalArgumentException("captures is empty, need at least one");
        }
        SimulatedCapture first = this.captures.get(0);
        this.rateHz = first.recorder().sampleRateHz();
        this.beginsS = new double[this.captures.size()];
        double atS = PAUSE_S;
        for (int i = 0; i < beginsS.length; i++) {
            SimulatedCapture capture = this.captures.get(i);
            if (capture.recorder().sampleRateHz() != rateHz
                    || capture.channels() != first.channels()) {
                throw new IllegalArgumentException(
                        "capture " + i + " differs in rate or channels, need all the same");
            }
            beginsS[i] = atS;
            atS += lengthS(capture) + PAUSE_S;
        }
        this.passagesS = passages();
    }

    private static double lengthS(SimulatedCapture capture) {
        return (double) capture.accelMps2(0).length / capture.recorder().sampleRateHz();
    }

    /**
     * Returns when the last capture is over and the probe lies still.
     *
     * @return s
     */
    public double durationS() {
        int last = beginsS.length - 1;
        return beginsS[last] + lengthS(captures.get(last)) + PAUSE_S;
    }

    /**
     * Returns the captures.
     *
     * @return in the order in which they happen
     */
    public List<SimulatedCapture> captures() {
        return captures;
    }

    @Override
    public int axes() {
        return captures.get(0).channels();
    }

    @Override
    public void accelMps2(double fromS, double stepS, int count, double[] out) {
        int axes = axes();
        for (int i = 0; i < count; i++) {
            double timeS = fromS + i * stepS;
            int at = captureAt(timeS);
            for (int axis = 0; axis < axes; axis++) {
                out[i * axes + axis] =
                        at < 0 ? AIR_RMS_MPS2 * SceneNoise.at(timeS, axis) : felt(at, axis, timeS);
            }
        }
    }

    /** The nearest sample: a probe at the recording's own rate reads each of them once. */
    private double felt(int at, int axis, double timeS) {
        double[] x = captures.get(at).accelMps2(axis);
        int i = (int) Math.rint((timeS - beginsS[at]) * rateHz);
        return x[Math.max(0, Math.min(i, x.length - 1))];
    }

    private int captureAt(double timeS) {
        for (int i = 0; i < beginsS.length; i++) {
            double sinceS = timeS - beginsS[i];
            if (sinceS >= -0.5 / rateHz && sinceS < lengthS(captures.get(i)) - 0.5 / rateHz) {
                return i;
            }
        }
        return -1;
    }

    /** Pulses of the captures, and between them as many as an even speed would give. */
    private double[] passages() {
        List<Double> times = new ArrayList<>();
        for (int i = 0; i < beginsS.length; i++) {
            if (!(captures.get(i).speed() instanceof SpeedRecord.Tach tach)) {
                continue;
            }
            double[] own = tach.timesS();
            if (own.length < 2) {
                continue;
            }
            double periodS = (own[own.length - 1] - own[0]) / (own.length - 1);
            double firstS = beginsS[i] + own[0];
            double fromS = times.isEmpty() ? 0 : times.get(times.size() - 1);
            int between = (int) Math.max(1, Math.rint((firstS - fromS) / periodS));
            for (int k = 1; k < between; k++) {
                times.add(fromS + (firstS - fromS) * k / between);
            }
            for (double t : own) {
                times.add(beginsS[i] + t);
            }
        }
        return times.stream().mapToDouble(t -> t).toArray();
    }

    @Override
    public double[] passagesS(double fromS, double toS) {
        return Arrays.copyOfRange(passagesS, from(fromS), from(toS));
    }

    /** Index of the first passage at or after a time. */
    private int from(double timeS) {
        int i = Arrays.binarySearch(passagesS, timeS);
        return i >= 0 ? i : -i - 1;
    }

    @Override
    public double speedRpm(double timeS) {
        int at = Math.max(0, captureAt(timeS));
        SpeedRecord speed = Objects.requireNonNull(captures.get(at).speed());
        if (speed instanceof SpeedRecord.Tach tach && tach.timesS().length > 1) {
            double[] own = tach.timesS();
            return 60 * (own.length - 1) / (own[own.length - 1] - own[0]);
        }
        if (speed instanceof SpeedRecord.Readings r && r.timesS().length > 0) {
            int i = Arrays.binarySearch(r.timesS(), timeS - beginsS[at]);
            int near = i >= 0 ? i : Math.max(0, Math.min(-i - 2, r.timesS().length - 1));
            return r.speedsRpm()[near];
        }
        return 0;
    }

    @Override
    public double[] pressesS(double fromS, double toS) {
        List<Double> times = new ArrayList<>();
        for (int i = 0; i < beginsS.length; i++) {
            double endS = beginsS[i] + lengthS(captures.get(i));
            for (double t : new double[] {beginsS[i] + SETTLED_S, endS - SETTLED_S}) {
                if (t >= fromS && t < toS) {
                    times.add(t);
                }
            }
        }
        return times.stream().mapToDouble(t -> t).toArray();
    }
}

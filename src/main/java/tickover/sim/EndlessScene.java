package tickover.sim;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;

/**
 * An engine that runs for ever, by closed forms: speed swings about a mean as a sine, a few orders
 * sound with known amplitude and phase, and there is white noise. Made for tests of the line, whose
 * every value can be computed by hand.
 *
 * <p>Turns: {@code T(t) = n t - (a n P / 2 pi) (cos(2 pi t / P) - 1)} with mean speed n in Hz,
 * relative swing a and period P. Order O with rms A: {@code sqrt(2) A cos(2 pi O T(t) + phase)}.
 */
public final class EndlessScene implements LineScene {
    private static final double TURN = 2 * Math.PI;

    /**
     * How the engine turns.
     *
     * @param meanRpm mean crank speed, rpm, &gt; 0
     * @param swingRatio largest deviation from it, relative, 0 to below 1
     * @param periodS period of the swing, s, &gt; 0
     */
    public record Turning(double meanRpm, double swingRatio, double periodS) {
        public Turning {
            if (!(meanRpm > 0 && swingRatio >= 0 && swingRatio < 1 && periodS > 0)) {
                throw new IllegalArgumentException(
                        "meanRpm="
                                + meanRpm
                                + ", swingRatio="
                                + swingRatio
                                + ", periodS="
                                + periodS
                                + ", need > 0 rpm, 0 to below 1, > 0 s");
            }
        }

        /**
         * Returns how far the crank has turned.
         *
         * @param timeS time, s
         * @return turns
         */
        public double turnsAt(double timeS) {
            double meanHz = meanRpm / 60;
            return meanHz * timeS
                    - swingRatio * meanHz * periodS / TURN * (Math.cos(TURN * timeS / periodS) - 1);
        }

        /**
         * Returns the speed.
         *
         * @param timeS time, s
         * @return rpm
         */
        public double rpmAt(double timeS) {
            return meanRpm * (1 + swingRatio * Math.sin(TURN * timeS / periodS));
        }
    }

    /**
     * One order.
     *
     * @param order per crank turn, &gt; 0
     * @param rmsMps2 m/s², &gt;= 0
     * @param phaseRad rad
     */
    public record Tone(double order, double rmsMps2, double phaseRad) {}

    private final Turning turning;
    private final List<Tone> tones;
    private final double noiseRmsMps2;
    private final int axes;
    private final double[] pressesS;

    /**
     * Describes the engine.
     *
     * @param turning how it turns
     * @param tones what it sounds like; axis y has half of it, axis z a quarter
     * @param noiseRmsMps2 white noise per sample, m/s², &gt;= 0
     * @param axes 1 to 3
     * @param pressesS when the button is pressed, s, rising
     */
    public EndlessScene(
            Turning turning, List<Tone> tones, double noiseRmsMps2, int axes, double... pressesS) {
        this.turning = turning;
        this.tones = List.copyOf(tones);
        this.noiseRmsMps2 = noiseRmsMps2;
        this.axes = axes;
        this.pressesS = pressesS.clone();
        if (!(axes >= 1 && axes <= 3)) {
            throw new IllegalArgumentException("axes=" + axes + ", need 1 to 3");
        }
    }

    @Override
    public int axes() {
        return axes;
    }

    @Override
    public void accelMps2(double fromS, double stepS, int count, double[] out) {
        for (int i = 0; i < count; i++) {
            double timeS = fromS + i * stepS;
            double turns = turning.turnsAt(timeS);
            double sum = 0;
            for (Tone tone : tones) {
                double cycles = tone.order() * turns;
                // Whole cycles are taken off first: after a day they would eat the phase's digits.
                double phase = TURN * (cycles - Math.rint(cycles)) + tone.phaseRad();
                sum += Math.sqrt(2) * tone.rmsMps2() * Math.cos(phase);
            }
            double share = 1;
            for (int axis = 0; axis < axes; axis++) {
                double noise = noiseRmsMps2 > 0 ? noiseRmsMps2 * SceneNoise.at(timeS, axis) : 0;
                out[i * axes + axis] = share * sum + noise;
                share /= 2;
            }
        }
    }

    @Override
    public double[] passagesS(double fromS, double toS) {
        long first = (long) Math.ceil(turning.turnsAt(fromS) - 1e-9);
        List<Double> times = new ArrayList<>();
        for (long turn = first; ; turn++) {
            double timeS = timeOf(turn);
            if (timeS >= toS) {
                break;
            }
            if (timeS >= fromS) {
                times.add(timeS);
            }
        }
        return times.stream().mapToDouble(t -> t).toArray();
    }

    private double timeOf(long turns) {
        double timeS = turns / (turning.meanRpm() / 60);
        // Newton's steps shrink by the square of the swing; a sine's speed never reaches zero.
        for (int i = 0; i < 50; i++) {
            double step = (turning.turnsAt(timeS) - turns) / (turning.rpmAt(timeS) / 60);
            timeS -= step;
            if (Math.abs(step) < 1e-13 * (1 + Math.abs(timeS))) {
                break;
            }
        }
        return timeS;
    }

    @Override
    public double speedRpm(double timeS) {
        return turning.rpmAt(timeS);
    }

    @Override
    public double[] pressesS(double fromS, double toS) {
        return Arrays.stream(pressesS).filter(t -> t >= fromS && t < toS).toArray();
    }
}

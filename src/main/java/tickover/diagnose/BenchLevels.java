package tickover.diagnose;

import java.util.ArrayList;
import java.util.List;
import java.util.function.DoubleUnaryOperator;
import tickover.dsp.Statistics;
import tickover.dsp.Window;

/**
 * Levels of a bench record: overall, in the three bands of ISO 15242-2, and once per turn.
 *
 * <p>The bands are for bearings under the load and speed of that standard; here they are only to be
 * held against another record of the same bearing on the same bench.
 */
final class BenchLevels {
    private static final int TURN_HARMONICS = 3;
    private static final double MMPS_PER_MPS = 1000;

    private final double[] x;
    private final double sampleRateHz;
    private final List<BenchLevel> levels = new ArrayList<>();

    private BenchLevels(double[] accelMps2, double sampleRateHz) {
        double mean = Statistics.mean(accelMps2);
        this.x = new double[accelMps2.length];
        for (int i = 0; i < x.length; i++) {
            x[i] = accelMps2[i] - mean;
        }
        this.sampleRateHz = sampleRateHz;
    }

    static List<BenchLevel> of(
            double[] accelMps2, double sampleRateHz, DoubleUnaryOperator turnsAtS) {
        BenchLevels levels = new BenchLevels(accelMps2, sampleRateHz);
        levels.overall();
        double seconds = (levels.x.length - 1) / sampleRateHz;
        double meanHz = (turnsAtS.applyAsDouble(seconds) - turnsAtS.applyAsDouble(0)) / seconds;
        double secondsPerMinute = 60;
        levels.bands(secondsPerMinute * meanHz);
        levels.turning(turnsAtS, meanHz);
        return List.copyOf(levels.levels);
    }

    private void overall() {
        double rms = Statistics.rms(x);
        levels.add(
                new BenchLevel(
                        "acceleration-rms", rms, "m/s²", "whole record, its mean taken off"));
        if (rms > 0) {
            levels.add(
                    new BenchLevel(
                            "kurtosis",
                            Statistics.kurtosis(x),
                            "",
                            "3 for plain noise; single knocks raise it, strong tones lower it"));
            levels.add(
                    new BenchLevel(
                            "crest",
                            Statistics.crest(x),
                            "",
                            "largest over rms; grows with the length of a record too"));
        }
    }

    private void bands(double speedRpm) {
        for (IsoBand.Level level : IsoBand.levels(x, sampleRateHz)) {
            String text =
                    level.band().words()
                            + (IsoBand.isItsSpeed(speedRpm)
                                    ? ", as ISO 15242-2 has it at this speed"
                                    : "; not at the 1800 r/min of ISO 15242-2");
            levels.add(
                    new BenchLevel(
                            level.band().velocityName(),
                            MMPS_PER_MPS * Math.sqrt(level.velocitySquare()),
                            "mm/s",
                            text));
            levels.add(
                    new BenchLevel(
                            level.band().accelerationName(),
                            Math.sqrt(level.accelSquare()),
                            "m/s²",
                            text));
        }
    }

    private void turning(DoubleUnaryOperator turnsAtS, double meanHz) {
        double[] weights = Window.HANN.periodic(x.length);
        double[] turns = new double[x.length];
        double sum = 0;
        for (int i = 0; i < x.length; i++) {
            turns[i] = turnsAtS.applyAsDouble(i / sampleRateHz);
            sum += weights[i];
        }
        for (int h = 1; h <= TURN_HARMONICS; h++) {
            double re = 0;
            double im = 0;
            for (int i = 0; i < x.length; i++) {
                double angle = 2 * Math.PI * h * turns[i];
                re += weights[i] * x[i] * Math.cos(angle);
                im += weights[i] * x[i] * Math.sin(angle);
            }
            double rms = Math.sqrt(2) * Math.hypot(re, im) / sum;
            String text =
                    h == 1
                            ? "once per turn: out of true or out of balance"
                            : h + " times per turn: play or bent seat";
            levels.add(
                    new BenchLevel(
                            "turn-" + h,
                            MMPS_PER_MPS * rms / (2 * Math.PI * h * meanHz),
                            "mm/s",
                            text));
        }
    }
}

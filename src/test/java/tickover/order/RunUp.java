package tickover.order;

import java.util.Random;
import java.util.function.DoubleUnaryOperator;

/** A shaft of exactly known motion: angle over time and its inverse. */
final class RunUp {
    final double durationS;
    private final DoubleUnaryOperator turnsAt;
    private final DoubleUnaryOperator timeAt;

    private RunUp(double durationS, DoubleUnaryOperator turnsAt, DoubleUnaryOperator timeAt) {
        this.durationS = durationS;
        this.turnsAt = turnsAt;
        this.timeAt = timeAt;
    }

    /** Speed straight over time. */
    static RunUp linear(double fromRpm, double toRpm, double durationS) {
        double f = fromRpm / 60;
        double a = (toRpm - fromRpm) / 60 / durationS;
        return new RunUp(
                durationS,
                t -> f * t + a * t * t / 2,
                r -> a == 0 ? r / f : (Math.sqrt(f * f + 2 * a * r) - f) / a);
    }

    /** Speed exponential over time. */
    static RunUp exponential(double fromRpm, double toRpm, double durationS) {
        double f = fromRpm / 60;
        double k = Math.log(toRpm / fromRpm) / durationS;
        return new RunUp(durationS, t -> f / k * Math.expm1(k * t), r -> Math.log1p(r * k / f) / k);
    }

    /** Any rising angle; its inverse is found by bisection. */
    static RunUp of(double durationS, DoubleUnaryOperator turnsAt) {
        return new RunUp(
                durationS,
                turnsAt,
                r -> {
                    double lo = -1;
                    double hi = durationS + 1;
                    for (int i = 0; i < 100; i++) {
                        double mid = (lo + hi) / 2;
                        if (turnsAt.applyAsDouble(mid) < r) {
                            lo = mid;
                        } else {
                            hi = mid;
                        }
                    }
                    return (lo + hi) / 2;
                });
    }

    double turnsAt(double timeS) {
        return turnsAt.applyAsDouble(timeS);
    }

    double timeAt(double turns) {
        return timeAt.applyAsDouble(turns);
    }

    double speedHzAt(double timeS) {
        double d = 1e-4;
        return (turnsAt(timeS + d) - turnsAt(timeS - d)) / (2 * d);
    }

    /** One pulse per turn, from angle zero to the end, with Gaussian jitter. */
    double[] pulses(double jitterS, long seed) {
        Random random = new Random(seed);
        double[] pulses = new double[(int) Math.floor(turnsAt(durationS)) + 1];
        for (int k = 0; k < pulses.length; k++) {
            pulses[k] = timeAt(k) + jitterS * random.nextGaussian();
        }
        return pulses;
    }

    /** {@code cos(2 pi order turns + phase)} sampled in time. */
    double[] tone(double sampleRateHz, double order, double phaseRad) {
        double[] x = new double[(int) (durationS * sampleRateHz)];
        for (int i = 0; i < x.length; i++) {
            x[i] = Math.cos(2 * Math.PI * order * turnsAt(i / sampleRateHz) + phaseRad);
        }
        return x;
    }
}

package tickover.order;

import java.util.Random;
import java.util.function.DoubleUnaryOperator;

/** A record on a shaft whose speed runs straight over time, built up line by line. */
final class SweptRecord {
    final double rateHz;
    final double[] x;
    final ShaftAngle angle;
    private final double fromHz;
    private final double riseHzPerS;

    SweptRecord(double rateHz, double fromRpm, double toRpm, double durationS) {
        this.rateHz = rateHz;
        this.x = new double[(int) Math.round(durationS * rateHz)];
        this.fromHz = fromRpm / 60;
        this.riseHzPerS = (toRpm - fromRpm) / 60 / durationS;
        this.angle =
                new ShaftAngle(
                        AnglePieces.ofSpeeds(
                                new double[] {0, durationS},
                                new double[] {fromHz, fromHz + riseHzPerS * durationS}),
                        new double[2],
                        true);
    }

    double turnsAt(double timeS) {
        return fromHz * timeS + riseHzPerS * timeS * timeS / 2;
    }

    /** Adds {@code amplitude(t) cos(2 pi (order turns + toneHz t) + phase)}. */
    SweptRecord add(double order, double toneHz, double phaseRad, DoubleUnaryOperator amplitude) {
        for (int i = 0; i < x.length; i++) {
            double t = i / rateHz;
            double turns = order * turnsAt(t) + toneHz * t;
            x[i] += amplitude.applyAsDouble(t) * Math.cos(2 * Math.PI * turns + phaseRad);
        }
        return this;
    }

    SweptRecord add(double order, double toneHz, double phaseRad, double amplitude) {
        return add(order, toneHz, phaseRad, t -> amplitude);
    }

    SweptRecord addConstant(double value) {
        for (int i = 0; i < x.length; i++) {
            x[i] += value;
        }
        return this;
    }

    SweptRecord addNoise(double rms, long seed) {
        Random random = new Random(seed);
        for (int i = 0; i < x.length; i++) {
            x[i] += rms * random.nextGaussian();
        }
        return this;
    }

    LineTracks track(int differences, TrackedLine... lines) {
        return VoldKalman.track(
                x, rateHz, angle, new VoldKalman.Spec(differences, java.util.List.of(lines)));
    }

    /** Largest distance of a track's rms from a wanted amplitude's, relative to it. */
    static double worstError(LineTrack track, double amplitude) {
        double worst = 0;
        for (double rms : track.rms()) {
            worst = Math.max(worst, Math.abs(rms * Math.sqrt(2) / amplitude - 1));
        }
        return worst;
    }

    static double rms(double[] values) {
        double sum = 0;
        for (double value : values) {
            sum += value * value;
        }
        return Math.sqrt(sum / values.length);
    }

    static double[] minus(double[] a, double[] b) {
        double[] out = a.clone();
        for (int i = 0; i < out.length; i++) {
            out[i] -= b[i];
        }
        return out;
    }
}

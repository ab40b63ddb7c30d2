package tickover.sim;

import java.util.Arrays;
import java.util.Objects;

/**
 * An accelerometer as it is held: mount resonance, gain of each touch, tremor, slips and knocks,
 * noise floor, range and converter.
 */
final class Probe {
    /** How it is held. The words are those of visit folders. */
    enum Hold {
        /** Pressed on: a soft contact, resonance near 1 to 2 kHz, little treble left above. */
        HAND(1000, 2200, 0.18, 0.4, 0.03, 0.15),
        /** On a magnet. */
        MAGNET(4800, 7200, 0.05, 0.15, 0.05, 0.2),
        /** Glued. */
        ADHESIVE(8000, 12000, 0.03, 0.08, 0.1, 0.3),
        /** Screwed on: resonance above what is recorded. */
        STUD(18000, 28000, 0.02, 0.05, 0.2, 0.5);

        private final double lowHz;
        private final double highHz;
        private final double lowDamping;
        private final double highDamping;
        private final double lowLeak;
        private final double highLeak;

        Hold(
                double lowHz,
                double highHz,
                double lowDamping,
                double highDamping,
                double lowLeak,
                double highLeak) {
            this.lowHz = lowHz;
            this.highHz = highHz;
            this.lowDamping = lowDamping;
            this.highDamping = highDamping;
            this.lowLeak = lowLeak;
            this.highLeak = highLeak;
        }

        String word() {
            return name().toLowerCase(java.util.Locale.ROOT);
        }
    }

    /**
     * A probe and its habits.
     *
     * @param hold how it is held
     * @param rangeMps2 full scale, m/s²
     * @param noiseRmsMps2 noise floor at 12.8 kHz bandwidth, m/s²
     * @param touchSigmaDb spread of gain from touch to touch, dB
     * @param feelsGravity whether it shows a constant part
     * @param mishaps whether contact is sometimes lost or the probe knocked
     */
    record Spec(
            Hold hold,
            double rangeMps2,
            double noiseRmsMps2,
            double touchSigmaDb,
            boolean feelsGravity,
            boolean mishaps) {
        Spec {
            Objects.requireNonNull(hold, "hold");
            if (!(rangeMps2 > 0)) {
                throw new IllegalArgumentException("rangeMps2=" + rangeMps2 + ", need > 0 m/s²");
            }
        }
    }

    private static final double STANDARD_GRAVITY_MPS2 = 9.80665;
    private static final double NOISE_BANDWIDTH_HZ = 12800;

    private final Spec spec;

    Probe(Spec spec) {
        this.spec = spec;
    }

    /** What all channels of one touch share. */
    final class Touch {
        private final double sampleRateHz;
        private final double gain;
        private final double resonanceHz;
        private final double damping;
        private final double leak;
        private final double[] tilt;
        private final double[] contact;

        private Touch(Draw draw, double sampleRateHz, int count) {
            this.sampleRateHz = sampleRateHz;
            this.gain = draw.ratioOfDb(spec.touchSigmaDb());
            Hold h = spec.hold();
            this.resonanceHz = draw.logBetween(h.lowHz, h.highHz);
            this.damping = draw.between(h.lowDamping, h.highDamping);
            this.leak = draw.logBetween(h.lowLeak, h.highLeak);
            double a = draw.gaussian();
            double b = draw.gaussian();
            double c = draw.gaussian();
            double norm = Math.max(1e-6, Math.sqrt(a * a + b * b + c * c));
            double g = spec.feelsGravity() ? STANDARD_GRAVITY_MPS2 : 0;
            this.tilt = new double[] {g * a / norm, g * b / norm, g * c / norm};
            this.contact = contact(draw, sampleRateHz, count);
        }

        /** Share of contact over time: 1, with at most one moment in which it is lost. */
        private double[] contact(Draw draw, double sampleRateHz, int count) {
            double[] out = new double[count];
            Arrays.fill(out, 1);
            boolean slips = draw.chance(spec.hold() == Hold.HAND ? 0.08 : 0.02);
            double at = draw.between(0.1, 0.85);
            double lasts = draw.between(0.2, 0.8);
            if (spec.mishaps() && slips) {
                int from = (int) (at * count);
                int to = Math.min(count, from + (int) (lasts * sampleRateHz));
                for (int i = from; i < to; i++) {
                    double x = (double) (i - from) / (to - from);
                    out[i] = 0.03 + 0.97 * Math.pow(Math.abs(2 * x - 1), 8);
                }
            }
            return out;
        }

        /** Turns acceleration at the point into what the converter is given. */
        void hold(double[] accel, int channel, Draw draw) {
            throughMount(accel);
            tremor(accel, channel, draw.branch("tremor"));
            knock(accel, draw.branch("knock"));
            double noise = spec.noiseRmsMps2() * Math.sqrt(sampleRateHz / 2 / NOISE_BANDWIDTH_HZ);
            for (int i = 0; i < accel.length; i++) {
                accel[i] += tilt[channel] + noise * draw.gaussian();
            }
        }

        private void throughMount(double[] accel) {
            boolean inBand = resonanceHz < 0.45 * sampleRateHz;
            double w = 2 * Math.PI * Math.min(resonanceHz, 0.45 * sampleRateHz) / sampleRateHz;
            double warped = Math.tan(w / 2);
            double d = 1 + 2 * damping * warped + warped * warped;
            double b = warped * warped / d;
            double a1 = 2 * (warped * warped - 1) / d;
            double a2 = (1 - 2 * damping * warped + warped * warped) / d;
            double x1 = 0;
            double x2 = 0;
            double y1 = 0;
            double y2 = 0;
            for (int i = 0; i < accel.length; i++) {
                double x = accel[i];
                double y = b * (x + 2 * x1 + x2) - a1 * y1 - a2 * y2;
                x2 = x1;
                x1 = x;
                y2 = y1;
                y1 = y;
                double held = inBand ? (1 - leak) * y + leak * x : x;
                accel[i] = gain * contact[i] * held;
            }
        }

        /** A hand trembles at 8 to 12 Hz, wherever the contact slips even more. */
        private void tremor(double[] accel, int channel, Draw draw) {
            if (spec.hold() != Hold.HAND) {
                return;
            }
            double size = draw.logBetween(0.03, 0.35) * (channel == 0 ? 1 : 1.3);
            double hz = draw.between(8, 12);
            double step = 2 * Math.PI * hz / sampleRateHz;
            double phase = draw.between(0, 2 * Math.PI);
            double level = 1;
            int every = Math.max(1, (int) (sampleRateHz / 50));
            for (int i = 0; i < accel.length; i++) {
                if (i % every == 0) {
                    level = 0.97 * level + 0.25 * draw.gaussian();
                    step = 2 * Math.PI * hz * (1 + 0.05 * draw.gaussian()) / sampleRateHz;
                }
                phase += step;
                accel[i] += size * (level + 4 * (1 - contact[i])) * Math.sin(phase);
            }
        }

        /** Something bumps the probe or its lead. */
        private void knock(double[] accel, Draw draw) {
            if (!spec.mishaps() || !draw.chance(0.07)) {
                return;
            }
            double peak = draw.logBetween(15, 150);
            int at = (int) (draw.between(0.05, 0.9) * accel.length);
            double hz = draw.between(60, 400);
            for (int i = at; i < accel.length; i++) {
                double timeS = (i - at) / sampleRateHz;
                double decay = Math.exp(-timeS * 40);
                if (decay < 1e-4) {
                    break;
                }
                accel[i] += peak * decay * Math.sin(2 * Math.PI * hz * timeS);
            }
        }
    }

    Touch touch(Draw draw, double sampleRateHz, int count) {
        return new Touch(draw, sampleRateHz, count);
    }

    /** Clips to the range and rounds to what the format can hold. */
    void convert(double[] accel, SimulatedCapture.Recorder recorder) {
        double range = spec.rangeMps2();
        for (int i = 0; i < accel.length; i++) {
            double x = Math.max(-range, Math.min(range, accel[i]));
            accel[i] =
                    switch (recorder.format()) {
                        case PCM_16 -> whole(x, recorder.scaleMps2(), 1 << 15);
                        case PCM_24 -> whole(x, recorder.scaleMps2(), 1 << 23);
                        case FLOAT_32 -> (float) (x / recorder.scaleMps2()) * recorder.scaleMps2();
                    };
        }
    }

    private static double whole(double x, double scale, int steps) {
        double code = Math.rint(x / scale * steps);
        return Math.max(-steps, Math.min(steps - 1.0, code)) / steps * scale;
    }
}

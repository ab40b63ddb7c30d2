package tickover.sim;

import java.util.List;
import java.util.Objects;
import tickover.drive.BearingGeometry;
import tickover.drive.Ring;

/**
 * A removed pulley turned on a bench, as a workshop hands it in, and the truth behind it.
 *
 * @param geometry the bearing's internals as they were looked up: not exactly as they are
 * @param turning the ring that turns
 * @param record the part in question
 * @param good a sound part of the same kind on the same bench, probe put down anew
 * @param truth what is wrong, and how badly
 */
public record SimulatedBench(
        BearingGeometry geometry, Ring turning, Take record, Take good, Fault truth) {
    public SimulatedBench {
        Objects.requireNonNull(geometry, "geometry");
        Objects.requireNonNull(turning, "turning");
        Objects.requireNonNull(record, "record");
        Objects.requireNonNull(good, "good");
        Objects.requireNonNull(truth, "truth");
    }

    /**
     * What is wrong.
     *
     * @param kind the fault, {@link FaultKind#NONE} for a sound part
     * @param severityRatio 0 for barely more than nothing to 1 for about to fail
     * @param neighbourDamaged whether the bench's own spindle bearing is damaged
     */
    public record Fault(FaultKind kind, double severityRatio, boolean neighbourDamaged) {
        public Fault {
            Objects.requireNonNull(kind, "kind");
        }
    }

    /** One recording. Owns its samples; nobody may write to them. */
    public static final class Take {
        private final double sampleRateHz;
        private final double[][] accelMps2;
        private final double meanRpm;
        private final double statedRpm;
        private final double[] pulsesS;

        Take(
                double sampleRateHz,
                double[][] accelMps2,
                double meanRpm,
                double statedRpm,
                double[] pulsesS) {
            this.sampleRateHz = sampleRateHz;
            this.accelMps2 = Objects.requireNonNull(accelMps2, "accelMps2");
            this.meanRpm = meanRpm;
            this.statedRpm = statedRpm;
            this.pulsesS = Objects.requireNonNull(pulsesS, "pulsesS");
        }

        /**
         * Returns the sample rate.
         *
         * @return Hz
         */
        public double sampleRateHz() {
            return sampleRateHz;
        }

        /**
         * Returns the samples, shared and read-only.
         *
         * @return m/s², one array per channel, 1 or 3
         */
        public List<double[]> accelMps2() {
            return List.of(accelMps2);
        }

        /**
         * Returns the true mean speed.
         *
         * @return rpm
         */
        public double meanRpm() {
            return meanRpm;
        }

        /**
         * Returns the speed that the user states, about a per cent off.
         *
         * @return rpm
         */
        public double statedRpm() {
            return statedRpm;
        }

        /**
         * Returns the pulses of a mark on the turning ring.
         *
         * @return s, one per turn
         */
        public double[] pulsesS() {
            return pulsesS.clone();
        }
    }
}

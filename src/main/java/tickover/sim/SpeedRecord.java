package tickover.sim;

import java.util.Objects;

/** What a capture hands in about engine speed. */
public sealed interface SpeedRecord {
    /** The members of this closed family. */
    enum Kind {
        /** Pulses of a mark. */
        TACH,
        /** Readings of an adapter, late by an unknown time. */
        OBD,
        /** A known curve. */
        KNOWN,
        /** Nothing. */
        NONE
    }

    /**
     * Returns which member this is.
     *
     * @return the kind
     */
    Kind kind();

    /** Pulse times of a mark on a pulley. Owns its array. */
    final class Tach implements SpeedRecord {
        private final double[] timesS;
        private final int pulsesPerTurn;
        private final String pulley;

        /**
         * Copies the times.
         *
         * @param timesS pulse times, s, never going back
         * @param pulsesPerTurn marks on the pulley, &gt;= 1
         * @param pulley the pulley's name
         */
        public Tach(double[] timesS, int pulsesPerTurn, String pulley) {
            this.timesS = timesS.clone();
            this.pulsesPerTurn = pulsesPerTurn;
            this.pulley = Objects.requireNonNull(pulley, "pulley");
            if (!(pulsesPerTurn >= 1)) {
                throw new IllegalArgumentException(
                        "pulsesPerTurn=" + pulsesPerTurn + ", need >= 1");
            }
        }

        /**
         * Returns a copy of the times.
         *
         * @return s
         */
        public double[] timesS() {
            return timesS.clone();
        }

        /**
         * Returns the marks per turn.
         *
         * @return &gt;= 1
         */
        public int pulsesPerTurn() {
            return pulsesPerTurn;
        }

        /**
         * Returns the pulley that carries the marks.
         *
         * @return its name
         */
        public String pulley() {
            return pulley;
        }

        @Override
        public Kind kind() {
            return Kind.TACH;
        }
    }

    /** Speed readings, from an adapter or known. Owns its arrays. */
    final class Readings implements SpeedRecord {
        private final double[] timesS;
        private final double[] speedsRpm;
        private final boolean late;

        /**
         * Copies the readings.
         *
         * @param timesS times, s, never going back
         * @param speedsRpm crank speed, rpm, as many
         * @param late true for an adapter's readings, false for a known curve
         */
        public Readings(double[] timesS, double[] speedsRpm, boolean late) {
            if (timesS.length != speedsRpm.length) {
                throw new IllegalArgumentException(
                        "speedsRpm.length=" + speedsRpm.length + ", need " + timesS.length);
            }
            this.timesS = timesS.clone();
            this.speedsRpm = speedsRpm.clone();
            this.late = late;
        }

        /**
         * Returns a copy of the times.
         *
         * @return s
         */
        public double[] timesS() {
            return timesS.clone();
        }

        /**
         * Returns a copy of the speeds.
         *
         * @return rpm
         */
        public double[] speedsRpm() {
            return speedsRpm.clone();
        }

        @Override
        public Kind kind() {
            return late ? Kind.OBD : Kind.KNOWN;
        }
    }

    /** No speed source. */
    record Silent() implements SpeedRecord {
        @Override
        public Kind kind() {
            return Kind.NONE;
        }
    }
}

package tickover.session;

import java.util.Objects;

/**
 * What answers at a port.
 *
 * @param port what a person calls it
 * @param kind what it is
 * @param baud speed of the line at which it answered, bits a second; 0 if it did not
 * @param deviceKey tells the device from others over re-plugging; may be empty
 * @param columns header of a plain-text probe, if it has sent one; else empty
 * @param text what more there is to say: the device's own words, or why it could not be asked
 */
public record PortAnswer(
        String port, Kind kind, int baud, String deviceKey, String columns, String text) {
    /** What can be at a port. */
    public enum Kind {
        /** A probe that speaks the probe protocol. */
        PROBE("probe", true),
        /** A board that sends lines of numbers. */
        TEXT_PROBE("plain-text probe", true),
        /** A text-command adapter. */
        ADAPTER("diagnostic adapter", true),
        /** It was asked and said nothing known. */
        NOTHING("nothing known", false),
        /** It could not be opened. */
        CLOSED("cannot be opened", false),
        /** It was not asked. */
        NOT_ASKED("not asked", false);

        private final String words;
        private final boolean device;

        Kind(String words, boolean device) {
            this.words = words;
            this.device = device;
        }

        /**
         * Returns what a person calls it.
         *
         * @return a few words
         */
        public String words() {
            return words;
        }

        /**
         * Returns whether something known answered.
         *
         * @return true if so
         */
        public boolean isDevice() {
            return device;
        }
    }

    public PortAnswer {
        Objects.requireNonNull(port, "port");
        Objects.requireNonNull(kind, "kind");
        Objects.requireNonNull(deviceKey, "deviceKey");
        Objects.requireNonNull(columns, "columns");
        Objects.requireNonNull(text, "text");
    }
}

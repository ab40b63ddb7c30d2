package tickover.diagnose;

import java.util.Locale;
import java.util.Objects;

/**
 * Something beside the bearing's single spots that a bench record was asked about: whether the part
 * runs true, whether it has play, whether its bearing is rough or dry.
 *
 * @param fault {@link Fault#ECCENTRIC}, {@link Fault#LOOSE} or {@link Fault#BEARING_ROUGH}
 * @param state how it stands
 * @param channel the channel that shows it best, 0-based
 * @param text what was seen, what it means and what to do, in a sentence or two
 */
public record BenchFinding(Fault fault, State state, int channel, String text) {
    /** How a question stands. */
    public enum State {
        /** The record shows it. */
        SEEN,
        /** The record fits it and something harmless too. */
        POSSIBLE,
        /** Nothing speaks for it. */
        NOT_SEEN;

        /**
         * Returns the word for it in answers.
         *
         * @return lower case with hyphens
         */
        public String word() {
            return name().toLowerCase(Locale.ROOT).replace('_', '-');
        }
    }

    public BenchFinding {
        Objects.requireNonNull(fault, "fault");
        Objects.requireNonNull(state, "state");
        Objects.requireNonNull(text, "text");
        if (!(channel >= 0)) {
            throw new IllegalArgumentException("channel=" + channel + ", need >= 0");
        }
    }
}

package tickover.order;

import java.util.Objects;

/**
 * Something worth knowing about how an angle was found.
 *
 * @param kind what it is about
 * @param count how often it happened, 0 where that means nothing
 * @param text one plain sentence
 */
public record AngleNote(Kind kind, int count, String text) {
    /** What a note is about. */
    public enum Kind {
        /** Pulses that should have come and did not. */
        MISSED_PULSES,
        /** Pulses that do not belong: bounces and stray ones. */
        EXTRA_PULSES,
        /** Pulses too far from their place to be used. */
        MISPLACED_PULSES,
        /** A time without pulses. */
        PAUSE,
        /** Timing noise of the pulses. */
        JITTER,
        /** Marks that are not evenly spaced. */
        UNEVEN_MARKS,
        /** What became of torsional ripple, where that was asked for. */
        RIPPLE,
        /** Speed is not known over the whole record. */
        PART_OF_RECORD,
        /** How late the readings were. */
        LAG,
        /** Whether the vibration itself sharpened the angle. */
        REFINED,
        /** Speed was found from the vibration alone. */
        FROM_VIBRATION
    }

    public AngleNote {
        Objects.requireNonNull(kind, "kind");
        Objects.requireNonNull(text, "text");
        if (!(count >= 0)) {
            throw new IllegalArgumentException("count=" + count + ", need >= 0");
        }
    }
}

package tickover.drive;

import java.util.Locale;

/** Which way a pulley turns, against the crank. */
public enum Direction {
    /** The way the crank turns. */
    CRANK,
    /** Against the crank. */
    COUNTER;

    /**
     * Returns the word for it in answers.
     *
     * @return lower case
     */
    public String word() {
        return name().toLowerCase(Locale.ROOT);
    }

    Direction opposite() {
        return this == CRANK ? COUNTER : CRANK;
    }
}

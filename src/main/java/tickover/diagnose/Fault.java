package tickover.diagnose;

import java.util.Arrays;
import java.util.Locale;
import java.util.Optional;

/** What is wrong with a component. */
public enum Fault {
    /** A spot on a bearing's outer race. */
    BEARING_OUTER_RING,
    /** A spot on a bearing's inner race. */
    BEARING_INNER_RING,
    /** A spot on a ball or roller. */
    ROLLING_ELEMENT,
    /** A damaged or loose cage. */
    CAGE,
    /** A bearing that is dry or worn all over. */
    BEARING_ROUGH,
    /** A pulley that does not run true. */
    ECCENTRIC,
    /** A part that has play and knocks. */
    LOOSE,
    /** A damaged place on a belt. */
    BELT_DAMAGE,
    /** An injector or a valve that ticks. */
    TICK,
    /** Something, but the kind cannot be told. */
    UNSPECIFIED,
    /** Nothing. */
    NONE;

    /**
     * Returns the word for it in answers.
     *
     * @return lower case with hyphens
     */
    public String word() {
        return name().toLowerCase(Locale.ROOT).replace('_', '-');
    }

    /**
     * Returns how it is called in a sentence.
     *
     * @return lower case with blanks
     */
    public String words() {
        return this == UNSPECIFIED ? "kind unknown" : word().replace('-', ' ');
    }

    /**
     * Finds a fault by its word.
     *
     * @param word as in answers
     * @return the fault, or empty
     */
    public static Optional<Fault> ofWord(String word) {
        return Arrays.stream(values()).filter(f -> f.word().equals(word)).findFirst();
    }
}

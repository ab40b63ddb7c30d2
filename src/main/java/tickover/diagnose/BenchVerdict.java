package tickover.diagnose;

import java.util.Locale;

/** What a bearing that was turned alone on a bench comes to. */
public enum BenchVerdict {
    /** No pattern that a fault would make. */
    HEALTHY,
    /** A spot on the outer race. */
    OUTER_RING,
    /** A spot on the inner race. */
    INNER_RING,
    /** A spot on a ball or roller. */
    ROLLING_ELEMENT,
    /** A damaged cage. */
    CAGE,
    /** The record does not decide. */
    UNCLEAR;

    /**
     * Returns the word for it in answers.
     *
     * @return lower case with hyphens
     */
    public String word() {
        return name().toLowerCase(Locale.ROOT).replace('_', '-');
    }
}

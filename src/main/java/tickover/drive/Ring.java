package tickover.drive;

import java.util.Locale;

/** A ring of a rolling bearing. */
public enum Ring {
    /** The inner ring, on the shaft. */
    INNER,
    /** The outer ring, in the housing or the pulley. */
    OUTER;

    /**
     * Returns the word for it in visit folders.
     *
     * @return lower case
     */
    public String word() {
        return name().toLowerCase(Locale.ROOT);
    }
}

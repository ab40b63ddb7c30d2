package tickover.diagnose;

import java.util.Locale;

/** How the probe was held against the point; it limits the usable band. */
public enum Mount {
    /** Pressed on by hand. */
    HAND,
    /** On a magnet. */
    MAGNET,
    /** Glued or waxed. */
    ADHESIVE,
    /** Screwed on. */
    STUD;

    /**
     * Returns the word for it in visit folders.
     *
     * @return lower case
     */
    public String word() {
        return name().toLowerCase(Locale.ROOT);
    }
}

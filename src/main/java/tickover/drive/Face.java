package tickover.drive;

import java.util.Locale;

/** The side of the belt that a pulley runs on. */
public enum Face {
    /** Ribs in grooves: the pulley turns as the crank does. */
    GROOVED,
    /** Runs on the belt's back: the pulley turns against the crank. */
    FLAT;

    /**
     * Returns the word for it in visit folders.
     *
     * @return lower case
     */
    public String word() {
        return name().toLowerCase(Locale.ROOT);
    }
}

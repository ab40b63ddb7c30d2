package tickover.diagnose;

import java.util.Locale;

/** What the engine speed did during a capture. */
public enum Regime {
    /** Idling. */
    IDLE,
    /** Held at a steady higher speed. */
    HOLD,
    /** Run slowly up or down. */
    SWEEP;

    /**
     * Returns the word for it in visit folders.
     *
     * @return lower case
     */
    public String word() {
        return name().toLowerCase(Locale.ROOT);
    }
}

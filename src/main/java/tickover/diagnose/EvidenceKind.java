package tickover.diagnose;

import java.util.Locale;

/** Sorts of evidence. */
public enum EvidenceKind {
    /** Lines, sidebands or pulses in the rhythm that only this fault makes. */
    PATTERN,
    /** Where on the engine it is strongest. */
    PLACE,
    /** How it changes when a load is switched. */
    CONTRAST,
    /** What is left with the belt off. */
    BELT_OFF,
    /** What is left with an injector unplugged. */
    INJECTOR_OFF,
    /** What the driver said of the noise. */
    COMPLAINT,
    /** How it stands against earlier visits. */
    HISTORY,
    /** Another part makes the same orders. */
    SHARED;

    /**
     * Returns the word for it in answers.
     *
     * @return lower case with hyphens
     */
    public String word() {
        return name().toLowerCase(Locale.ROOT).replace('_', '-');
    }
}

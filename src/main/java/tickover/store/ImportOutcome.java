package tickover.store;

/** What taking a visit into the log came to. */
public enum ImportOutcome {
    /** It is in the log now. */
    IMPORTED,
    /** It was in the log already, with the same content; nothing changed. */
    ALREADY_KEPT
}

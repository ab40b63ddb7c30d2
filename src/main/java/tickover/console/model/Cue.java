package tickover.console.model;

/** Something to hear: the eyes are at the engine. */
public enum Cue {
    /** A capture begins. */
    BEGIN,
    /** A capture is over. */
    END,
    /** It was good. */
    GOOD,
    /** It has to be repeated. */
    REPEAT
}

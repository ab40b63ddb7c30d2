package tickover.store;

/** How a file compares with what the log took in. */
public enum KeptState {
    /** The log has no such visit. */
    NO_VISIT,
    /** The visit was made with this very file. */
    SAME,
    /** The visit was made with another file. */
    OTHER
}

package tickover.wire;

/** What the numbers of a plain-text probe stand for. */
public enum TextUnit {
    /** The header does not say. */
    UNKNOWN,
    /** m/s². */
    MPS2,
    /** Multiples of standard gravity, 9.80665 m/s². */
    G,
    /** Thousandths of standard gravity. */
    MILLI_G,
    /** Counts of a converter: a scale has to be given. */
    COUNTS
}

package tickover.wire;

/** Why bytes were not taken. */
public enum Rejection {
    /** Longer than any frame or line may be. */
    TOO_LONG,
    /** Too short to hold a type and a checksum. */
    TOO_SHORT,
    /** Not valid byte stuffing. */
    BAD_STUFFING,
    /** The checksum does not fit. */
    BAD_CHECKSUM,
    /** The checksum fits, the fields do not. */
    BAD_FIELDS,
    /** A line of text that is no header and has no numbers where they should be. */
    BAD_LINE
}

package tickover.drive;

/** Whether order alone can tell two lines apart, and if not, why. */
public enum Parting {
    /** The capture resolves them, and each is where only it can be. */
    PARTED,
    /** Each is where only it can be, but the capture is too short to resolve them. */
    CAPTURE_TOO_SHORT,
    /**
     * The capture resolves them, but slip and unknown internals could put either in the other's
     * place: two lines would be seen, and which is whose would stay open.
     */
    PLACES_OVERLAP,
    /**
     * Neither resolved nor apart in place. Speed does not help, because both keep their orders; a
     * longer capture would show two lines without saying whose.
     */
    INSEPARABLE
}

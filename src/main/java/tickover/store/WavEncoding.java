package tickover.store;

/** How a sample stands in a WAV file. */
public enum WavEncoding {
    /** Signed whole numbers of 16 bits; full scale is 2^15. */
    PCM_16(2, false),
    /** Signed whole numbers of 24 bits; full scale is 2^23. */
    PCM_24(3, false),
    /** Signed whole numbers of 32 bits; full scale is 2^31. */
    PCM_32(4, false),
    /** IEEE floating point of 32 bits; a unit is 1.0. */
    FLOAT_32(4, true);

    private final int bytes;
    private final boolean isFloat;

    WavEncoding(int bytes, boolean isFloat) {
        this.bytes = bytes;
        this.isFloat = isFloat;
    }

    int bytes() {
        return bytes;
    }

    boolean isFloat() {
        return isFloat;
    }

    /** What a stored number is divided by to give full scales, or units. */
    double fullScale() {
        return isFloat ? 1.0 : (double) (1L << (8 * bytes - 1));
    }
}

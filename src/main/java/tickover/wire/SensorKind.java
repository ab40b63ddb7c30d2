package tickover.wire;

/** What a probe measures with. */
public enum SensorKind {
    /** Not said. */
    UNKNOWN(0),
    /** Digital MEMS accelerometer. */
    DIGITAL_MEMS(1),
    /** Analog MEMS accelerometer. */
    ANALOG_MEMS(2),
    /** Piezoelectric accelerometer. */
    PIEZO(3);

    private final int code;

    SensorKind(int code) {
        this.code = code;
    }

    /** Returns the number that stands on the wire. */
    int code() {
        return code;
    }

    /** Returns the kind with a number; a number that a later version adds is unknown here. */
    static SensorKind of(int code) {
        for (SensorKind kind : values()) {
            if (kind.code == code) {
                return kind;
            }
        }
        return UNKNOWN;
    }
}

package tickover.wire;

/** What a probe measures with. */
public enum SensorKind {
    /** Not said. */
    UNKNOWN,
    /** Digital MEMS accelerometer. */
    DIGITAL_MEMS,
    /** Analog MEMS accelerometer. */
    ANALOG_MEMS,
    /** Piezoelectric accelerometer. */
    PIEZO
}

package tickover.diagnose;

/** Faults that show themselves in the same way and so share the weights of the ranking. */
enum FaultGroup {
    /** Lines of a bearing whose internals are known. */
    BEARING_LINE,
    /** Lines of a bearing of which nothing is known but the part it sits in. */
    UNKNOWN_BEARING,
    /** A rough bearing: noise that comes and goes with turn or cage. */
    ROUGH,
    /** Once per turn and little else. */
    ECCENTRIC,
    /** Knocks at fractions and multiples of a turn. */
    LOOSE,
    /** Knocks at multiples of the belt's turn. */
    BELT,
    /** One injector ticks. */
    INJECTOR_TICK,
    /** A valve or its drive ticks. */
    VALVE_TICK
}

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
    VALVE_TICK,
    /** Lines of a bearing on a shaft that the engine turns without the belt. */
    ENGINE_BEARING,
    /** One cylinder knocks in the block. */
    ENGINE_KNOCK;

    /** Whether it comes once per working cycle, at an angle of its own. */
    boolean isOfCycle() {
        return this == INJECTOR_TICK || this == VALVE_TICK || this == ENGINE_KNOCK;
    }

    /** Whether it goes on with the belt off. */
    boolean isOutsideBeltDrive() {
        return isOfCycle() || this == ENGINE_BEARING;
    }

    /** Whether its rhythm is a wide range of rates, each as likely as the next. */
    boolean isWide() {
        return this == UNKNOWN_BEARING || this == ENGINE_BEARING;
    }
}

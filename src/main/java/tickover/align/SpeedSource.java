package tickover.align;

/** What a capture knows about engine speed. */
public sealed interface SpeedSource permits TachPulses, SpeedReadings, NoSpeed {
    /** The members of this closed family. */
    enum Kind {
        /** Pulses of a mark on a turning part: speed and phase. */
        TACH,
        /** Engine-speed readings that arrive late by an unknown time: speed, no phase. */
        OBD,
        /** A speed curve on the samples' own time base: speed, no phase. */
        KNOWN,
        /** Nothing: speed has to be found from the vibration. */
        NONE
    }

    /**
     * Returns which member of the family this is.
     *
     * @return the kind
     */
    Kind kind();
}

package tickover.align;

/**
 * One piece of the aligned stream, in the order in which it is known. A <i>segment</i> is a stretch
 * of one device's life within which its clock and its numbering run on: a reset, an unplug or a new
 * start begins the next one, and nothing is ever joined across that border.
 */
public sealed interface AlignedBlock
        permits ProbeStart, SampleRun, EdgeRun, ButtonPress, SpeedReading, StreamGap, ProbeHealth {
    /** The members of this closed family. */
    enum Kind {
        /** {@link ProbeStart}. */
        START,
        /** {@link SampleRun}. */
        SAMPLES,
        /** {@link EdgeRun}. */
        EDGES,
        /** {@link ButtonPress}. */
        BUTTON,
        /** {@link SpeedReading}. */
        SPEED,
        /** {@link StreamGap}. */
        GAP,
        /** {@link ProbeHealth}. */
        HEALTH
    }

    /**
     * Returns which member of the family this is.
     *
     * @return the kind
     */
    Kind kind();

    /**
     * Returns the device it came from.
     *
     * @return 0-based number of the source in its recording
     */
    int source();
}

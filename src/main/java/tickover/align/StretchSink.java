package tickover.align;

/**
 * Takes the samples of a capture as they come, stretch by stretch, so that a long capture need not
 * be held in memory.
 */
public interface StretchSink {
    /**
     * A stretch begins: its samples follow.
     *
     * @param stretch its number, counted from 0
     * @param start how the probe sends
     * @param axes of every run that follows
     */
    void begin(int stretch, ProbeStart start, int axes);

    /**
     * The stretch goes on.
     *
     * @param run the next samples, without a gap after those before
     */
    void samples(SampleRun run);
}

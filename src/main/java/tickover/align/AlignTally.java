package tickover.align;

/**
 * What an {@link Aligner} did not pass on, since its start.
 *
 * @param implausible sound frames or lines that contradicted those around them
 * @param duplicates frames whose samples had come before
 * @param heldFrames frames that wait for the probe to say what it is
 * @param forgottenFrames frames that waited too long for that
 * @param strayPongs answers to no ping that is known
 * @param linesWithoutUnit lines of text whose unit nobody knows
 */
public record AlignTally(
        long implausible,
        long duplicates,
        int heldFrames,
        long forgottenFrames,
        long strayPongs,
        long linesWithoutUnit) {}

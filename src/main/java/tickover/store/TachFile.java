package tickover.store;

import java.nio.file.Path;
import tickover.align.TachPulses;

/** A tach file that belongs to a record on a bench and to no visit. */
public final class TachFile {
    private TachFile() {}

    /**
     * Reads pulse times of a mark on the turning ring itself.
     *
     * @param file CSV with the header {@code time_s}
     * @param pulsesPerTurn marks per turn, &gt;= 1
     * @return the pulses
     * @throws VisitFolderException if anything in it is not as it should be
     */
    public static TachPulses read(Path file, int pulsesPerTurn) {
        return SpeedCsv.tach(file, pulsesPerTurn, 1);
    }
}

package tickover.console.model;

import java.util.List;
import tickover.drive.BearingGeometry;
import tickover.drive.Ring;
import tickover.session.RecordLine;

/** Where a bench's vibration comes from. */
interface BenchSource extends AutoCloseable {
    /** The lines to record from. */
    List<RecordLine> lines();

    /** Whether this program turns the part itself; else a person does, and nothing is to do. */
    default boolean isSimulated() {
        return false;
    }

    /** A part is put up and turned. May take a second where {@link #isSimulated}. */
    void put(String part, BearingGeometry geometry, Ring turning, boolean knownGood);

    @Override
    void close();
}

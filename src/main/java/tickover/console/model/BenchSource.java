package tickover.console.model;

import java.util.List;
import tickover.drive.BearingGeometry;
import tickover.drive.Ring;
import tickover.session.RecordLine;

/** Where a bench's vibration comes from. */
interface BenchSource extends AutoCloseable {
    /** The lines to record from. */
    List<RecordLine> lines();

    /** A part is put up and turned. May take a second. */
    void put(String part, BearingGeometry geometry, Ring turning, boolean knownGood);

    @Override
    void close();
}

package tickover.console.model;

import java.util.List;
import tickover.drive.Condition;
import tickover.session.RecordLine;

/** Where a round's vibration comes from. */
interface RoundSource extends AutoCloseable {
    /** The lines to record from. */
    List<RecordLine> lines();

    /** The probe is to be put somewhere else. May take a second where {@link #isSimulated}. */
    void moved(String point, Condition condition);

    /** Whether this program holds the probe itself; else a person does, and nothing is to do. */
    default boolean isSimulated() {
        return false;
    }

    @Override
    void close();
}

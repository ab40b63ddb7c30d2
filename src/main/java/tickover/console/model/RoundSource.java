package tickover.console.model;

import java.util.List;
import tickover.drive.Condition;
import tickover.session.RecordLine;

/** Where a round's vibration comes from. */
interface RoundSource extends AutoCloseable {
    /** The lines to record from. */
    List<RecordLine> lines();

    /** The probe is to be put somewhere else. May take a second. */
    void moved(String point, Condition condition);

    @Override
    void close();
}

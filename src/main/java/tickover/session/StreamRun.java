package tickover.session;

/** A stream that runs: it is being recorded, or it was once and runs again. Any thread. */
interface StreamRun extends AutoCloseable {
    /** How it stands; the latest snapshot. */
    RecordStatus status();

    /** Says what the next press captures; a recording that runs again knows better. */
    void aim(PlannedCapture next);

    /** Presses the button; a recording that runs again presses by itself. */
    void press();

    /** Ends it, and waits for the end. */
    @Override
    void close();
}

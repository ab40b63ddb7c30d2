package tickover.store;

/** Hears how far a longer work on the log has come. Called from the thread that asked for it. */
@FunctionalInterface
public interface WorkProgress {
    /**
     * Tells it.
     *
     * @param done pieces of the work that are done
     * @param total all pieces
     */
    void at(int done, int total);
}

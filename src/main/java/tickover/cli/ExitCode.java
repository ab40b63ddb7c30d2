package tickover.cli;

/** The exit codes of every verb. */
final class ExitCode {
    /** Done, or answered. */
    static final int DONE = 0;

    /** A check failed, or the answer is "no". */
    static final int NO = 1;

    /** Bad usage or bad input. */
    static final int BAD_INPUT = 2;

    /** The outside failed: a disk, the log; or the program itself made a mistake. */
    static final int OUTSIDE_FAILED = 3;

    private ExitCode() {}
}

package tickover.cli;

/** Ends a verb with one sentence on the error stream and an exit code. */
final class CliException extends RuntimeException {
    private static final long serialVersionUID = 1L;
    private final int exitCode;

    private CliException(int exitCode, String sentence, Throwable cause) {
        super(sentence, cause);
        this.exitCode = exitCode;
    }

    /** The user has to change the command or a file. */
    static CliException badInput(String sentence) {
        return new CliException(ExitCode.BAD_INPUT, sentence, null);
    }

    /** The user has to change the command or a file, as another room found out. */
    static CliException badInput(String sentence, Throwable cause) {
        return new CliException(ExitCode.BAD_INPUT, sentence, cause);
    }

    /** A disk or the log failed. */
    static CliException outsideFailed(String sentence, Throwable cause) {
        return new CliException(ExitCode.OUTSIDE_FAILED, sentence, cause);
    }

    int exitCode() {
        return exitCode;
    }
}

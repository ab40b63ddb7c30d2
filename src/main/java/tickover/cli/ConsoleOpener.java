package tickover.cli;

/** Opens the desktop console. The two front ends do not know each other, so the caller gives it. */
public interface ConsoleOpener {
    /**
     * Opens the console and returns when it is closed.
     *
     * @param wish how
     * @return the exit code
     */
    int open(ConsoleWish wish);
}

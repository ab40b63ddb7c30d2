package tickover.link;

import com.sun.jna.LastErrorException;

/**
 * The signals that end a program in order: hang-up of the terminal, Ctrl-C, and the request to end.
 * The port library's native part turns some of them off for the whole program when it is loaded, so
 * that a recording would neither end nor be closed when its terminal's window is.
 */
final class EndSignals {
    /** Hang-up, interrupt and termination have these numbers on Linux and macOS. */
    private static final int[] NUMBERS = {1, 2, 15};

    /** More than any system's description of a handler takes. */
    private static final int HANDLER_BYTES = 256;

    private EndSignals() {}

    /** Does something, and leaves the handlers as they were before it. */
    static void keepOver(Runnable work) {
        if (System.getProperty("os.name", "").startsWith("Windows")) {
            work.run();
            return;
        }
        byte[][] before = new byte[NUMBERS.length][];
        for (int i = 0; i < NUMBERS.length; i++) {
            before[i] = handler(NUMBERS[i]);
        }
        try {
            work.run();
        } finally {
            for (int i = 0; i < NUMBERS.length; i++) {
                restore(NUMBERS[i], before[i]);
            }
        }
    }

    /** Empty where the system does not tell. */
    private static byte[] handler(int signal) {
        byte[] handler = new byte[HANDLER_BYTES];
        try {
            SystemCalls.loaded().sigaction(signal, null, handler);
            return handler;
        } catch (LastErrorException | UnsatisfiedLinkError e) {
            return new byte[0];
        }
    }

    private static void restore(int signal, byte[] handler) {
        if (handler.length == 0) {
            return;
        }
        try {
            SystemCalls.loaded().sigaction(signal, handler, null);
        } catch (LastErrorException e) {
            // What cannot be set stays as the library left it.
            return;
        }
    }
}

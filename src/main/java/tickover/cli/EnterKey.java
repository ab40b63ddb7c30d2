package tickover.cli;

import java.io.IOException;
import java.io.InputStream;

/** Listens for the Enter key, which stands for the probe's button. */
final class EnterKey {
    private EnterKey() {}

    /** Calls back at every line end on standard input, until there is no more of it. */
    static void listen(Runnable pressed) {
        Thread thread = new Thread(() -> read(System.in, pressed), "tickover-enter");
        thread.setDaemon(true);
        thread.start();
    }

    private static void read(InputStream in, Runnable pressed) {
        try {
            for (int c = in.read(); c >= 0; c = in.read()) {
                if (c == '\n') {
                    pressed.run();
                }
            }
        } catch (IOException e) {
            // Without a keyboard the probe's own button still works.
        }
    }
}

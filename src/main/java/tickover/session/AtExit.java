package tickover.session;

import java.util.Objects;
import tickover.link.PortsAtExit;

/**
 * Work that is done when the process is told to end, by Ctrl-C or by closing its terminal, while
 * its ports are still open. Closing this takes it back.
 */
public final class AtExit implements AutoCloseable {
    private final Thread hook;

    private AtExit(Thread hook) {
        this.hook = hook;
    }

    /**
     * Asks for it.
     *
     * @param work done once, on a thread of its own; the process ends after it
     * @return to be closed when there is nothing to do any more
     */
    public static AtExit run(Runnable work) {
        Thread hook = new Thread(Objects.requireNonNull(work, "work"), "tickover-end");
        PortsAtExit.closeAfter(hook);
        Runtime.getRuntime().addShutdownHook(hook);
        return new AtExit(hook);
    }

    @Override
    public void close() {
        try {
            Runtime.getRuntime().removeShutdownHook(hook);
            PortsAtExit.forget(hook);
        } catch (IllegalStateException e) {
            // The process is ending, which is what the hook is for.
            return;
        }
    }
}

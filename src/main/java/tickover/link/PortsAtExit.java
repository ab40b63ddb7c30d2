package tickover.link;

import java.util.Set;
import java.util.concurrent.ConcurrentHashMap;
import java.util.concurrent.TimeUnit;

/**
 * Keeps ports open at the end of the process until its own work is done. The port library closes
 * them by a shutdown hook of its own, and hooks run in no order: a recording would lose its port
 * while it is still saying good-bye to the probe.
 */
public final class PortsAtExit {
    private static final Set<Thread> FIRST = ConcurrentHashMap.newKeySet();
    private static final long LONGEST_WAIT_S = 30;
    private static final long LOOK_MS = 10;

    private PortsAtExit() {}

    /**
     * Lets ports be closed only after a shutdown hook has run.
     *
     * @param hook one that the runtime starts
     */
    public static void closeAfter(Thread hook) {
        FIRST.add(hook);
    }

    /**
     * Takes that back.
     *
     * @param hook one that was named before
     */
    public static void forget(Thread hook) {
        FIRST.remove(hook);
    }

    /** Waits for all of them; a hook that the runtime has not started yet counts too. */
    static void await() {
        long until = System.nanoTime() + TimeUnit.SECONDS.toNanos(LONGEST_WAIT_S);
        try {
            while (FIRST.stream().anyMatch(h -> h.getState() != Thread.State.TERMINATED)
                    && System.nanoTime() < until) {
                Thread.sleep(LOOK_MS);
            }
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
        }
    }
}

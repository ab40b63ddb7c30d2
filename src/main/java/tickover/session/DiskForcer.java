package tickover.session;

import java.util.concurrent.CountDownLatch;
import java.util.concurrent.TimeUnit;
import tickover.link.LinkException;

/**
 * Forces a recording to the disk from a thread of its own: a slow memory stick takes a second for
 * it, and nobody else has to wait that long.
 */
final class DiskForcer {
    private static final long EVERY_MS = 100;
    private static final long JOIN_MS = 5000;

    private final Runnable force;
    private final CountDownLatch stopped = new CountDownLatch(1);
    private final Thread thread = new Thread(this::run, "tickover-disk");
    private volatile LinkException failure;

    /**
     * @param force what forces it, if that is due
     */
    DiskForcer(Runnable force) {
        this.force = force;
        thread.setDaemon(true);
    }

    void start() {
        thread.start();
    }

    private void run() {
        try {
            while (!stopped.await(EVERY_MS, TimeUnit.MILLISECONDS)) {
                force.run();
            }
        } catch (LinkException e) {
            failure = e;
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
        }
    }

    /**
     * @throws LinkException if the disk has failed
     */
    void requireSound() {
        if (failure != null) {
            throw failure;
        }
    }

    /** Ends the thread; the file may be closed after that. */
    void stop() {
        stopped.countDown();
        boolean interrupted = Thread.interrupted();
        try {
            thread.join(JOIN_MS);
        } catch (InterruptedException e) {
            interrupted = true;
        }
        if (interrupted) {
            Thread.currentThread().interrupt();
        }
    }
}

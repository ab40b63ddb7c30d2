package tickover.dsp;

import java.lang.management.ManagementFactory;

/** Bytes that this thread allocates while something runs again after a warm-up. */
public final class AllocationMeter {
    private static final int WARM_UP_RUNS = 300;

    private AllocationMeter() {}

    /** Runs a task to warm it up, then once more and counts. */
    public static long bytesOf(Runnable task) {
        var bean = (com.sun.management.ThreadMXBean) ManagementFactory.getThreadMXBean();
        for (int i = 0; i < WARM_UP_RUNS; i++) {
            task.run();
        }
        long least = Long.MAX_VALUE;
        // The least of a few runs, for the virtual machine itself may allocate now and then.
        for (int i = 0; i < 5; i++) {
            long before = bean.getCurrentThreadAllocatedBytes();
            task.run();
            least = Math.min(least, bean.getCurrentThreadAllocatedBytes() - before);
        }
        return least;
    }
}

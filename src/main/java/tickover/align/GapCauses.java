package tickover.align;

import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.List;
import java.util.function.Consumer;
import tickover.unit.HostNanos;

/**
 * Tells what was lost on the line from what the probe dropped. A gap in the numbers shows at once;
 * how many samples the probe dropped stands in its next status. So what comes after a gap waits for
 * that status, at most {@value #MOST_WAIT_S} s.
 */
final class GapCauses {
    private static final double MOST_WAIT_S = 2;
    private static final int MOST_BLOCKS = 4096;

    private static final class Open {
        final StreamGap gap;
        final boolean bytesRejected;
        long dropped;

        Open(StreamGap gap, boolean bytesRejected) {
            this.gap = gap;
            this.bytesRejected = bytesRejected;
        }
    }

    private final Consumer<AlignedBlock> out;
    private final ArrayDeque<AlignedBlock> waiting = new ArrayDeque<>();
    private final List<Open> open = new ArrayList<>();
    private boolean known;
    private long dropped;
    private long spare;

    GapCauses(Consumer<AlignedBlock> out) {
        this.out = out;
    }

    /** A segment begins; a probe that has just been started has dropped nothing yet. */
    void begin(boolean fromStart) {
        known = fromStart;
        dropped = 0;
        spare = 0;
    }

    void put(AlignedBlock block) {
        if (open.isEmpty()) {
            out.accept(block);
            return;
        }
        waiting.add(block);
        if (waiting.size() > MOST_BLOCKS) {
            settle();
        }
    }

    void gap(StreamGap gap, boolean bytesRejected) {
        open.add(new Open(gap, bytesRejected));
        waiting.add(gap);
        if (known && spare >= unsettled()) {
            settle();
        }
    }

    private long unsettled() {
        return open.stream().mapToLong(o -> o.gap.missingOrUnknown()).sum();
    }

    /** The host's time moves on. */
    void at(HostNanos now) {
        if (!open.isEmpty() && now.secondsAfter(open.get(0).gap.at()) > MOST_WAIT_S) {
            settle();
        }
    }

    /**
     * A status came.
     *
     * @param total dropped since START
     * @param samples samples since START, as far as is known
     * @return whether the status can be true
     */
    boolean status(long total, long samples) {
        if (total < dropped || total > samples) {
            return false;
        }
        if (known) {
            spare += total - dropped;
        }
        known = true;
        dropped = total;
        settle();
        return true;
    }

    /** Hands on everything that waits. */
    void settle() {
        for (int pass = 0; pass < 2; pass++) {
            for (Open o : open) {
                // Where bytes were rejected too, the line is the likelier culprit.
                if (o.bytesRejected == (pass == 1)) {
                    o.dropped = Math.min(spare, o.gap.missingOrUnknown());
                    spare -= o.dropped;
                }
            }
        }
        while (!waiting.isEmpty()) {
            AlignedBlock block = waiting.poll();
            if (!open.isEmpty() && block == open.get(0).gap) {
                split(open.remove(0));
            } else {
                out.accept(block);
            }
        }
    }

    /** Which of the missing ones were dropped and which lost is not known; dropped come first. */
    private void split(Open o) {
        StreamGap g = o.gap;
        long lost = g.missingOrUnknown() - o.dropped;
        if (o.dropped > 0) {
            out.accept(part(g, StreamGap.Cause.DROPPED_BY_PROBE, g.firstMissing(), o.dropped));
        }
        if (lost > 0) {
            out.accept(part(g, StreamGap.Cause.LOST_ON_LINE, g.firstMissing() + o.dropped, lost));
        }
    }

    private static StreamGap part(StreamGap g, StreamGap.Cause cause, long first, long count) {
        return new StreamGap(g.source(), g.segment(), cause, g.at(), first, count);
    }
}

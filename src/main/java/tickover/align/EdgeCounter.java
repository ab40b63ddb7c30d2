package tickover.align;

import java.util.List;

/** Accounts for tach edges by their numbers, which wrap at 2^16. */
final class EdgeCounter {
    /** A TACH frame, copied. */
    @SuppressWarnings("ArrayRecordComponent") // never compared
    record Frame(int number, int missed, long[] ticks) {}

    private static final int ROUND = 1 << 16;

    private boolean started;
    private int next;
    private long lastTick;
    private double intervalTicks;

    private Frame suspect;
    private long implausible;

    long implausible() {
        return implausible;
    }

    void begin(boolean fromStart) {
        started = fromStart;
        next = 0;
        lastTick = Long.MIN_VALUE;
        intervalTicks = 0;
        suspect = null;
    }

    /**
     * Tells what to believe: a frame that follows, none while there is one doubtful frame, or two
     * that contradict what came before and agree with each other; the count begins anew then.
     */
    List<Frame> judge(Frame f, boolean near) {
        if (near && follows(f)) {
            implausible += suspect == null ? 0 : 1;
            suspect = null;
            return List.of(f);
        }
        if (near && suspect != null && consecutive(suspect, f)) {
            Frame before = suspect;
            suspect = null;
            begin(false);
            return List.of(before, f);
        }
        implausible += suspect == null ? 0 : 1;
        suspect = f;
        return List.of();
    }

    /** Whether ticks run on and the number can follow the last one. */
    private boolean follows(Frame f) {
        return inOrder(f)
                && f.ticks[0] >= lastTick
                && (!started || (lost(f) >= f.missed && lost(f) < ROUND / 2));
    }

    private static boolean inOrder(Frame f) {
        for (int i = 1; i < f.ticks.length; i++) {
            if (f.ticks[i] < f.ticks[i - 1]) {
                return false;
            }
        }
        return true;
    }

    private int lost(Frame f) {
        return (f.number - next) & (ROUND - 1);
    }

    /** Takes a frame; returns how many edges are missing before it. */
    long take(Frame f) {
        long missing = started ? lost(f) : 0;
        if (missing > f.missed && intervalTicks > 0) {
            // A pause may hold more edges than the number can tell; the speed before it does. Where
            // the number runs on, nothing was lost: the engine stood.
            double byTime = (f.ticks[0] - lastTick) / intervalTicks - 1;
            missing += ROUND * Math.max(0, Math.round((byTime - missing) / ROUND));
        }
        int n = f.ticks.length;
        if (n > 1) {
            intervalTicks = (double) (f.ticks[n - 1] - f.ticks[0]) / (n - 1);
        }
        started = true;
        next = (f.number + n) & (ROUND - 1);
        lastTick = f.ticks[n - 1];
        return missing;
    }

    /** Whether one frame carries on where another ended. */
    private static boolean consecutive(Frame a, Frame b) {
        int lost = (b.number - a.number - a.ticks.length) & (ROUND - 1);
        return inOrder(a)
                && inOrder(b)
                && b.ticks[0] >= a.ticks[a.ticks.length - 1]
                && lost >= b.missed
                && lost < ROUND / 2;
    }
}

package tickover.align;

import java.util.Objects;
import java.util.Optional;
import tickover.unit.HostNanos;

/**
 * Follows a device's clock against the host's.
 *
 * <p>In: arrivals (a device tick and when the host heard of it, always later by an unknown delay)
 * and answered pings (the tick is bounded from both sides). <br>
 * Out: {@link ClockFit} over the last {@value #MOST_S} s at most, over less where the clock's rate
 * changes so fast that a straight line over the whole errs more than noise does. <br>
 * Steps of either clock, told by {@link #arrival} and {@link #ping}, only on evidence that lateness
 * cannot explain: pings that contradict the line by 5 ms plus four times its error, shown by the
 * second message; without pings a change of {@value #LEAST_UNSEEN_STEP_S} s at least, towards
 * earlier host times shown by the second message, towards later ones when everything has been late
 * by the same for 20 s. A smaller change without pings is taken for a change of the delay: the line
 * is drawn anew and the stated error holds the change, but nothing is told. <br>
 * Memory: fixed. Thread: one. <br>
 * Source: [ZhangLiuXia2002] for the hull under the delays, from memory; the likelihood over slopes
 * is in {@link SkewPosterior}.
 */
public final class ClockTracker {
    /** Longest stretch looked at, s. */
    static final int MOST_S = 120;

    /**
     * Least step without pings, s. A converter's timer holds back for 255 ms at most, the most its
     * one byte can say (from memory).
     */
    static final double LEAST_UNSEEN_STEP_S = 0.3;

    /** No line is tested before it has been tried for so long, s. */
    private static final double SETTLED_S = 6;

    private static final double LEAST_CHANGE_S = 5e-3;
    private static final double CHANGE_ERRORS = 4;

    /** The second message that is too early comes within so long, s. */
    private static final double SECOND_S = 10;

    /** A delay that changed is not trusted to stay for so long, s. */
    private static final double WANDERS_S = 600;

    private final double tickHz;
    private final ClockWindow window = new ClockWindow(MOST_S);
    private final RecentDelays recent = new RecentDelays();

    private boolean started;
    private long originTick;
    private HostNanos origin = new HostNanos(0);
    private int steps;
    private ClockLine line = ClockLine.NONE;
    private int fittedAtChange = -1;
    private double pendingX;
    private long pendingFrom;
    private double pendingY;
    private int pendingSign;
    private final LateRun late = new LateRun();
    private double wanderS;
    private double wanderedX;

    /**
     * @param tickHz nominal ticks per second, Hz, &gt; 0
     */
    public ClockTracker(double tickHz) {
        if (!(tickHz > 0)) {
            throw new IllegalArgumentException("tickHz=" + tickHz + ", need > 0 Hz");
        }
        this.tickHz = tickHz;
    }

    /**
     * Takes an arrival.
     *
     * @param tick device tick without wrap, at which what arrived was complete
     * @param at when it had arrived
     * @return true if one of the clocks stepped; everything before is forgotten then
     */
    public boolean arrival(long tick, HostNanos at) {
        start(tick, at);
        double x = x(tick);
        double y = at.secondsAfter(origin) - x;
        recent.add(x, y);
        if (settled()) {
            double margin = marginS(x);
            double over = y - line.over(x);
            if (over < -margin) {
                return suspect(-1, x, y);
            }
            if (pendingSign < 0 && (line.bracketed() || x - pendingX > SECOND_S)) {
                pendingSign = 0;
            }
            if (over <= margin) {
                late.inTime();
            } else {
                late.late(recent.count() - 1, x, x + y, over);
                if (late.givenUp(margin)) {
                    double by = late.recentLeastS();
                    boolean step = late.steady(margin) && by >= LEAST_UNSEEN_STEP_S;
                    // The first of the late ones may have been late before the change.
                    return change((late.first() + recent.count()) / 2, x, by, step);
                }
            }
        }
        window.arrival(x, y);
        return false;
    }

    /**
     * Takes an answered ping.
     *
     * @param sent just before the ping was handed to the line
     * @param receivedTick device tick without wrap at which it had been received
     * @param sentTick device tick without wrap at which the answer was handed to the line
     * @param back when the answer had arrived
     * @return true if one of the clocks stepped; everything before is forgotten then
     */
    public boolean ping(HostNanos sent, long receivedTick, long sentTick, HostNanos back) {
        if (!(back.compareTo(sent) >= 0 && sentTick >= receivedTick)) {
            throw new IllegalArgumentException(
                    "sent=" + sent + ", back=" + back + ", need an answer after the question");
        }
        start(receivedTick, sent);
        double x = x(receivedTick);
        double y = sent.secondsAfter(origin) - x;
        boolean stepped = false;
        if (settled() && y - line.over(x) > marginS(x)) {
            stepped = suspect(1, x, y);
        } else {
            if (pendingSign > 0) {
                pendingSign = 0;
            }
            window.bound(x, y);
            // After a step to later host times the question itself would have been late.
            late.end();
        }
        return arrival(sentTick, back) || stepped;
    }

    /**
     * Returns the line over what was heard so far.
     *
     * @return empty until there are some seconds of arrivals
     */
    public Optional<ClockFit> fit() {
        refit();
        if (!line.isThere()) {
            return Optional.empty();
        }
        long middleTick = originTick + Math.round(line.middle() * tickHz);
        double middle = x(middleTick);
        double hostS = middle + line.over(middle);
        HostNanos at = origin.plusS(hostS);
        double wander = line.bracketed() ? 0 : wanderS;
        return Optional.of(
                new ClockFit(
                        at,
                        middleTick,
                        hostS - at.secondsAfter(origin),
                        (1 + line.slope()) / tickHz,
                        line.heightError() + wander + late.doubtS(),
                        (line.slopeError() + wander / MOST_S) / (1 + line.slope()),
                        line.bracketed()));
    }

    /**
     * Returns how often a clock stepped.
     *
     * @return steps so far
     */
    public int steps() {
        return steps;
    }

    /** Forgets everything, as after an unplug. */
    public void restart() {
        started = false;
        wanderS = 0;
        forget();
        recent.clear();
    }

    private void forget() {
        window.clear();
        line = ClockLine.NONE;
        fittedAtChange = -1;
        pendingSign = 0;
        late.end();
    }

    private void start(long tick, HostNanos at) {
        if (!started) {
            started = true;
            originTick = tick;
            origin = Objects.requireNonNull(at, "at");
        }
    }

    private double x(long tick) {
        return (tick - originTick) / tickHz;
    }

    private boolean settled() {
        refit();
        return line.spanS() >= SETTLED_S;
    }

    private double marginS(double x) {
        return LEAST_CHANGE_S + CHANGE_ERRORS * line.errorAt(x);
    }

    /** One message may be wrong; the second that says the same is believed. */
    private boolean suspect(int sign, double x, double y) {
        boolean again =
                pendingSign == sign
                        && Math.abs((y - line.over(x)) - (pendingY - line.over(pendingX)))
                                < Math.max(0.05, marginS(x))
                        && x != pendingX;
        if (!again) {
            pendingSign = sign;
            pendingX = x;
            pendingFrom = recent.count() - (sign < 0 ? 1 : 0);
            pendingY = y;
            return false;
        }
        double by = y - line.over(x);
        boolean seen = sign > 0 || line.bracketed();
        return change(pendingFrom, x, by, seen || Math.abs(by) >= LEAST_UNSEEN_STEP_S);
    }

    /** What came from a message on belongs to a new line. */
    private boolean change(long number, double x, double byS, boolean step) {
        ClockLine before = line;
        forget();
        if (step) {
            steps++;
            wanderS = 0;
        } else {
            line = before.movedBy(byS);
            wanderS = Math.max(wanderS, Math.abs(byS));
            wanderedX = x;
        }
        recent.each(number, recent.count(), window::arrival);
        return step;
    }

    private void refit() {
        // While nothing comes in time the line stays, or it would creep towards the late ones.
        if (window.change() == fittedAtChange || late.on()) {
            return;
        }
        fittedAtChange = window.change();
        ClockLine next = ClockLine.under(window, recent, 1 / tickHz);
        if (next.isThere()) {
            line = next;
        }
        if (window.lastX() - wanderedX > WANDERS_S) {
            wanderS = 0;
        }
    }
}

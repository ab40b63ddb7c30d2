package tickover.session;

import java.util.List;
import java.util.SplittableRandom;
import java.util.function.Supplier;
import java.util.function.ToLongFunction;
import tickover.unit.HostNanos;
import tickover.wire.FrameWriter;

/**
 * Identifies and starts a probe, asks again when samples stop, and pings it: often at first, so
 * that its clock is known soon, then now and again. One command is under way at a time, as the
 * protocol wants it.
 *
 * <p>Silence is counted only over passes that ran in time. A host that was busy or suspended has
 * not listened, and a START would throw a healthy probe's numbering away.
 */
final class ProbeDriver implements SourceDriver {
    /** A command without an answer is given up after so long, s; the protocol says so. */
    private static final double ANSWER_S = 0.25;

    /** A longer pause between two passes is the host's own and no silence of the probe, s. */
    private static final double IN_TIME_S = 0.1;

    /** Samples that stay out for so long are asked for, s; then again each second. */
    private static final double SILENT_S = 1.5;

    private static final double ASK_AGAIN_S = 1;
    private static final double FAST_PING_S = 0.2;
    private static final double SLOW_PING_S = 2;
    private static final double FAST_FOR_S = 6;

    /** What comes next, ahead of pings. */
    private enum Next {
        IDENTIFY,
        START,
        NOTHING
    }

    private final Supplier<SourceState> state;
    private final FrameWriter writer = new FrameWriter();
    private HostNanos openedAt = new HostNanos(0);
    private HostNanos passedAt = new HostNanos(0);
    private HostNanos nextPingAt = new HostNanos(0);
    private Next next = Next.NOTHING;
    private boolean fresh;
    private boolean flowing;
    private long frames;
    private double silentS;

    /** Counts what the command under way brings; null when none is. */
    private ToLongFunction<SourceState> awaited;

    private long awaitedBefore;
    private HostNanos giveUpAt = new HostNanos(0);

    /** Not from 0: an answer to the last recording's ping may still be on its way. */
    private long pings = new SplittableRandom().nextLong() & 0x7FFFFFFFL;

    ProbeDriver(Supplier<SourceState> state) {
        this.state = state;
    }

    @Override
    public void opened(HostNanos at) {
        openedAt = at;
        passedAt = at;
        nextPingAt = at;
        next = Next.IDENTIFY;
        fresh = true;
        flowing = false;
        frames = state.get().frames();
        silentS = 0;
        awaited = null;
    }

    @Override
    public void heard(byte[] bytes, HostNanos at) {}

    @Override
    public List<byte[]> due(HostNanos now) {
        listen(now);
        if (awaits(now)) {
            return List.of();
        }
        awaited = null;
        if (next == Next.IDENTIFY) {
            next = Next.START;
            // A zero byte ends whatever stood half sent on the line.
            return command(writer.separator().identify().take(), SourceState::hellos, now);
        }
        if (next == Next.START) {
            next = Next.NOTHING;
            if (fresh || !flowing) {
                fresh = false;
                silentS = SILENT_S - ASK_AGAIN_S;
                return command(writer.start().take(), SourceState::frames, now);
            }
        }
        if (flowing && now.compareTo(nextPingAt) >= 0) {
            double every = now.secondsAfter(openedAt) < FAST_FOR_S ? FAST_PING_S : SLOW_PING_S;
            // Evenly spaced: from when it was due, unless that is long ago.
            boolean late = now.secondsAfter(nextPingAt) >= every;
            nextPingAt = (late ? now : nextPingAt).plusS(every);
            return command(writer.ping(pings++ & 0xFFFFFFFFL).take(), SourceState::pongs, now);
        }
        return List.of();
    }

    /** Takes note of what came since the last pass, or of how long nothing came. */
    private void listen(HostNanos now) {
        double sinceS = now.secondsAfter(passedAt);
        passedAt = now;
        long count = state.get().frames();
        if (count != frames) {
            frames = count;
            flowing = true;
            silentS = 0;
        } else if (sinceS <= IN_TIME_S) {
            silentS += sinceS;
        }
        if (silentS >= SILENT_S && next == Next.NOTHING) {
            flowing = false;
            next = Next.IDENTIFY;
        }
    }

    private List<byte[]> command(byte[] bytes, ToLongFunction<SourceState> brings, HostNanos now) {
        awaited = brings;
        awaitedBefore = brings.applyAsLong(state.get());
        giveUpAt = now.plusS(ANSWER_S);
        return List.of(bytes);
    }

    @Override
    public boolean awaits(HostNanos now) {
        return awaited != null
                && awaited.applyAsLong(state.get()) == awaitedBefore
                && now.compareTo(giveUpAt) < 0;
    }

    @Override
    public double untilDueS(HostNanos now) {
        if (awaits(now)) {
            return giveUpAt.secondsAfter(now);
        }
        if (next != Next.NOTHING) {
            return 0;
        }
        return flowing ? Math.max(0, nextPingAt.secondsAfter(now)) : Double.POSITIVE_INFINITY;
    }

    @Override
    public List<byte[]> farewell() {
        return List.of(writer.stop().take());
    }

    @Override
    public String problem() {
        return "";
    }
}

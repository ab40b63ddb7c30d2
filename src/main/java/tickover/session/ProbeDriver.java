package tickover.session;

import java.util.ArrayList;
import java.util.List;
import java.util.SplittableRandom;
import java.util.function.Supplier;
import tickover.unit.HostNanos;
import tickover.wire.FrameWriter;

/**
 * Starts a probe, keeps asking until samples flow, starts it anew when they stop, and pings it:
 * often at first, so that its clock is known soon, then now and again.
 */
final class ProbeDriver implements SourceDriver {
    private static final double ASK_EVERY_S = 1;

    /** Samples that stay out for so long are asked for again. */
    private static final double SILENT_S = 1.5;

    private static final double FAST_PING_S = 0.2;
    private static final double SLOW_PING_S = 2;
    private static final double FAST_FOR_S = 6;

    private final Supplier<SourceState> state;
    private final FrameWriter writer = new FrameWriter();
    private HostNanos openedAt = new HostNanos(0);
    private HostNanos askedAt = new HostNanos(Long.MIN_VALUE / 2);
    private HostNanos pingedAt = new HostNanos(Long.MIN_VALUE / 2);
    private boolean greeted;

    /** Not from 0: an answer to the last recording's ping may still be on its way. */
    private long pings = new SplittableRandom().nextLong() & 0x7FFFFFFFL;

    ProbeDriver(Supplier<SourceState> state) {
        this.state = state;
    }

    @Override
    public void opened(HostNanos at) {
        openedAt = at;
        greeted = false;
    }

    @Override
    public void heard(byte[] bytes, HostNanos at) {}

    @Override
    public List<byte[]> due(HostNanos now) {
        List<byte[]> messages = new ArrayList<>();
        boolean flowing = flowing(now);
        if (!greeted) {
            greeted = true;
            askedAt = now;
            // A zero byte ends whatever stood half sent on the line.
            messages.add(writer.separator().identify().start().take());
        } else if (!flowing && now.secondsAfter(askedAt) >= ASK_EVERY_S) {
            askedAt = now;
            messages.add(writer.identify().start().take());
        }
        double every = now.secondsAfter(openedAt) < FAST_FOR_S ? FAST_PING_S : SLOW_PING_S;
        if (flowing && now.secondsAfter(pingedAt) >= every) {
            pingedAt = now;
            messages.add(writer.ping(pings++ & 0xFFFFFFFFL).take());
        }
        return messages;
    }

    private boolean flowing(HostNanos now) {
        return state.get().lastFlow().map(t -> now.secondsAfter(t) < SILENT_S).orElse(false);
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

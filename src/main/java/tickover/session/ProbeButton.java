package tickover.session;

import tickover.unit.HostNanos;
import tickover.wire.ButtonEvent;
import tickover.wire.Hello;

/**
 * Hears one board's button as its frames are decoded. The aligned stream holds blocks back behind a
 * gap, and a person who pressed waits for the bell. One thread.
 */
final class ProbeButton {
    /** A press this soon after the one before is the same finger, s by the probe's clock. */
    static final double BOUNCE_S = 0.3;

    /** Later than this by the host's clock the tick has perhaps come round once, s. */
    private static final double TICKS_HOLD_S = 10;

    private static final long ROUND = 1L << 32;

    private double tickHz = Double.NaN;
    private int boot = -1;
    private int counted = -1;
    private long tick;
    private HostNanos heardAt = new HostNanos(0);
    private int waiting;

    void hello(Hello hello) {
        if (hello.boot() != boot) {
            boot = hello.boot();
            counted = -1;
        }
        tickHz = hello.tickHz();
    }

    /** A press counts, and so does a release that tells of a press whose own frame was lost. */
    void heard(ButtonEvent event, HostNanos at) {
        boolean another = counted < 0 ? event.down() : event.presses() != counted;
        if (!another) {
            return;
        }
        double afterS = Math.floorMod(event.tick() - tick, ROUND) / tickHz;
        boolean bounces =
                counted >= 0 && at.secondsAfter(heardAt) < TICKS_HOLD_S && afterS < BOUNCE_S;
        counted = event.presses();
        tick = event.tick();
        heardAt = at;
        if (!bounces) {
            waiting++;
        }
    }

    /** Takes one press, if one waits to be acted on. */
    boolean take() {
        if (waiting == 0) {
            return false;
        }
        waiting--;
        return true;
    }
}

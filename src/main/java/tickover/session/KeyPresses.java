package tickover.session;

import java.util.concurrent.ConcurrentLinkedQueue;
import tickover.unit.HostNanos;

/** Presses of a key that stands for the probe's button. Pressed by any thread, taken by one. */
final class KeyPresses {
    private final ConcurrentLinkedQueue<HostNanos> pressed = new ConcurrentLinkedQueue<>();
    private HostNanos lastAt = new HostNanos(Long.MIN_VALUE / 2);

    void press(HostNanos at) {
        pressed.add(at);
    }

    /** Takes one press, if one waits to be acted on. A key that is held down was pressed once. */
    boolean take() {
        for (HostNanos at = pressed.poll(); at != null; at = pressed.poll()) {
            boolean bounces = at.secondsAfter(lastAt) < ProbeButton.BOUNCE_S;
            lastAt = at;
            if (!bounces) {
                return true;
            }
        }
        return false;
    }
}

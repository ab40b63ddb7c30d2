package tickover.align;

import java.util.OptionalInt;
import tickover.wire.ButtonEvent;

/** Accounts for presses of the probe's button by their numbers, which wrap at 2^16. */
final class PressCounter {
    private static final int ROUND = 1 << 16;

    /** Nobody presses that often unheard. */
    private static final int MOST_LOST = 1000;

    private int last = -1;

    void restart() {
        last = -1;
    }

    /** Whether this is a press that has not been told yet. */
    boolean isNew(ButtonEvent event) {
        return event.down() && event.presses() != last;
    }

    /** Takes a press; returns how many were lost before it, empty if that cannot be true. */
    OptionalInt take(ButtonEvent event) {
        int lost = last < 0 ? 0 : (event.presses() - last - 1) & (ROUND - 1);
        if (lost > MOST_LOST) {
            return OptionalInt.empty();
        }
        last = event.presses();
        return OptionalInt.of(lost);
    }
}

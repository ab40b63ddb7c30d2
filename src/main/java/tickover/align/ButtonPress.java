package tickover.align;

import java.util.Objects;
import tickover.unit.DeviceTicks;
import tickover.unit.HostNanos;

/**
 * The probe's button was pressed. Releases are not passed on.
 *
 * @param source number of the device
 * @param segment the segment
 * @param tick when, by the device's clock
 * @param arrival when the host heard of it
 * @param button 0 for the first
 * @param lostBefore presses that are known to have been lost before this one
 */
public record ButtonPress(
        int source, int segment, DeviceTicks tick, HostNanos arrival, int button, int lostBefore)
        implements AlignedBlock {
    public ButtonPress {
        Objects.requireNonNull(tick, "tick");
        Objects.requireNonNull(arrival, "arrival");
    }

    @Override
    public Kind kind() {
        return Kind.BUTTON;
    }
}

package tickover.align;

import java.util.Objects;
import tickover.unit.HostNanos;

/**
 * Engine speed as a control unit reported it: the engine turned that fast some time before the
 * answer.
 *
 * @param source number of the device
 * @param asked when the request was handed to the line
 * @param answered when the answer was whole
 * @param speedRpm crank speed, rpm
 */
public record SpeedReading(int source, HostNanos asked, HostNanos answered, double speedRpm)
        implements AlignedBlock {
    public SpeedReading {
        Objects.requireNonNull(asked, "asked");
        Objects.requireNonNull(answered, "answered");
        if (!(speedRpm >= 0)) {
            throw new IllegalArgumentException("speedRpm=" + speedRpm + ", need >= 0 rpm");
        }
    }

    @Override
    public Kind kind() {
        return Kind.SPEED;
    }
}

package tickover.align;

import java.util.Objects;
import java.util.OptionalDouble;
import tickover.unit.HostNanos;
import tickover.wire.ProbeStatus;

/**
 * How a probe is doing.
 *
 * @param source number of the device
 * @param segment the segment
 * @param at when the host heard of it
 * @param status what the probe said
 */
public record ProbeHealth(int source, int segment, HostNanos at, ProbeStatus status)
        implements AlignedBlock {
    public ProbeHealth {
        Objects.requireNonNull(at, "at");
        Objects.requireNonNull(status, "status");
    }

    /**
     * Returns the board's temperature.
     *
     * @return °C, if measured
     */
    public OptionalDouble temperatureC() {
        return status.temperatureC();
    }

    @Override
    public Kind kind() {
        return Kind.HEALTH;
    }
}

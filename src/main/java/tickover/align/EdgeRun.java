package tickover.align;

import java.util.Objects;
import tickover.unit.HostNanos;

/**
 * Tach edges without a gap between them. Owns its ticks: nobody may write to them.
 *
 * @param source number of the device
 * @param segment the segment
 * @param missedBefore edges that are known to be missing just before these
 * @param arrival when their last byte reached the host
 * @param ticks when each came, by the device's clock, never decreasing
 */
@SuppressWarnings("ArrayRecordComponent") // handed over once and never compared
public record EdgeRun(int source, int segment, long missedBefore, HostNanos arrival, long[] ticks)
        implements AlignedBlock {
    public EdgeRun {
        Objects.requireNonNull(arrival, "arrival");
        Objects.requireNonNull(ticks, "ticks");
    }

    @Override
    public Kind kind() {
        return Kind.EDGES;
    }
}

package tickover.align;

import java.util.Locale;
import java.util.Objects;
import tickover.unit.HostNanos;
import tickover.wire.Hello;

/**
 * A segment of a probe begins.
 *
 * @param source number of the device
 * @param segment 0 for its first, then one more each time
 * @param at when the host learned of it
 * @param name what the probe calls itself; may be empty
 * @param deviceKey what tells this board from others, such as a serial number; may be empty
 * @param axes 1 to 3
 * @param nominalRateHz sample rate by the device's clock, Hz; 0 if it does not say (plain text)
 * @param tickHz nominal ticks per second, Hz
 * @param ticksPerSample ticks a sample lasts by the device's word; 0 if it does not say
 * @param samplesFollowTicks whether that is exact
 * @param fullScaleMps2 end of the range, m/s²; 0 if not known
 * @param bandwidthHz upper corner of sensor and filter, Hz; 0 if not known
 */
public record ProbeStart(
        int source,
        int segment,
        HostNanos at,
        String name,
        String deviceKey,
        int axes,
        double nominalRateHz,
        double tickHz,
        double ticksPerSample,
        boolean samplesFollowTicks,
        double fullScaleMps2,
        double bandwidthHz)
        implements AlignedBlock {
    public ProbeStart {
        Objects.requireNonNull(at, "at");
        Objects.requireNonNull(name, "name");
        Objects.requireNonNull(deviceKey, "deviceKey");
        if (!(axes >= 1 && axes <= 3)) {
            throw new IllegalArgumentException("axes=" + axes + ", need 1 to 3");
        }
        if (!(tickHz > 0)) {
            throw new IllegalArgumentException("tickHz=" + tickHz + ", need > 0 Hz");
        }
    }

    static ProbeStart of(int source, int segment, HostNanos at, Hello hello) {
        String key = hello.device() == 0 ? "" : String.format(Locale.ROOT, "%08x", hello.device());
        return new ProbeStart(
                source,
                segment,
                at,
                hello.name(),
                key,
                hello.axes(),
                hello.rateHz(),
                hello.tickHz(),
                hello.ticksPerSample(),
                hello.samplesFollowTicks(),
                hello.fullScaleMps2(),
                hello.bandwidthHz());
    }

    @Override
    public Kind kind() {
        return Kind.START;
    }
}

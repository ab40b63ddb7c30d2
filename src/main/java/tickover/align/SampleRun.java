package tickover.align;

import java.util.Objects;
import tickover.unit.DeviceTicks;
import tickover.unit.HostNanos;

/**
 * Samples without a gap between them. Owns its values: nobody may write to them.
 *
 * @param source number of the device
 * @param segment the segment
 * @param firstSample how many samples the segment had before the first one here, lost ones counted
 * @param firstTick when the first sample was taken, by the device's clock
 * @param arrival when its last byte reached the host
 * @param axes 1 to 3
 * @param accelMps2 m/s², sample by sample, in each x, y, z
 * @param atLimit whether the probe marked a value as being at the end of its range
 */
@SuppressWarnings("ArrayRecordComponent") // handed over once and never compared
public record SampleRun(
        int source,
        int segment,
        long firstSample,
        DeviceTicks firstTick,
        HostNanos arrival,
        int axes,
        double[] accelMps2,
        boolean atLimit)
        implements AlignedBlock {
    public SampleRun {
        Objects.requireNonNull(firstTick, "firstTick");
        Objects.requireNonNull(arrival, "arrival");
        Objects.requireNonNull(accelMps2, "accelMps2");
        if (!(axes >= 1 && accelMps2.length >= axes && accelMps2.length % axes == 0)) {
            throw new IllegalArgumentException(
                    "accelMps2.length=" + accelMps2.length + ", need a multiple of axes=" + axes);
        }
    }

    /**
     * Returns the number of samples.
     *
     * @return &gt;= 1
     */
    public int count() {
        return accelMps2.length / axes;
    }

    @Override
    public Kind kind() {
        return Kind.SAMPLES;
    }
}

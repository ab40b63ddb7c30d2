package tickover.diagnose;

import java.util.Arrays;
import java.util.List;
import java.util.Objects;
import tickover.drive.BearingGeometry;
import tickover.drive.Ring;

/**
 * A record of a bearing that is turned alone, and which bearing it is.
 *
 * <p>The samples are shared, not copied: nobody may write to them while a test runs.
 */
public final class BenchRecord {
    private final List<double[]> channelsMps2;
    private final double sampleRateHz;
    private final BearingGeometry geometry;
    private final Ring turning;

    /**
     * Puts a record of one channel together.
     *
     * @param accelMps2 acceleration, m/s², even time steps
     * @param sampleRateHz samples per second, Hz, &gt; 0
     * @param geometry the bearing's internals
     * @param turning the ring that turns
     */
    public BenchRecord(
            double[] accelMps2, double sampleRateHz, BearingGeometry geometry, Ring turning) {
        this(
                List.of(Objects.requireNonNull(accelMps2, "accelMps2")),
                sampleRateHz,
                geometry,
                turning);
    }

    /**
     * Puts a record of several channels together.
     *
     * @param channelsMps2 acceleration, m/s², even time steps; at least one channel, all as long
     * @param sampleRateHz samples per second, Hz, &gt; 0
     * @param geometry the bearing's internals
     * @param turning the ring that turns
     */
    public BenchRecord(
            List<double[]> channelsMps2,
            double sampleRateHz,
            BearingGeometry geometry,
            Ring turning) {
        if (!(sampleRateHz > 0 && Double.isFinite(sampleRateHz))) {
            throw new IllegalArgumentException("sampleRateHz=" + sampleRateHz + ", need > 0 Hz");
        }
        this.channelsMps2 = List.copyOf(channelsMps2);
        if (this.channelsMps2.isEmpty()) {
            throw new IllegalArgumentException("channelsMps2 is empty, need at least one channel");
        }
        int length = this.channelsMps2.get(0).length;
        for (double[] channel : this.channelsMps2) {
            if (channel.length != length) {
                throw new IllegalArgumentException(
                        "channels have "
                                + length
                                + " and "
                                + channel.length
                                + " samples, need as"
                                + " many in each");
            }
        }
        this.sampleRateHz = sampleRateHz;
        this.geometry = Objects.requireNonNull(geometry, "geometry");
        this.turning = Objects.requireNonNull(turning, "turning");
    }

    List<double[]> channelsMps2() {
        return channelsMps2;
    }

    int length() {
        return channelsMps2.get(0).length;
    }

    /** The same bearing's samples from one place to before another. */
    BenchRecord part(int from, int to) {
        return new BenchRecord(
                channelsMps2.stream().map(x -> Arrays.copyOfRange(x, from, to)).toList(),
                sampleRateHz,
                geometry,
                turning);
    }

    double sampleRateHz() {
        return sampleRateHz;
    }

    BearingGeometry geometry() {
        return geometry;
    }

    Ring turning() {
        return turning;
    }
}

package tickover.diagnose;

import java.util.Objects;
import tickover.drive.BearingGeometry;
import tickover.drive.Ring;

/**
 * A record of a bearing that is turned alone, and which bearing it is.
 *
 * <p>The samples are shared, not copied: nobody may write to them while a test runs.
 */
public final class BenchRecord {
    private final double[] accelMps2;
    private final double sampleRateHz;
    private final BearingGeometry geometry;
    private final Ring turning;

    /**
     * Puts them together.
     *
     * @param accelMps2 acceleration, m/s², even time steps
     * @param sampleRateHz samples per second, Hz, &gt; 0
     * @param geometry the bearing's internals
     * @param turning the ring that turns
     */
    public BenchRecord(
            double[] accelMps2, double sampleRateHz, BearingGeometry geometry, Ring turning) {
        if (!(sampleRateHz > 0 && Double.isFinite(sampleRateHz))) {
            throw new IllegalArgumentException("sampleRateHz=" + sampleRateHz + ", need > 0 Hz");
        }
        this.accelMps2 = Objects.requireNonNull(accelMps2, "accelMps2");
        this.sampleRateHz = sampleRateHz;
        this.geometry = Objects.requireNonNull(geometry, "geometry");
        this.turning = Objects.requireNonNull(turning, "turning");
    }

    double[] accelMps2() {
        return accelMps2;
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

package tickover.diagnose;

import java.util.Objects;

/**
 * An envelope order spectrum of a bench record in one band, each bin over its surroundings.
 * Immutable.
 */
public final class BenchSpectrum {
    private final SignalBand band;
    private final double resolutionOrders;
    private final double[] strengthDb;

    BenchSpectrum(SignalBand band, double resolutionOrders, double[] strengthDb) {
        this.band = Objects.requireNonNull(band, "band");
        this.resolutionOrders = resolutionOrders;
        this.strengthDb = strengthDb.clone();
    }

    /**
     * Returns the band and its channel.
     *
     * @return the band
     */
    public SignalBand band() {
        return band;
    }

    /**
     * Returns how many bins there are.
     *
     * @return bins, from order 0
     */
    public int bins() {
        return strengthDb.length;
    }

    /**
     * Returns where a bin stands.
     *
     * @param bin 0-based
     * @return order per turn
     */
    public double orderOf(int bin) {
        return bin * resolutionOrders;
    }

    /**
     * Returns the power of a bin over its surroundings.
     *
     * @param bin 0-based
     * @return dB; whole orders, which are the turn's own, are at 0
     */
    public double strengthDb(int bin) {
        return strengthDb[bin];
    }
}

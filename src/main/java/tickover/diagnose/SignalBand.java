package tickover.diagnose;

/**
 * A frequency band of one channel.
 *
 * @param channel 0-based
 * @param loHz lower edge, Hz
 * @param hiHz upper edge, Hz
 * @param rmsMps2 acceleration inside, m/s²
 */
public record SignalBand(int channel, double loHz, double hiHz, double rmsMps2) {
    public SignalBand {
        if (!(channel >= 0)) {
            throw new IllegalArgumentException("channel=" + channel + ", need >= 0");
        }
        if (!(loHz >= 0 && hiHz > loHz)) {
            throw new IllegalArgumentException(
                    "loHz=" + loHz + ", hiHz=" + hiHz + ", need 0 <= loHz < hiHz");
        }
    }
}

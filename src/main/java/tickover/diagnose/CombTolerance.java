package tickover.diagnose;

/**
 * How far a real order may be from the kinematic one.
 *
 * @param limitRatio no further than this share of it, 0 to below 0.2
 * @param sigmaRatio standard deviation that is expected, as a share of it, &gt; 0; orders further
 *     off need more evidence
 */
public record CombTolerance(double limitRatio, double sigmaRatio) {
    /**
     * Known speed: balls slip by one or two per cent and internals differ between makers by as
     * much, but both at once are rare.
     */
    public static final CombTolerance KNOWN_SPEED = new CombTolerance(0.025, 0.009);

    /** A speed that may be wrong by a per cent or two as well, or a belt that creeps. */
    public static final CombTolerance ROUGH_SPEED = new CombTolerance(0.03, 0.013);

    public CombTolerance {
        if (!(limitRatio >= 0 && limitRatio < 0.2)) {
            throw new IllegalArgumentException(
                    "limitRatio=" + limitRatio + ", need 0 to below 0.2");
        }
        if (!(sigmaRatio > 0)) {
            throw new IllegalArgumentException("sigmaRatio=" + sigmaRatio + ", need > 0");
        }
    }
}

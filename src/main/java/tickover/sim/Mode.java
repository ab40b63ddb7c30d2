package tickover.sim;

/**
 * A resonance.
 *
 * @param frequencyHz natural frequency, Hz, &gt; 0
 * @param dampingRatio share of critical damping, above 0 and below 1
 * @param gainRatio its weight
 */
record Mode(double frequencyHz, double dampingRatio, double gainRatio) {
    Mode {
        if (!(frequencyHz > 0)) {
            throw new IllegalArgumentException("frequencyHz=" + frequencyHz + ", need > 0 Hz");
        }
        if (!(dampingRatio > 0 && dampingRatio < 1)) {
            throw new IllegalArgumentException(
                    "dampingRatio=" + dampingRatio + ", need above 0 and below 1");
        }
    }

    /** Time in which a ring falls to 1/e: 1/(2 pi zeta f). */
    double decayS() {
        return 1 / (2 * Math.PI * dampingRatio * frequencyHz);
    }
}

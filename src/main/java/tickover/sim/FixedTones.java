package tickover.sim;

/**
 * An electric fan: tones that stay put in Hz while engine orders move.
 *
 * @param turnHz its speed, Hz
 * @param blades blades
 * @param unbalanceMps2 amplitude at its turn, m/s²
 * @param bladeMps2 amplitude at its blades, m/s²
 * @param alwaysOn true if it runs by itself, false if only with the air conditioning
 */
record FixedTones(
        double turnHz, int blades, double unbalanceMps2, double bladeMps2, boolean alwaysOn)
        implements Shaker {
    /** Slow drift of an electric motor's speed. */
    private static final double DRIFT_RATIO = 0.003;

    private static final double DRIFT_HZ = 0.13;

    @Override
    public void shake(Run run, PartMotion part, Draw draw, Shake shake) {
        if (!alwaysOn && !run.condition().aircon()) {
            return;
        }
        AngleTable table = new AngleTable();
        table.add(1, unbalanceMps2, draw.between(0, 1));
        table.add(blades, bladeMps2, draw.between(0, 1));
        table.add(2 * blades, bladeMps2 * 0.3, draw.between(0, 1));
        double start = draw.between(0, 1);
        double driftRad = 2 * Math.PI * DRIFT_HZ;
        for (int i = 0; i < run.count(); i++) {
            double timeS = i / run.sampleRateHz();
            double drift = DRIFT_RATIO * Math.sin(driftRad * timeS + start) / driftRad;
            shake.directMps2[i] += table.at(start + turnHz * (timeS + drift));
        }
    }
}

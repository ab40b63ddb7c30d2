package tickover.sim;

/**
 * Structure-borne broadband noise that swells with every firing.
 *
 * @param firingsPerTurn firing order
 * @param depthRatio modulation depth
 * @param ringRms rms with which a resonance of unit gain and 1 ms decay answers, m/s² at idle
 */
record FiringNoise(double firingsPerTurn, double depthRatio, double ringRms) implements Shaker {
    private static final double STRENGTH_PER_RMS = 2 / Math.sqrt(1e-3);
    private static final double SPEED_EXPONENT = 1.5;
    private static final int STEP_SAMPLES = Run.BLOCK_SAMPLES / 4;

    @Override
    public void shake(Run run, PartMotion part, Draw draw, Shake shake) {
        double perSample =
                EngineSound.firingGain(run.condition())
                        * ringRms
                        * STRENGTH_PER_RMS
                        / Math.sqrt(run.sampleRateHz());
        for (int from = 0; from < run.count(); from += STEP_SAMPLES) {
            double timeS = from / run.sampleRateHz();
            double swell = Math.cos(2 * Math.PI * firingsPerTurn * part.turnsAt(timeS));
            double gain =
                    perSample
                            * Math.max(0, 1 + depthRatio * swell)
                            * run.speedGain(timeS, SPEED_EXPONENT);
            int to = Math.min(run.count(), from + STEP_SAMPLES);
            for (int i = from; i < to; i++) {
                shake.impactsMps2[i] += gain * draw.gaussian();
            }
        }
    }
}

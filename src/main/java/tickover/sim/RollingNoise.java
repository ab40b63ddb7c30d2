package tickover.sim;

/**
 * Broadband noise of a bearing or a belt contact, modulated at the part's turn and at the cage's.
 *
 * @param ringRms rms with which a resonance of unit gain and 1 ms decay answers, m/s² at idle
 * @param turnDepthRatio modulation depth at the part's turn
 * @param cageDepthRatio modulation depth at the cage's turn
 * @param cageOrder cage turns per turn
 * @param crackles single crackles on top
 * @param load how it answers loads
 */
record RollingNoise(
        double ringRms,
        double turnDepthRatio,
        double cageDepthRatio,
        double cageOrder,
        Crackles crackles,
        LoadGain load)
        implements Shaker {
    /** Impacts of strength A arriving once a second ring such a mode with rms A sqrt(tau)/2. */
    private static final double STRENGTH_PER_RMS = 2 / Math.sqrt(1e-3);

    private static final double SPEED_EXPONENT = 1.2;
    private static final double TURN = 2 * Math.PI;
    private static final int STEP_SAMPLES = Run.BLOCK_SAMPLES / 4;

    /**
     * Single crackles of dry or dirty rolling contacts.
     *
     * @param rateHz per second
     * @param meanMps2 mean ring amplitude, m/s²
     */
    record Crackles(double rateHz, double meanMps2) {
        static final Crackles NONE = new Crackles(0, 0);
    }

    @Override
    public void shake(Run run, PartMotion part, Draw draw, Shake shake) {
        double base = load.of(run.condition());
        double perSample = base * ringRms * STRENGTH_PER_RMS / Math.sqrt(run.sampleRateHz());
        double turnPhase = draw.between(0, 1);
        double cagePhase = draw.between(0, 1);
        for (int from = 0; from < run.count(); from += STEP_SAMPLES) {
            double timeS = from / run.sampleRateHz();
            double turns = part.turnsAt(timeS);
            double envelope =
                    1
                            + turnDepthRatio * Math.cos(TURN * (turns + turnPhase))
                            + cageDepthRatio * Math.cos(TURN * (cageOrder * turns + cagePhase));
            double gain = perSample * Math.max(0, envelope) * run.speedGain(timeS, SPEED_EXPONENT);
            int to = Math.min(run.count(), from + STEP_SAMPLES);
            for (int i = from; i < to; i++) {
                shake.impactsMps2[i] += gain * draw.gaussian();
            }
        }
        if (crackles.rateHz() > 0) {
            double timeS = draw.wait(1 / crackles.rateHz());
            while (timeS < run.durationS()) {
                double strength =
                        base * draw.wait(crackles.meanMps2()) * (draw.chance(0.5) ? 1 : -1);
                Impacts.add(shake.impactsMps2, timeS * run.sampleRateHz(), strength);
                timeS += draw.wait(1 / crackles.rateHz());
            }
        }
    }
}

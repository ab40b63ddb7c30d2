package tickover.sim;

/**
 * Everything that repeats with a part's turn: run-out, slots, vanes, blades.
 *
 * @param perPeriod sum of harmonics, m/s² at idle
 * @param periodTurns turns of the part in one period of the table
 * @param load how it answers loads
 * @param speedExponent how it grows with speed
 */
record Tones(AngleTable perPeriod, double periodTurns, LoadGain load, double speedExponent)
        implements Shaker {
    @Override
    public void shake(Run run, PartMotion part, Draw draw, Shake shake) {
        double base = load.of(run.condition());
        double[] mean = run.meanTurns();
        double[] ripple = run.rippleTurns();
        double scale = part.ratio() / periodTurns;
        double rippleScale = scale * part.rippleShareRatio();
        double phase = part.phaseTurns() / periodTurns;
        for (int from = 0; from < run.count(); from += Run.BLOCK_SAMPLES) {
            double gain = base * run.speedGain(from / run.sampleRateHz(), speedExponent);
            int to = Math.min(run.count(), from + Run.BLOCK_SAMPLES);
            for (int i = from; i < to; i++) {
                double at = phase + scale * mean[i] + rippleScale * ripple[i];
                shake.directMps2[i] += gain * perPeriod.at(at);
            }
        }
    }
}

package tickover.sim;

/**
 * A damaged place on a belt passing one pulley: a strike as it comes onto the pulley and a weaker
 * one as it leaves.
 *
 * @param belt the belt's name
 * @param beltOrder belt turns per crank turn, creep taken off
 * @param entryTurns belt turns at which the damage reaches this pulley, modulo 1
 * @param wrapTurns belt turns that it then stays on the pulley
 * @param strengthMps2 ring amplitude, m/s² at idle
 * @param bumpMps2 slow push of the whole pulley, m/s²
 * @param load how it answers loads
 */
record BeltHits(
        String belt,
        double beltOrder,
        double entryTurns,
        double wrapTurns,
        double strengthMps2,
        double bumpMps2,
        LoadGain load)
        implements Shaker {
    private static final double SPEED_EXPONENT = 1;
    private static final double LEAVING_RATIO = 0.5;
    private static final double STRIKE_SIGMA_DB = 1.5;

    /** Length of the damaged place over the belt's length. */
    private static final double PATCH_TURNS = 0.008;

    @Override
    public void shake(Run run, PartMotion part, Draw draw, Shake shake) {
        double base = load.of(run.condition());
        // All pulleys of a belt see the same damage: its angle is drawn once per run and belt.
        double phase = run.draw("belt:" + belt).between(0, 1);
        PartMotion motion = new PartMotion(run.motion(), beltOrder, part.rippleShareRatio(), phase);
        double turn = Math.floor(motion.turnsAt(0)) - 1;
        double timeS = 0;
        while (timeS < run.durationS()) {
            timeS = motion.timeAt(turn + entryTurns);
            double gain =
                    base * draw.ratioOfDb(STRIKE_SIGMA_DB) * run.speedGain(timeS, SPEED_EXPONENT);
            double leavesS = motion.timeAt(turn + entryTurns + wrapTurns);
            double lastsS = motion.timeAt(turn + entryTurns + PATCH_TURNS) - timeS;
            add(run, shake, timeS, lastsS, gain);
            add(run, shake, leavesS, lastsS, gain * LEAVING_RATIO);
            turn++;
        }
    }

    private void add(Run run, Shake shake, double timeS, double lastsS, double gain) {
        Impacts.add(shake.impactsMps2, timeS * run.sampleRateHz(), gain * strengthMps2);
        int first = (int) Math.ceil(timeS * run.sampleRateHz());
        int last = (int) Math.floor((timeS + lastsS) * run.sampleRateHz());
        for (int i = Math.max(0, first); i <= Math.min(run.count() - 1, last); i++) {
            double x = (i / run.sampleRateHz() - timeS) / lastsS;
            shake.directMps2[i] += gain * bumpMps2 * Math.sin(2 * Math.PI * x);
        }
    }
}

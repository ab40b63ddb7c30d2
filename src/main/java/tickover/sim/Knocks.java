package tickover.sim;

/**
 * A part with play: it is thrown once per turn but lands hard only every second or third turn, with
 * the landing shifting a little, and it is shaken by the firing too. Gives fractions of the part's
 * turn and a long comb of harmonics.
 *
 * @param strengthMps2 ring amplitude of the hard knock, m/s² at idle
 * @param everyTurns turns between two hard knocks, 2 or 3
 * @param softRatio strength of the knocks in between over the hard one
 * @param firingsPerCrankTurn firing order, whose pulses throw the part too
 * @param thumpRatio low-frequency thump of the body over the ring amplitude
 * @param load how it answers loads
 */
record Knocks(
        double strengthMps2,
        int everyTurns,
        double softRatio,
        double firingsPerCrankTurn,
        double thumpRatio,
        LoadGain load)
        implements Shaker {
    private static final double SPEED_EXPONENT = 1;
    private static final double LANDING_SIGMA_TURNS = 0.02;
    private static final double FIRING_SHARE_RATIO = 0.15;
    private static final double KNOCK_SIGMA_DB = 2.5;

    /** Length of the body's thump, s. */
    private static final double THUMP_S = 0.006;

    @Override
    public void shake(Run run, PartMotion part, Draw draw, Shake shake) {
        double base = load.of(run.condition()) * strengthMps2;
        double landing = draw.between(0, 1);
        int slot = draw.whole(0, everyTurns - 1);
        double turn = Math.ceil(part.turnsAt(0));
        double timeS = 0;
        while (timeS < run.durationS()) {
            boolean hard = Math.floorMod((long) turn + slot, (long) everyTurns) == 0;
            timeS = part.timeAt(turn + landing + LANDING_SIGMA_TURNS * draw.gaussian());
            double strength =
                    base
                            * (hard ? 1 : softRatio)
                            * draw.ratioOfDb(KNOCK_SIGMA_DB)
                            * run.speedGain(timeS, SPEED_EXPONENT);
            Impacts.add(shake.impactsMps2, timeS * run.sampleRateHz(), strength);
            thump(run, shake, timeS, strength * thumpRatio);
            turn++;
        }
        double firing = Math.ceil(run.motion().turnsAt(0) * firingsPerCrankTurn);
        timeS = 0;
        while (timeS < run.durationS()) {
            timeS = run.motion().timeAt(firing / firingsPerCrankTurn, 1);
            double strength = base * FIRING_SHARE_RATIO * draw.ratioOfDb(KNOCK_SIGMA_DB);
            Impacts.add(shake.impactsMps2, timeS * run.sampleRateHz(), strength);
            firing++;
        }
    }

    private static void thump(Run run, Shake shake, double timeS, double peakMps2) {
        int first = (int) Math.ceil(timeS * run.sampleRateHz());
        int length = (int) (THUMP_S * run.sampleRateHz());
        for (int i = Math.max(0, first); i < Math.min(run.count(), first + length); i++) {
            double x = (i / run.sampleRateHz() - timeS) / THUMP_S;
            double rise = Math.sin(Math.PI * x);
            shake.directMps2[i] += peakMps2 * rise * rise * Math.cos(2 * Math.PI * x);
        }
    }
}

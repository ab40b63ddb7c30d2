package tickover.sim;

import tickover.drive.Condition;

/**
 * What all sources of one capture share: sample times, crank motion, condition. Arrays are shared
 * and read-only.
 */
final class Run {
    /** Gains that follow speed are held for so many samples. */
    static final int BLOCK_SAMPLES = 64;

    private final double sampleRateHz;
    private final int count;
    private final CrankMotion motion;
    private final Condition condition;
    private final double idleHz;
    private final Draw draw;
    private final double[] meanTurns;
    private final double[] rippleTurns;

    Run(
            double sampleRateHz,
            int count,
            CrankMotion motion,
            Condition condition,
            double idleHz,
            Draw draw) {
        this.sampleRateHz = sampleRateHz;
        this.count = count;
        this.motion = motion;
        this.condition = condition;
        this.idleHz = idleHz;
        this.draw = draw;
        this.meanTurns = new double[count];
        this.rippleTurns = new double[count];
        for (int i = 0; i < count; i++) {
            meanTurns[i] = motion.meanTurnsAt(i / sampleRateHz);
            rippleTurns[i] = motion.rippleAt(meanTurns[i]);
        }
    }

    double sampleRateHz() {
        return sampleRateHz;
    }

    int count() {
        return count;
    }

    double durationS() {
        return count / sampleRateHz;
    }

    CrankMotion motion() {
        return motion;
    }

    Condition condition() {
        return condition;
    }

    /** Draws of this capture for one source. */
    Draw draw(String label) {
        return draw.branch(label);
    }

    double[] meanTurns() {
        return meanTurns;
    }

    double[] rippleTurns() {
        return rippleTurns;
    }

    /** Mean speed over idle speed to a power: how a source's strength follows speed. */
    double speedGain(double timeS, double exponent) {
        return Math.pow(motion.meanSpeedHzAt(timeS) / idleHz, exponent);
    }
}

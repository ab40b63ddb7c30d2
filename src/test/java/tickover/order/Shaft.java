package tickover.order;

import java.util.Random;

/** Shafts of known motion that are harder to follow than a smooth run-up. */
enum Shaft {
    /** Idle whose speed wanders at random: torque differs from one firing to the next. */
    WANDER(0.007, 0, 0),
    /** Idle that hunts around its speed, and wanders a little. */
    HUNT(0.002, 0.015, 0),
    /** Idle with load steps: 5 % of speed within 0.3 s. */
    LOAD_STEPS(0, 0, 0.05),
    /** Both wandering a little and load steps. */
    WANDER_AND_STEPS(0.0014, 0, 0.05);

    /** Speed runs straight over such a step, s. */
    private static final double STEP_S = 1e-3;

    private static final double STEP_LENGTH_S = 0.3;
    private static final double WANDER_S = 1.5;
    private static final double HUNT_HZ = 0.6;

    private final double wanderRatio;
    private final double huntRatio;
    private final double loadRatio;

    Shaft(double wanderRatio, double huntRatio, double loadRatio) {
        this.wanderRatio = wanderRatio;
        this.huntRatio = huntRatio;
        this.loadRatio = loadRatio;
    }

    /** Times at which a load comes or goes: a third and two thirds. */
    static double[] stepsS(double durationS) {
        return new double[] {durationS / 3, 2 * durationS / 3};
    }

    RunUp run(double idleHz, double durationS, long seed) {
        Random random = new Random(seed);
        int before = 1000;
        int n = before + (int) Math.ceil((durationS + 1) / STEP_S) + 1;
        double[] speed = new double[n];
        double[] turns = new double[n];
        double wander = wanderRatio * random.nextGaussian();
        double huntPhase = 2 * Math.PI * random.nextDouble();
        double keep = Math.exp(-STEP_S / WANDER_S);
        double[] steps = stepsS(durationS);
        for (int i = 0; i < n; i++) {
            double t = (i - before) * STEP_S;
            double loaded = ramp(t - steps[0]) - ramp(t - steps[1]);
            double hunt = huntRatio * Math.sin(2 * Math.PI * HUNT_HZ * t + huntPhase);
            speed[i] = idleHz * (1 + wander + hunt) * (1 - loadRatio * loaded);
            wander = keep * wander;
            wander += wanderRatio * Math.sqrt(1 - keep * keep) * random.nextGaussian();
            if (i > 0) {
                turns[i] = turns[i - 1] + STEP_S * (speed[i] + speed[i - 1]) / 2;
            }
        }
        double zero = turns[before];
        return RunUp.of(
                durationS,
                t -> {
                    double place = t / STEP_S + before;
                    int i = Math.max(0, Math.min(n - 2, (int) Math.floor(place)));
                    double u = (place - i) * STEP_S;
                    double rise = (speed[i + 1] - speed[i]) / STEP_S;
                    return turns[i] - zero + speed[i] * u + rise * u * u / 2;
                });
    }

    private static double ramp(double sinceS) {
        return Math.max(0, Math.min(1, sinceS / STEP_LENGTH_S));
    }
}

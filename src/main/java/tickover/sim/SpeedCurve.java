package tickover.sim;

import tickover.drive.Condition;

/** Mean engine speed over a capture: idle with its governor, a held speed, a slow run-up. */
final class SpeedCurve {
    /** Run-in before the first sample, for readings that look back. */
    static final double BEFORE_S = 1.5;

    private static final double AFTER_S = 0.5;

    private SpeedCurve() {}

    /**
     * Draws the speed on the crank's grid, from {@link #BEFORE_S} before the first sample.
     *
     * @param plan what is being recorded
     * @param idleHz idle speed, Hz
     * @param habits draws of this engine: how its governor behaves
     * @param draw draws of this capture
     * @return mean speed, Hz, every {@link CrankMotion#STEP_S}
     */
    static double[] speedHz(CapturePlan plan, double idleHz, Draw habits, Draw draw) {
        int n = (int) Math.ceil((BEFORE_S + plan.durationS() + AFTER_S) / CrankMotion.STEP_S) + 2;
        double huntRatio = habits.between(0.001, 0.012);
        double huntHz = habits.between(0.3, 1.2);
        double roughRatio = habits.between(0.001, 0.006);
        double footRatio = draw.between(0.002, 0.012);
        double footHz = draw.between(0.15, 0.8);
        double phase = draw.between(0, 2 * Math.PI);
        double drift = draw.gaussian() * 0.003;
        double base =
                idleHz * (1 + idleShift(plan.condition(), habits)) * (1 + 0.004 * draw.gaussian());
        double rough = 0;
        double keep = Math.exp(-CrankMotion.STEP_S / 0.3);
        double kick = Math.sqrt(1 - keep * keep);
        double[] out = new double[n];
        for (int i = 0; i < n; i++) {
            double timeS = i * CrankMotion.STEP_S - BEFORE_S;
            double through = Math.max(0, Math.min(1, timeS / plan.durationS()));
            rough = keep * rough + kick * draw.gaussian();
            double idle =
                    base
                            * (1
                                    + huntRatio * Math.sin(2 * Math.PI * huntHz * timeS + phase)
                                    + drift * through
                                    + roughRatio * rough);
            double foot = 1 + footRatio * Math.sin(2 * Math.PI * footHz * timeS + phase);
            double smooth = through * through * (3 - 2 * through);
            out[i] =
                    switch (plan.regime()) {
                        case IDLE -> idle;
                        case HOLD -> plan.topHz() * foot * (1 + 0.3 * roughRatio * rough);
                        case SWEEP -> idle + (plan.topHz() - idle) * (0.3 * through + 0.7 * smooth);
                    };
        }
        return out;
    }

    /** Loads pull idle down or the controller lifts it, each engine in its own way. */
    private static double idleShift(Condition c, Draw habits) {
        double gear = habits.between(-0.1, -0.02);
        double aircon = habits.between(-0.02, 0.08);
        double current = habits.between(-0.015, 0.02);
        double steering = habits.between(-0.03, 0.02);
        return (c.driveGear() ? gear : 0)
                + (c.aircon() ? aircon : 0)
                + (c.headlights() ? current : 0)
                + (c.steering() ? steering : 0);
    }
}

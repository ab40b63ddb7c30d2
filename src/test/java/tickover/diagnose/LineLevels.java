package tickover.diagnose;

import java.util.Arrays;

/** Levels of lines as a capture's part levels are measured, for timing without a whole capture. */
public final class LineLevels {
    private LineLevels() {}

    /**
     * Measures lines.
     *
     * @param onAngle acceleration on an even angle grid, m/s²
     * @param stepsPerTurn grid steps per crank turn
     * @param parts orders of the lines of each part
     * @return rms level of each part, m/s²
     */
    public static double[] of(double[] onAngle, int stepsPerTurn, double[][] parts) {
        boolean[] usable = new boolean[onAngle.length];
        Arrays.fill(usable, true);
        SegmentPlan plan = SegmentPlan.of(usable, stepsPerTurn);
        LineMeter meter = new LineMeter(new double[][] {onAngle}, stepsPerTurn, plan, 0);
        double[] levels = new double[parts.length];
        for (int p = 0; p < parts.length; p++) {
            double[] sum = new double[plan.count()];
            for (double order : parts[p]) {
                double[] powers = meter.segmentPowers(order);
                for (int s = 0; s < sum.length; s++) {
                    sum[s] += powers[s];
                }
            }
            levels[p] = LineMeter.levelRmsMps2(sum);
        }
        return levels;
    }
}

package tickover.diagnose;

/**
 * How far one bin of a spectrum speaks for a line there: the likelihood of its power if there is a
 * line of unknown strength, over its likelihood if there is none.
 *
 * <p>Power over background of noise is exponential with mean 1; with a line of strength s it is
 * taken as exponential with mean 1 + s, s anywhere between 1 and {@value #STRONGEST} with even
 * chance per octave. Without the wanted line there may still be another's: in a share of {@value
 * #OTHERS_RATIO} of all bins. So no single line, however strong, says more than 1/{@value
 * #OTHERS_RATIO}.
 */
final class LineOdds {
    private static final double STRONGEST = 1000;
    private static final double OTHERS_RATIO = 0.02;

    /** Ratios from here on say the same. */
    private static final double TOP_RATIO = 40;

    private static final int STEPS_PER_RATIO = 20;
    private static final double[] TABLE = table();

    private LineOdds() {}

    /** Odds for a line at a bin whose power over background is {@code ratio}. */
    static double of(double ratio) {
        int i = (int) (Math.max(0, Math.min(TOP_RATIO, ratio)) * STEPS_PER_RATIO);
        return TABLE[i];
    }

    private static double[] table() {
        double[] out = new double[(int) (TOP_RATIO * STEPS_PER_RATIO) + 1];
        int points = 200;
        for (int i = 0; i < out.length; i++) {
            double ratio = (i + 0.5) / STEPS_PER_RATIO;
            double sum = 0;
            for (int p = 0; p < points; p++) {
                double s = Math.pow(STRONGEST, (p + 0.5) / points);
                sum += Math.exp(ratio * s / (1 + s)) / (1 + s) / points;
            }
            out[i] = sum / (1 - OTHERS_RATIO + OTHERS_RATIO * sum);
        }
        return out;
    }
}

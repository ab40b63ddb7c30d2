package tickover.diagnose;

/**
 * Exponentially weighted moving average against limits: a memory that fades, good at small lasting
 * shifts. {@code e[n] = weight x[n] + (1 - weight) e[n-1]}, from the target.
 *
 * <p>The limits are the exact ones at every n, {@code target ± limitSigmas scatter
 * sqrt(weight/(2-weight) (1-(1-weight)^(2n)))}: narrow at first, when little has been averaged.
 * Textbook formulas; checked against published series in {@code ControlChartReferenceTest}. One
 * thread.
 */
public final class EwmaChart {
    private final Spec spec;
    private double value;
    private int count;

    /**
     * What is watched for.
     *
     * @param target value of an unchanged process
     * @param scatter its standard deviation, &gt; 0
     * @param weight of the newest value, 0 &lt; weight &lt;= 1
     * @param limitSigmas width of the limits in standard deviations of the average, &gt; 0
     */
    public record Spec(double target, double scatter, double weight, double limitSigmas) {
        public Spec {
            if (!(scatter > 0 && weight > 0 && weight <= 1 && limitSigmas > 0)) {
                throw new IllegalArgumentException(
                        "scatter="
                                + scatter
                                + ", weight="
                                + weight
                                + ", limitSigmas="
                                + limitSigmas
                                + ", need scatter > 0, 0 < weight <= 1, limitSigmas > 0");
            }
        }
    }

    /**
     * Makes a chart that has seen nothing.
     *
     * @param spec what is watched for
     */
    public EwmaChart(Spec spec) {
        this.spec = spec;
        this.value = spec.target();
    }

    /**
     * Takes the next value.
     *
     * @param x the value
     * @return the average with it
     */
    public double add(double x) {
        value = spec.weight() * x + (1 - spec.weight()) * value;
        count++;
        return value;
    }

    /**
     * Returns the average.
     *
     * @return the target before the first value
     */
    public double value() {
        return value;
    }

    /**
     * Returns the standard deviation of the average, as it is after so many values.
     *
     * @return 0 before the first value
     */
    public double scatterOfValue() {
        double fade = Math.pow(1 - spec.weight(), 2.0 * count);
        return spec.scatter() * Math.sqrt(spec.weight() / (2 - spec.weight()) * (1 - fade));
    }

    /**
     * Returns the upper limit as it is now.
     *
     * @return the limit for this many values
     */
    public double upperLimit() {
        return spec.target() + spec.limitSigmas() * scatterOfValue();
    }

    /**
     * Returns the lower limit as it is now.
     *
     * @return the limit for this many values
     */
    public double lowerLimit() {
        return spec.target() - spec.limitSigmas() * scatterOfValue();
    }

    /**
     * Returns the upper limit after very many values.
     *
     * @return the widest limit
     */
    public double lastingUpperLimit() {
        return spec.target()
                + spec.limitSigmas()
                        * spec.scatter()
                        * Math.sqrt(spec.weight() / (2 - spec.weight()));
    }

    /**
     * Returns whether the average is outside its limits as they are now.
     *
     * @return true for a signal
     */
    public boolean signals() {
        return value > upperLimit() || value < lowerLimit();
    }
}

package tickover.order;

/**
 * What repeats with every turn of one part: the mean, at each angle of the part, over its turns.
 *
 * <p>With p the part's angle in its own turns, the average is {@code sum over k of sqrt(2) rms_k
 * cos(2 pi k p + phase_k)}, k = 1 … {@link #harmonics}; it has no constant. Harmonics that count as
 * another part's are 0. {@code p = ratio * crank turns}, so phases refer to angle zero of the
 * {@link ShaftAngle}; with a ratio that is not a whole number they are the part's own only within
 * one record.
 */
public final class SynchronousAverage {
    private final double turnsPerCrankTurn;
    private final int turns;
    private final int stepsPerTurn;
    private final double[] re;
    private final double[] im;
    private final double[] errorRms;

    /**
     * Takes the harmonics over.
     *
     * @param turnsPerCrankTurn of the part
     * @param turns of the part that were averaged
     * @param stepsPerTurn values per turn of the part that were averaged
     * @param re real parts of the amplitudes of harmonics 0 (not used), 1, 2, …
     * @param im imaginary parts
     * @param errorRms standard errors, as rms
     */
    SynchronousAverage(
            double turnsPerCrankTurn,
            int turns,
            int stepsPerTurn,
            double[] re,
            double[] im,
            double[] errorRms) {
        this.turnsPerCrankTurn = turnsPerCrankTurn;
        this.turns = turns;
        this.stepsPerTurn = stepsPerTurn;
        this.re = re;
        this.im = im;
        this.errorRms = errorRms;
    }

    /**
     * Returns how fast the part turns.
     *
     * @return turns per crank turn
     */
    public double turnsPerCrankTurn() {
        return turnsPerCrankTurn;
    }

    /**
     * Returns how many turns were averaged.
     *
     * @return turns of the part, &gt;= 2
     */
    public int turns() {
        return turns;
    }

    /**
     * Returns the number of harmonics.
     *
     * @return the highest k; its order is k times {@link #turnsPerCrankTurn}
     */
    public int harmonics() {
        return re.length - 1;
    }

    /**
     * The level of a harmonic.
     *
     * @param harmonic k, 1 to {@link #harmonics}
     * @return rms, m/s²; what noise adds is not taken off
     */
    public double rms(int harmonic) {
        require(harmonic);
        return Math.hypot(re[harmonic], im[harmonic]) / Math.sqrt(2);
    }

    /**
     * What the scatter from turn to turn leaves in a harmonic: rms that chance alone would show.
     *
     * @param harmonic k, 1 to {@link #harmonics}
     * @return rms, m/s²
     */
    public double errorRms(int harmonic) {
        require(harmonic);
        return errorRms[harmonic];
    }

    /**
     * The phase of a harmonic's cosine at angle zero.
     *
     * @param harmonic k, 1 to {@link #harmonics}
     * @return degrees, above -180 to 180
     */
    public double phaseDeg(int harmonic) {
        require(harmonic);
        return Math.toDegrees(Math.atan2(im[harmonic], re[harmonic]));
    }

    /**
     * The level of the average: root of the sum of the squares of all harmonics.
     *
     * @return rms, m/s²; what noise adds is not taken off
     */
    public double rms() {
        double squares = 0;
        for (int k = 1; k < re.length; k++) {
            squares += rms(k) * rms(k);
        }
        return Math.sqrt(squares);
    }

    /**
     * What the scatter from turn to turn leaves in the average: rms that chance alone would show.
     *
     * @return rms, m/s²
     */
    public double errorRms() {
        double squares = 0;
        for (int k = 1; k < errorRms.length; k++) {
            squares += errorRms[k] * errorRms[k];
        }
        return Math.sqrt(squares);
    }

    /**
     * The average over one turn.
     *
     * @param count values, &gt;= 2 {@link #harmonics} + 1
     * @return value i belongs to part angle i/{@code count} turns, m/s²
     */
    public double[] overOneTurn(int count) {
        if (!(count >= 2 * harmonics() + 1)) {
            throw new IllegalArgumentException(
                    "count=" + count + ", need >= " + (2 * harmonics() + 1));
        }
        return PartTurn.of(re, im, count);
    }

    /**
     * How much of a line that is not the part's own stays in a harmonic of the average, over the
     * line's rms.
     *
     * <p>With N turns of M steps and {@code r = order / turnsPerCrankTurn} it is the comb filter
     * {@code |sin(pi N (r - k)) / (N M sin(pi (r - k) / M))|}: 1 for r = k, 0 for every other order
     * that makes whole cycles in N turns, at most 1/(pi N |r - k|) far from it.
     *
     * @param order of the line, per crank turn
     * @param harmonic k, 1 to {@link #harmonics}
     * @return gain, 0 to 1
     */
    public double combGain(double order, int harmonic) {
        require(harmonic);
        double away = order / turnsPerCrankTurn - harmonic;
        double below = turns * stepsPerTurn * Math.sin(Math.PI * away / stepsPerTurn);
        return away == 0 ? 1 : Math.abs(Math.sin(Math.PI * turns * away) / below);
    }

    double[] re() {
        return re;
    }

    double[] im() {
        return im;
    }

    private void require(int harmonic) {
        if (!(harmonic >= 1 && harmonic < re.length)) {
            throw new IllegalArgumentException(
                    "harmonic=" + harmonic + ", need 1 to " + (re.length - 1));
        }
    }
}

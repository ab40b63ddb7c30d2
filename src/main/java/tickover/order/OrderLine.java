package tickover.order;

/**
 * What one order contributes to a record: {@code x = sqrt(2) rms cos(2 pi order turns + phase)}.
 *
 * @param order per crank turn, &gt; 0
 * @param rms mean over the record, m/s², &gt;= 0, with the power of the noise beside it taken off
 * @param standardError one standard error of {@code rms}, m/s²
 * @param phaseDeg phase of the cosine at angle zero, degrees, above -180 to 180; the mean over the
 *     record, weighted by amplitude
 */
public record OrderLine(double order, double rms, double standardError, double phaseDeg) {
    public OrderLine {
        if (!(order > 0 && rms >= 0 && standardError >= 0 && phaseDeg >= -180 && phaseDeg <= 180)) {
            throw new IllegalArgumentException(
                    "order="
                            + order
                            + ", rms="
                            + rms
                            + ", standardError="
                            + standardError
                            + ", phaseDeg="
                            + phaseDeg
                            + ", need order > 0, levels >= 0 and a phase within 180 degrees");
        }
    }
}

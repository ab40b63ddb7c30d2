package tickover.diagnose;

import java.util.Objects;

/**
 * One part's level in one capture of one visit, as it came out of an analysis.
 *
 * @param visit which visit
 * @param part a pulley's name, {@code belt:NAME}, {@code engine}, {@code injectors}
 * @param label what the capture was of
 * @param meanSpeedRpm mean crank speed of the capture, rpm, &gt; 0
 * @param levelRmsMps2 rms of the part's unshared lines, m/s², &gt;= 0
 * @param standardErrorMps2 its standard error, m/s², &gt;= 0
 * @param codeVersion version of the program that made it
 */
public record MeasuredLevel(
        VisitMoment visit,
        String part,
        CaptureLabel label,
        double meanSpeedRpm,
        double levelRmsMps2,
        double standardErrorMps2,
        String codeVersion) {
    public MeasuredLevel {
        Objects.requireNonNull(visit, "visit");
        Objects.requireNonNull(part, "part");
        Objects.requireNonNull(label, "label");
        Objects.requireNonNull(codeVersion, "codeVersion");
        if (!(levelRmsMps2 >= 0 && standardErrorMps2 >= 0 && meanSpeedRpm >= 0)) {
            throw new IllegalArgumentException(
                    "levelRmsMps2="
                            + levelRmsMps2
                            + ", standardErrorMps2="
                            + standardErrorMps2
                            + " m/s², meanSpeedRpm="
                            + meanSpeedRpm
                            + " rpm, need >= 0");
        }
    }

    /**
     * Returns the level to reason with. One below its error is only known to be below that, so the
     * error stands for it and no change is overstated.
     *
     * @return m/s², &gt;= 0
     */
    public double knownRmsMps2() {
        return Math.max(levelRmsMps2, standardErrorMps2);
    }
}

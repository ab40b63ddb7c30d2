package tickover.diagnose;

import java.util.List;
import java.util.Objects;

/**
 * What the search for one pattern came to.
 *
 * @param order where the pattern fits best, per turn of the reference
 * @param deviationRatio how far that is from nominal, as a share of nominal
 * @param evidenceNats minus the natural logarithm of the false-alarm probability
 * @param strengthDb mean power of the harmonics over the background, dB, in the best band
 * @param modulationRatio root of the summed squares of the harmonics' modulation of the squared
 *     envelope, relative to its mean: about 0.1 and below in sound bearings, near 1 for clear
 *     damage
 * @param patternRmsMps2 rms acceleration that comes and goes in this rhythm, m/s², in the best band
 * @param band the best band and its channel
 * @param lines every line that was looked at, in the best band
 */
public record CombFinding(
        double order,
        double deviationRatio,
        double evidenceNats,
        double strengthDb,
        double modulationRatio,
        double patternRmsMps2,
        SignalBand band,
        List<CombLine> lines) {
    public CombFinding {
        Objects.requireNonNull(band, "band");
        lines = List.copyOf(lines);
    }

    /** The same with no more evidence than that: something else explains it. */
    CombFinding withAtMost(double nats) {
        return new CombFinding(
                order,
                deviationRatio,
                Math.min(nats, evidenceNats),
                strengthDb,
                modulationRatio,
                patternRmsMps2,
                band,
                lines);
    }

    /**
     * Returns how likely a spectrum like this one shows a pattern as strong as this somewhere
     * within the tolerance although nothing makes it. Learnt from the same spectrum at orders that
     * no part of the bearing makes, so lines of neighbours count as chance.
     *
     * @return 0 to 1
     */
    public double falseAlarmProbability() {
        return Math.min(1, Math.exp(-evidenceNats));
    }
}

package tickover.diagnose;

import java.util.Objects;

/**
 * What was found of one fault's pattern.
 *
 * @param fault as in {@link BenchLine#fault}
 * @param orderFound where it fits best, per turn of the bearing
 * @param deviationRatio how far from the kinematic order, as a share of it
 * @param strengthDb mean of its harmonics over the background, dB
 * @param modulationRatio by which share of its mean the squared envelope swings in its rhythm
 * @param levelRmsMps2 rms acceleration that comes and goes in its rhythm, m/s²
 * @param falseAlarmProbability how often this spectrum shows as much where nothing can be
 * @param band the band and channel in which it stands best
 */
public record BenchPattern(
        String fault,
        double orderFound,
        double deviationRatio,
        double strengthDb,
        double modulationRatio,
        double levelRmsMps2,
        double falseAlarmProbability,
        SignalBand band) {
    public BenchPattern {
        Objects.requireNonNull(fault, "fault");
        Objects.requireNonNull(band, "band");
    }
}

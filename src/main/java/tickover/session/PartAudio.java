package tickover.session;

import java.util.List;
import java.util.Objects;
import tickover.dsp.AWeighting;

/**
 * The sound of one part alone, ready to be played or written. Owns its samples; nobody may write to
 * them.
 */
public final class PartAudio {
    private final String part;
    private final double sampleRateHz;
    private final double[] accelMps2;
    private final String rhythm;
    private final List<String> notes;

    PartAudio(
            String part,
            double sampleRateHz,
            double[] accelMps2,
            String rhythm,
            List<String> notes) {
        this.rhythm = Objects.requireNonNull(rhythm, "rhythm");
        this.part = Objects.requireNonNull(part, "part");
        this.sampleRateHz = sampleRateHz;
        this.accelMps2 = Objects.requireNonNull(accelMps2, "accelMps2");
        this.notes = List.copyOf(notes);
    }

    /**
     * Returns whose sound it is.
     *
     * @return a pulley's name, or {@code engine}
     */
    public String part() {
        return part;
    }

    /**
     * Returns the sample rate.
     *
     * @return Hz
     */
    public double sampleRateHz() {
        return sampleRateHz;
    }

    /**
     * Returns the samples, shared and read-only.
     *
     * @return m/s²
     */
    public double[] accelMps2() {
        return accelMps2;
    }

    /**
     * Returns the kind of line in whose rhythm it rings.
     *
     * @return such as {@code bearing-outer-ring}; empty without ringing
     */
    public String rhythm() {
        return rhythm;
    }

    /**
     * Returns what it is made of and what it is worth.
     *
     * @return one sentence each
     */
    public List<String> notes() {
        return notes;
    }

    /**
     * Returns its level.
     *
     * @return rms, m/s²
     */
    public double rmsMps2() {
        double sum = 0;
        for (double x : accelMps2) {
            sum += x * x;
        }
        return Math.sqrt(sum / accelMps2.length);
    }

    /** Level as the ear weighs it, rms, m/s². */
    double weightedMps2() {
        return AWeighting.rms(accelMps2, sampleRateHz);
    }

    double peakMps2() {
        double peak = 0;
        for (double x : accelMps2) {
            peak = Math.max(peak, Math.abs(x));
        }
        return peak;
    }
}

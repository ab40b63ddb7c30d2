package tickover.order;

/** What a track is made from: the samples that the angle covers, less those that are left out. */
final class TrackInput {
    private final double[] x;
    private final double sampleRateHz;
    private final ShaftAngle angle;
    private final int first;
    private final int count;
    private final SampleGaps gaps;

    /**
     * Takes the values over.
     *
     * @param x the whole record, m/s², read-only
     * @param sampleRateHz samples per second, Hz
     * @param angle shaft angle
     * @param first first sample that the angle covers
     * @param count samples from there on that it covers
     * @param gaps samples that are left out
     */
    TrackInput(
            double[] x,
            double sampleRateHz,
            ShaftAngle angle,
            int first,
            int count,
            SampleGaps gaps) {
        this.x = x;
        this.sampleRateHz = sampleRateHz;
        this.angle = angle;
        this.first = first;
        this.count = count;
        this.gaps = gaps;
    }

    double[] x() {
        return x;
    }

    double sampleRateHz() {
        return sampleRateHz;
    }

    ShaftAngle angle() {
        return angle;
    }

    int first() {
        return first;
    }

    int count() {
        return count;
    }

    SampleGaps gaps() {
        return gaps;
    }

    /** Speeds are looked at once in so many samples. */
    private static final int SPEED_STEP_SAMPLES = 64;

    static TrackInput of(double[] x, double sampleRateHz, ShaftAngle angle, SampleGaps gaps) {
        double last = Math.min(x.length - 1, Math.floor(angle.endS() * sampleRateHz));
        double first = Math.max(0, Math.ceil(angle.startS() * sampleRateHz));
        // The products may round to a sample that lies just outside.
        if (first / sampleRateHz < angle.startS()) {
            first++;
        }
        if (last / sampleRateHz > angle.endS()) {
            last--;
        }
        int count = (int) Math.max(0, last - first + 1);
        return new TrackInput(x, sampleRateHz, angle, (int) first, count, gaps);
    }

    /** Length of what is covered, s. */
    double lengthS() {
        return count / sampleRateHz;
    }

    /** Speed at a place counted from the first covered sample, held beyond the last, Hz. */
    double speedHzAt(long place) {
        return angle.speedHzAt((first + (int) Math.min(place, count - 1)) / sampleRateHz);
    }

    /** Lowest and highest speed, Hz. */
    double[] speedLimitsHz() {
        double[] limits = {Double.MAX_VALUE, 0};
        for (long i = 0; i < count + SPEED_STEP_SAMPLES; i += SPEED_STEP_SAMPLES) {
            double speed = speedHzAt(i);
            limits[0] = Math.min(limits[0], speed);
            limits[1] = Math.max(limits[1], speed);
        }
        return limits;
    }

    /**
     * Phase of a line, turns, for a run of samples.
     *
     * @param turns shaft angle of those samples, turns
     * @param from place of the first, counted from the first covered sample
     */
    void phaseTurns(TrackedLine line, double[] turns, int from, int samples, double[] phase) {
        double order = line.order();
        double toneHz = line.toneHz();
        if (toneHz == 0) {
            for (int i = 0; i < samples; i++) {
                phase[i] = order * turns[i];
            }
            return;
        }
        for (int i = 0; i < samples; i++) {
            phase[i] = order * turns[i] + toneHz * ((first + from + i) / sampleRateHz);
        }
    }
}

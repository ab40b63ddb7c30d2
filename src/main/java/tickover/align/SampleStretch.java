package tickover.align;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;

/** What is known of samples that follow one another without a gap, but for the samples. */
final class SampleStretch {
    private final SampleRun first;
    private final ProbeStart start;
    private final boolean stamped;
    private double[] at = new double[64];
    private double[] stamps = new double[64];
    private int runs;
    private int count;
    private final List<int[]> limits = new ArrayList<>();

    SampleStretch(SampleRun first, ProbeStart start) {
        this.first = first;
        this.start = start;
        this.stamped = !start.samplesFollowTicks();
        add(first);
    }

    boolean isFollowedBy(SampleRun run) {
        return run.segment() == first.segment()
                && run.axes() == first.axes()
                && run.firstSample() == first.firstSample() + count;
    }

    void add(SampleRun run) {
        if (stamped) {
            if (runs == at.length) {
                at = Arrays.copyOf(at, 2 * runs);
                stamps = Arrays.copyOf(stamps, 2 * runs);
            }
            at[runs] = count;
            stamps[runs] = (double) run.firstTick().value();
        }
        runs++;
        if (run.atLimit()) {
            int[] last = limits.isEmpty() ? null : limits.get(limits.size() - 1);
            if (last != null && last[1] == count) {
                last[1] += run.count();
            } else {
                limits.add(new int[] {count, count + run.count()});
            }
        }
        count += run.count();
    }

    /** Samples of each axis. */
    int count() {
        return count;
    }

    int axes() {
        return first.axes();
    }

    int segment() {
        return first.segment();
    }

    long firstSample() {
        return first.firstSample();
    }

    SampleRun first() {
        return first;
    }

    double tickHz() {
        return start.tickHz();
    }

    List<CapturePiece.Stretch> atLimit(double rateHz) {
        return limits.stream()
                .map(l -> new CapturePiece.Stretch(l[0] / rateHz, l[1] / rateHz))
                .toList();
    }

    SampleClock clock() {
        if (!stamped || runs < 2) {
            double each =
                    start.ticksPerSample() > 0 ? start.ticksPerSample() : start.tickHz() / 1000;
            return SampleClock.exact((double) first.firstTick().value(), each);
        }
        return SampleClock.fitted(
                Arrays.copyOf(at, runs), Arrays.copyOf(stamps, runs), start.tickHz());
    }
}

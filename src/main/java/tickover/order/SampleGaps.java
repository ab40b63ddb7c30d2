package tickover.order;

import java.util.Arrays;
import java.util.List;

/** Which samples of a record are left out, as rising stretches of sample numbers. */
final class SampleGaps {
    /** Samples of one stretch: from the first, up to but not including the end. */
    private final int[] firsts;

    private final int[] ends;

    /**
     * Turns times into samples. A sample at either edge of a range is left out.
     *
     * @param ranges on the samples' time base, in any order
     * @param sampleRateHz samples per second, Hz; sample 0 is taken at 0 s
     * @param length samples in the record
     */
    SampleGaps(List<TimeRange> ranges, double sampleRateHz, int length) {
        List<TimeRange> joined = TimeRange.joined(ranges, 0);
        firsts = new int[joined.size()];
        ends = new int[joined.size()];
        for (int g = 0; g < firsts.length; g++) {
            TimeRange range = joined.get(g);
            firsts[g] = limited(Math.ceil(range.fromS() * sampleRateHz), length);
            ends[g] = limited(Math.floor(range.toS() * sampleRateHz) + 1, length);
        }
    }

    private static int limited(double sample, int length) {
        return (int) Math.max(0, Math.min(length, sample));
    }

    /** How many samples of a stretch are left out. */
    int count(int first, int end) {
        int sum = 0;
        for (int g = firstAfter(first); g < firsts.length && firsts[g] < end; g++) {
            sum += Math.max(0, Math.min(end, ends[g]) - Math.max(first, firsts[g]));
        }
        return sum;
    }

    /** Sets to zero the values of samples that are left out; the first value is of a sample. */
    void zero(double[] values, int first, int count) {
        int end = first + count;
        for (int g = firstAfter(first); g < firsts.length && firsts[g] < end; g++) {
            int from = Math.max(first, firsts[g]);
            int to = Math.min(end, ends[g]);
            if (from < to) {
                Arrays.fill(values, from - first, to - first, 0);
            }
        }
    }

    /** The first stretch that ends after a sample. */
    private int firstAfter(int sample) {
        int lo = 0;
        int hi = ends.length;
        while (lo < hi) {
            int mid = (lo + hi) >>> 1;
            if (ends[mid] > sample) {
                hi = mid;
            } else {
                lo = mid + 1;
            }
        }
        return lo;
    }
}

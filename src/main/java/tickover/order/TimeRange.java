package tickover.order;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;

/**
 * A stretch of time on some capture's own base.
 *
 * @param fromS where it begins, s
 * @param toS where it ends, s, not before it begins
 */
public record TimeRange(double fromS, double toS) {
    public TimeRange {
        if (!(Double.isFinite(fromS) && Double.isFinite(toS) && fromS <= toS)) {
            throw new IllegalArgumentException(
                    "fromS=" + fromS + ", toS=" + toS + ", need finite times, fromS <= toS");
        }
    }

    /**
     * Returns how long it is.
     *
     * @return s
     */
    public double lengthS() {
        return toS - fromS;
    }

    /**
     * Returns whether it has anything in common with another, a single moment included.
     *
     * @param otherFromS where the other begins, s
     * @param otherToS where the other ends, s
     * @return true if so
     */
    public boolean meets(double otherFromS, double otherToS) {
        return fromS <= otherToS && otherFromS <= toS;
    }

    /**
     * Sorts ranges and joins those that overlap or lie close.
     *
     * @param ranges in any order
     * @param gapS ranges no further apart than this are one, s
     * @return rising, further apart than the gap
     */
    public static List<TimeRange> joined(List<TimeRange> ranges, double gapS) {
        List<TimeRange> sorted = new ArrayList<>(ranges);
        sorted.sort(Comparator.comparingDouble(TimeRange::fromS));
        List<TimeRange> out = new ArrayList<>();
        for (TimeRange next : sorted) {
            TimeRange last = out.isEmpty() ? null : out.get(out.size() - 1);
            if (last != null && next.fromS - last.toS <= gapS) {
                out.set(out.size() - 1, new TimeRange(last.fromS, Math.max(last.toS, next.toS)));
            } else {
                out.add(next);
            }
        }
        return List.copyOf(out);
    }

    /**
     * Adds up ranges that do not overlap.
     *
     * @param ranges as {@link #joined} gives them
     * @return s
     */
    public static double totalS(List<TimeRange> ranges) {
        return ranges.stream().mapToDouble(TimeRange::lengthS).sum();
    }
}

package tickover.diagnose;

import java.util.List;
import java.util.Locale;
import java.util.stream.Collectors;
import tickover.order.TimeRange;

/** Puts time ranges into words. */
final class QualityWords {
    /** So many places are named; where there are more, one fewer and the number of the others. */
    private static final int NAMED = 3;

    /** Shorter than this is a moment, named by its middle, s. */
    private static final double MOMENT_S = 0.3;

    private QualityWords() {}

    /** When: "at 3.2 s, from 4.0 s to 5.1 s and at 5 more places". */
    static String when(List<TimeRange> ranges) {
        boolean all = ranges.size() <= NAMED;
        List<String> named =
                ranges.stream()
                        .limit(all ? NAMED : NAMED - 1)
                        .map(QualityWords::when)
                        .collect(Collectors.toList());
        if (!all) {
            named.add(String.format(Locale.ROOT, "at %d more places", ranges.size() - NAMED + 1));
        }
        String last = named.remove(named.size() - 1);
        return named.isEmpty() ? last : String.join(", ", named) + " and " + last;
    }

    private static String when(TimeRange range) {
        return range.lengthS() < MOMENT_S
                ? say("at %.1f s", (range.fromS() + range.toS()) / 2)
                : say("from %.1f s to %.1f s", range.fromS(), range.toS());
    }

    static String say(String format, Object... values) {
        return String.format(Locale.ROOT, format, values);
    }
}

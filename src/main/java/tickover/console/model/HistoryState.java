package tickover.console.model;

import java.util.List;
import java.util.Objects;
import java.util.Optional;
import tickover.diagnose.VehicleTrend;

/**
 * What the history screen shows.
 *
 * @param fleet what needs a look most comes first
 * @param unit which vehicle is looked at; empty if none is
 * @param series its parts' levels, those that need a look first
 * @param picked which of them is drawn; 0 if there is none
 * @param marks repairs and notes, oldest first, one sentence each
 */
public record HistoryState(
        List<Standing> fleet, String unit, List<Series> series, int picked, List<String> marks) {
    /** Nothing to show yet. */
    public static final HistoryState EMPTY =
            new HistoryState(List.of(), "", List.of(), 0, List.of());

    /**
     * How one vehicle stands.
     *
     * @param unit how the fleet calls it
     * @param urgency 0 nothing to 3 look at once
     * @param seen when it was seen last and how often, in words
     * @param reasons why it needs a look, one sentence each
     */
    public record Standing(String unit, int urgency, String seen, List<String> reasons) {
        public Standing {
            Objects.requireNonNull(unit, "unit");
            Objects.requireNonNull(seen, "seen");
            reasons = List.copyOf(reasons);
        }

        /**
         * Says how urgent a look is.
         *
         * @return a few words
         */
        public String urgencyWords() {
            return switch (urgency) {
                case 0 -> "nothing calls for a look";
                case 1 -> "something is open";
                case 2 -> "needs a look";
                default -> "look at it first";
            };
        }
    }

    /**
     * One part's level at one place.
     *
     * @param name part and place, in words
     * @param judged the level over the visits, as it was judged
     * @param sentences what it does, most important first
     */
    public record Series(String name, VehicleTrend.Judged judged, List<String> sentences) {
        public Series {
            Objects.requireNonNull(name, "name");
            Objects.requireNonNull(judged, "judged");
            sentences = List.copyOf(sentences);
        }
    }

    public HistoryState {
        fleet = List.copyOf(fleet);
        Objects.requireNonNull(unit, "unit");
        series = List.copyOf(series);
        marks = List.copyOf(marks);
    }

    /**
     * Returns the series that is drawn.
     *
     * @return empty if there is none
     */
    public Optional<Series> shown() {
        return series.isEmpty() ? Optional.empty() : Optional.of(series.get(picked));
    }

    HistoryState withPicked(int index) {
        return new HistoryState(fleet, unit, series, index, marks);
    }
}

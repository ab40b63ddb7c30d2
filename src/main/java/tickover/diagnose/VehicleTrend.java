package tickover.diagnose;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;

/**
 * How every part of one vehicle stands to its own past, over all places and loads at once.
 *
 * <p>Many series are looked at, so some stand out by chance. Of those that the last visit has added
 * to, the chances are put right by Holm's method: a vehicle of which no part has changed is called
 * at most at {@link #FALSE_ALARMS_PER_VISIT} of its visits.
 */
public final class VehicleTrend {
    /** Highest share of visits with any false alarm, over all parts, of an unchanged vehicle. */
    public static final double FALSE_ALARMS_PER_VISIT = 0.05;

    private final LikeWithLike sorted;
    private final ScatterPrior prior;
    private final List<Judged> all;
    private final int asked;

    /**
     * One series in the light of all.
     *
     * @param trend what it says alone
     * @param adjustedChance how often any of the last visit's series of an unchanged vehicle would
     *     look as much like rising, 0..1; 1 if the last visit did not add to it or nothing could be
     *     asked
     */
    public record Judged(SeriesTrend trend, double adjustedChance) {
        /**
         * Returns whether the part needs a look.
         *
         * @return true if so much rise is hardly chance
         */
        public boolean needsAttention() {
            return adjustedChance <= FALSE_ALARMS_PER_VISIT;
        }
    }

    private VehicleTrend(LikeWithLike sorted, ScatterPrior prior, List<Judged> all, int asked) {
        this.sorted = sorted;
        this.prior = prior;
        this.all = List.copyOf(all);
        this.asked = asked;
    }

    /**
     * Judges a vehicle.
     *
     * @param levels everything measured on it, oldest visit first
     * @param marks its repairs, in any order
     * @return the judgement
     */
    public static VehicleTrend of(List<MeasuredLevel> levels, List<RepairMark> marks) {
        LikeWithLike sorted = LikeWithLike.of(levels);
        List<ScatterPrior.Own> own = new ArrayList<>();
        for (LevelSeries s : sorted.series()) {
            SeriesTrend.ownScatter(s, marks).ifPresent(own::add);
        }
        ScatterPrior prior = ScatterPrior.of(own);
        List<SeriesTrend> trends = new ArrayList<>();
        for (LevelSeries s : sorted.series()) {
            trends.add(SeriesTrend.of(s, marks, prior));
        }
        Optional<VisitMoment> last =
                levels.isEmpty()
                        ? Optional.empty()
                        : Optional.of(levels.get(levels.size() - 1).visit());
        int[] tested = new int[trends.size()];
        double[] chances = new double[trends.size()];
        int count = 0;
        for (int i = 0; i < trends.size(); i++) {
            SeriesTrend t = trends.get(i);
            boolean fresh =
                    last.map(v -> v.id().equals(t.series().newest().visit().id())).orElse(false);
            if (fresh && t.chanceOfRise().isPresent()) {
                tested[count] = i;
                chances[count++] = t.chanceOfRise().getAsDouble();
            }
        }
        double[] adjusted = new double[trends.size()];
        Arrays.fill(adjusted, 1);
        double[] right = Holm.adjust(Arrays.copyOf(chances, count));
        for (int i = 0; i < count; i++) {
            adjusted[tested[i]] = right[i];
        }
        List<Judged> all = new ArrayList<>();
        for (int i = 0; i < trends.size(); i++) {
            all.add(new Judged(trends.get(i), adjusted[i]));
        }
        return new VehicleTrend(sorted, prior, all, count);
    }

    /**
     * Returns the series, judged.
     *
     * @return each part's own point first, then by number of visits
     */
    public List<Judged> series() {
        return all;
    }

    /**
     * Returns the series of one part.
     *
     * @param part as {@link PartLevel#part}
     * @return the one to look at first comes first; empty if the part was never measured
     */
    public List<Judged> of(String part) {
        return all.stream().filter(j -> j.trend().series().place().part().equals(part)).toList();
    }

    /**
     * Returns the parts that were ever measured.
     *
     * @return in the order of {@link #series}
     */
    public List<String> parts() {
        return all.stream().map(j -> j.trend().series().place().part()).distinct().toList();
    }

    /**
     * Returns how much levels scatter from visit to visit on this vehicle.
     *
     * @return {@link ScatterPrior#NONE} if its series are too few or too short
     */
    public ScatterPrior prior() {
        return prior;
    }

    /**
     * Returns how many series were asked at the last visit.
     *
     * @return what the chances are put right for
     */
    public int asked() {
        return asked;
    }

    /**
     * Returns how the levels were sorted, and what was left out.
     *
     * @return the sorting
     */
    public LikeWithLike sorted() {
        return sorted;
    }
}

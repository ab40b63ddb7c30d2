package tickover.diagnose;

import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import java.util.Optional;
import java.util.OptionalDouble;

/**
 * What one series of levels says: how the newest stands to the earlier ones since the last repair,
 * whether a small shift lasts, and how fast the level rises. Everything is in decibels re 1 m/s² of
 * part level, because levels scatter by a share of themselves.
 *
 * <p><b>Few visits.</b> A visit is held against the mean of the earlier ones by Student's t with
 * {@code sqrt(1 + 1/n)} and the scatter's own degrees of freedom; it becomes the normal score of
 * the same chance. These scores are independent and standard normal as long as nothing changes,
 * however short the series, so the moving average and the cumulative sum run over them with their
 * textbook limits.
 */
public final class SeriesTrend {
    /** Two-sided confidence of every interval and limit shown. */
    public static final double CONFIDENCE = 0.95;

    /** Fewer visits bear no interval of a rate: even a strict order of four is no surprise. */
    public static final int FEWEST_FOR_RATE = 5;

    private static final double DAYS_PER_YEAR = 365.25;
    private static final double RATE_KM = 10_000;

    private final LevelSeries series;
    private final RepairMark restart;
    private final List<LevelSeries.Point> current;
    private final List<LevelSeries.Point> strays;
    private final LevelBaseline baseline;
    private final NewestLevel newest;
    private final LastingShift lasting;
    private final MannKendall order;

    private SeriesTrend(LevelSeries series, RepairMark restart, ScatterPrior prior) {
        this.series = series;
        this.restart = restart;
        current = since(series, restart);
        List<LevelSeries.Point> earlier = current.subList(0, Math.max(0, current.size() - 1));
        strays = LevelBaseline.strays(earlier, prior);
        List<LevelSeries.Point> kept = new ArrayList<>(earlier);
        kept.removeAll(strays);
        baseline = LevelBaseline.of(first(kept), prior).orElse(null);
        newest =
                baseline == null
                        ? null
                        : NewestLevel.of(baseline, current.get(current.size() - 1).levelDb());
        lasting = LastingShift.of(current, strays, prior).orElse(null);
        order = current.size() >= FEWEST_FOR_RATE ? MannKendall.of(levels(current)) : null;
    }

    /**
     * Judges a series.
     *
     * @param series the levels
     * @param marks repairs of the vehicle, in any order
     * @param prior how much levels scatter from visit to visit elsewhere on the vehicle
     * @return the judgement
     */
    public static SeriesTrend of(LevelSeries series, List<RepairMark> marks, ScatterPrior prior) {
        Objects.requireNonNull(prior, "prior");
        return new SeriesTrend(series, restart(series, marks), prior);
    }

    /** The last repair that concerns a series; null if there is none. */
    static RepairMark restart(LevelSeries series, List<RepairMark> marks) {
        RepairMark last = null;
        for (RepairMark m : marks) {
            boolean later = last == null || m.at().isAfter(last.at());
            last = m.concerns(series.place().part()) && later ? m : last;
        }
        return last;
    }

    /** The visits after a repair; all of them if it is null. */
    static List<LevelSeries.Point> since(LevelSeries series, RepairMark restart) {
        return series.points().stream()
                .filter(p -> restart == null || p.visit().date().isAfter(restart.at()))
                .toList();
    }

    private static List<LevelSeries.Point> first(List<LevelSeries.Point> points) {
        return points.subList(0, Math.min(points.size(), LevelBaseline.MOST_VISITS));
    }

    /** Scatter of the visits before the newest, for the prior; empty if there is none. */
    static Optional<ScatterPrior.Own> ownScatter(LevelSeries series, List<RepairMark> marks) {
        List<LevelSeries.Point> current = since(series, restart(series, marks));
        double[] earlier = levels(first(current.subList(0, Math.max(0, current.size() - 1))));
        return earlier.length < 2
                ? Optional.empty()
                : Optional.of(
                        new ScatterPrior.Own(
                                earlier.length - 1,
                                Math.sqrt(LevelBaseline.squares(earlier) / (earlier.length - 1))));
    }

    static double[] levels(List<LevelSeries.Point> points) {
        return points.stream().mapToDouble(LevelSeries.Point::levelDb).toArray();
    }

    private Optional<TheilSen> rate(double[] at) {
        boolean moves = at[at.length - 1] > at[0];
        for (int i = 1; i < at.length; i++) {
            moves &= at[i] >= at[i - 1];
        }
        return moves ? Optional.of(TheilSen.of(at, levels(current), CONFIDENCE)) : Optional.empty();
    }

    private double years(LevelSeries.Point p) {
        return ChronoUnit.SECONDS.between(series.points().get(0).visit().date(), p.visit().date())
                / (DAYS_PER_YEAR * 86_400);
    }

    /**
     * Returns the levels that were judged.
     *
     * @return all of them, also those before a repair
     */
    public LevelSeries series() {
        return series;
    }

    /**
     * Returns the repair with which the baseline began anew.
     *
     * @return empty if none is marked
     */
    public Optional<RepairMark> restart() {
        return Optional.ofNullable(restart);
    }

    /**
     * Returns the visits since the baseline began.
     *
     * @return oldest first; empty if there was no visit since the repair
     */
    public List<LevelSeries.Point> current() {
        return current;
    }

    /**
     * Returns earlier visits that stand so far out of the others that they are left out of the
     * baseline.
     *
     * @return oldest first
     */
    public List<LevelSeries.Point> strays() {
        return strays;
    }

    /**
     * Returns what the newest visit is held against.
     *
     * @return empty with too few visits
     */
    public Optional<LevelBaseline> baseline() {
        return Optional.ofNullable(baseline);
    }

    /**
     * Returns how the newest visit stands to it.
     *
     * @return empty with too few visits
     */
    public Optional<NewestLevel> newest() {
        return Optional.ofNullable(newest);
    }

    /**
     * Returns how far the newest visit stands from the earlier ones, however few they are.
     *
     * @return dB re the baseline's mean; empty without an earlier visit since the baseline began
     */
    public OptionalDouble changeDb() {
        List<LevelSeries.Point> kept =
                new ArrayList<>(current.subList(0, Math.max(0, current.size() - 1)));
        kept.removeAll(strays);
        return kept.isEmpty()
                ? OptionalDouble.empty()
                : OptionalDouble.of(
                        current.get(current.size() - 1).levelDb()
                                - LevelBaseline.mean(levels(first(kept))));
    }

    /**
     * Returns what lasts.
     *
     * @return empty with too few visits
     */
    public Optional<LastingShift> lasting() {
        return Optional.ofNullable(lasting);
    }

    /**
     * Returns the rate of change over time, in dB per year; places are years since the series'
     * first visit.
     *
     * @return empty with fewer than {@value #FEWEST_FOR_RATE} visits since the baseline began
     */
    public Optional<TheilSen> perYear() {
        return order == null
                ? Optional.empty()
                : rate(current.stream().mapToDouble(this::years).toArray());
    }

    /**
     * Returns the rate of change over distance, in dB per 10,000 km; places are odometer readings
     * in that unit.
     *
     * @return empty with too few visits, or without an odometer that only goes up at every one
     */
    public Optional<TheilSen> perTenThousandKm() {
        boolean distances =
                order != null && current.stream().allMatch(p -> p.visit().odometerKm().isPresent());
        return distances
                ? rate(
                        current.stream()
                                .mapToDouble(p -> p.visit().odometerKm().getAsDouble() / RATE_KM)
                                .toArray())
                : Optional.empty();
    }

    /**
     * Returns whether levels rise in their order.
     *
     * @return empty with fewer than {@value #FEWEST_FOR_RATE} visits since the baseline began
     */
    public Optional<MannKendall> order() {
        return Optional.ofNullable(order);
    }

    /**
     * Returns how often an unchanged part would look as much like rising: the smallest chance of
     * the newest visit, the moving average and the order, times the number of these that could be
     * asked.
     *
     * @return 0..1; empty if nothing could be asked
     */
    public OptionalDouble chanceOfRise() {
        double least = 1;
        int asked = 0;
        if (newest != null) {
            least = Math.min(least, newest.chanceOfRise());
            asked++;
        }
        if (lasting != null) {
            least = Math.min(least, lasting.chanceOfRise());
            asked++;
        }
        if (order != null) {
            least = Math.min(least, order.chanceOfRise());
            asked++;
        }
        return asked == 0 ? OptionalDouble.empty() : OptionalDouble.of(Math.min(1, least * asked));
    }
}

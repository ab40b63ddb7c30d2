package tickover.diagnose;

import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.UUID;

/**
 * Finds how far each part has risen over the earlier visits of its vehicle, like with like.
 *
 * <p>A part counts where it can be told best: at its own point if it was measured there at both
 * times, else at the point with the smallest error. Where several parts were measured, what they
 * have risen alike, by the median, is taken off: another probe or another grip lifts all of them.
 */
public final class RisenParts {
    /**
     * How a part's level scatters between visits before the vehicle's own visits tell: as six of
     * them that scatter by 3.5 dB would. Judgement; a hand finds the same spot again to some 3 dB.
     */
    private static final ScatterPrior USUAL = new ScatterPrior(6, 3.5);

    /** How far a level may be above a bound that it is known to be near or below, dB. */
    private static final double BOUND_DB = 3;

    /** Fewer parts do not tell what all have risen. */
    private static final int FEWEST_FOR_COMMON = 4;

    private RisenParts() {}

    /**
     * Compares a visit with the earlier ones.
     *
     * @param levels of one vehicle, oldest visit first; the visit's own among them
     * @param visit which visit
     * @param marks the vehicle's repairs: a part is held against visits since its last one
     * @return one entry for each part that has a like level at an earlier visit; may be empty
     */
    public static List<Risen> of(List<MeasuredLevel> levels, UUID visit, List<RepairMark> marks) {
        Objects.requireNonNull(visit, "visit");
        Map<String, Risen> best = new LinkedHashMap<>();
        // A part's own point comes first among its series.
        Map<String, Boolean> atOwnPoint = new LinkedHashMap<>();
        for (LevelSeries series : LikeWithLike.of(upTo(levels, visit)).series()) {
            String part = series.place().part();
            boolean own = series.place().point().equals(part);
            Optional<Risen> rise = rise(series, visit, marks);
            boolean counts = own || !atOwnPoint.getOrDefault(part, false);
            if (rise.isPresent() && counts) {
                best.merge(part, rise.get(), (a, b) -> b.errorDb() < a.errorDb() ? b : a);
                atOwnPoint.put(part, own);
            }
        }
        return lessCommon(List.copyOf(best.values()));
    }

    private static List<MeasuredLevel> upTo(List<MeasuredLevel> levels, UUID visit) {
        return levels.stream()
                .filter(m -> m.visit().id().equals(visit))
                .findFirst()
                .map(
                        own ->
                                levels.stream()
                                        .filter(
                                                m ->
                                                        m.visit().id().equals(visit)
                                                                || m.visit()
                                                                        .date()
                                                                        .isBefore(
                                                                                own.visit().date()))
                                        .toList())
                .orElse(List.of());
    }

    private static Optional<Risen> rise(LevelSeries series, UUID visit, List<RepairMark> marks) {
        LevelSeries.Point now = series.newest();
        if (!now.visit().id().equals(visit)) {
            return Optional.empty();
        }
        List<RepairMark> until =
                marks.stream().filter(m -> !m.at().isAfter(now.visit().date())).toList();
        List<LevelSeries.Point> before =
                SeriesTrend.since(series, SeriesTrend.restart(series, until)).stream()
                        .filter(p -> !p.equals(now))
                        .toList();
        if (before.isEmpty()) {
            return Optional.empty();
        }
        int n = before.size();
        double[] values = SeriesTrend.levels(before);
        double variance = USUAL.variance(LevelBaseline.squares(values), n - 1.0);
        double errors = now.standardErrorDb() * now.standardErrorDb();
        for (LevelSeries.Point p : before) {
            // Below its error a level is only known from above, and a rise is at least as large.
            double error = p.belowError() ? BOUND_DB : p.standardErrorDb();
            errors += error * error / n / n;
        }
        return Optional.of(
                new Risen(
                        series.place().part(),
                        now.levelDb() - LevelBaseline.mean(values),
                        Math.sqrt(variance * (1 + 1.0 / n) + errors),
                        n,
                        series.place().words()));
    }

    private static List<Risen> lessCommon(List<Risen> all) {
        if (all.size() < FEWEST_FOR_COMMON) {
            return all;
        }
        double common = Robust.median(all.stream().mapToDouble(Risen::riseDb).toArray());
        return all.stream()
                .map(
                        r ->
                                new Risen(
                                        r.part(),
                                        r.riseDb() - common,
                                        r.errorDb(),
                                        r.visits(),
                                        r.placeWords()))
                .toList();
    }
}

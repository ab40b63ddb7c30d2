package tickover.cli;

import java.time.LocalDateTime;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.OptionalDouble;
import java.util.UUID;
import tickover.diagnose.CaptureLabel;
import tickover.diagnose.LevelTrend;
import tickover.diagnose.Mount;
import tickover.diagnose.Regime;
import tickover.drive.Condition;
import tickover.store.LevelRow;

/**
 * One part's levels at one place and condition, one per visit, oldest first.
 *
 * @param place what all of them have in common
 * @param points the visits
 */
record TrendSeries(Place place, List<Point> points) {
    /** What has to agree before levels may be strung together. */
    record Place(String point, String axis, Mount mount, Regime regime, Condition condition) {
        private static Place of(CaptureLabel l) {
            return new Place(l.point(), l.axis(), l.mount(), l.regime(), l.condition());
        }

        /** The place in words. */
        String words() {
            return "at "
                    + point
                    + (axis.isEmpty() ? "" : ", " + axis)
                    + ", "
                    + mount.word()
                    + ", "
                    + regime.word()
                    + ", "
                    + condition;
        }
    }

    /** The mean over the touches of one visit. */
    record Point(
            UUID visit,
            LocalDateTime date,
            OdometerKm odometer,
            double meanSpeedRpm,
            double levelRmsMps2,
            double standardErrorMps2,
            int touches) {}

    /** A distance that may be unknown. */
    static final class OdometerKm {
        private final Double km;

        OdometerKm(OptionalDouble km) {
            this.km = km.isPresent() ? km.getAsDouble() : null;
        }

        OptionalDouble km() {
            return km == null ? OptionalDouble.empty() : OptionalDouble.of(km);
        }
    }

    /**
     * Strings levels together, like with like.
     *
     * @param rows as the log has them
     * @param part whose they are
     * @return the part's own point first, then by number of visits
     */
    static List<TrendSeries> of(List<LevelRow> rows, String part) {
        Map<Place, Map<UUID, List<LevelRow>>> byPlace = new LinkedHashMap<>();
        for (LevelRow row : rows) {
            byPlace.computeIfAbsent(Place.of(row.label()), p -> new LinkedHashMap<>())
                    .computeIfAbsent(row.visitId(), v -> new ArrayList<>())
                    .add(row);
        }
        List<TrendSeries> series = new ArrayList<>();
        byPlace.forEach(
                (place, visits) ->
                        series.add(
                                new TrendSeries(
                                        place,
                                        visits.values().stream()
                                                .map(TrendSeries::point)
                                                .toList())));
        series.sort(
                Comparator.comparing((TrendSeries s) -> !s.place.point().equals(part))
                        .thenComparing(s -> -s.points.size())
                        .thenComparing(s -> !s.place.condition().equals(Condition.UNLOADED)));
        return series;
    }

    private static Point point(List<LevelRow> touches) {
        LevelRow first = touches.get(0);
        int n = touches.size();
        double mean = touches.stream().mapToDouble(LevelRow::levelRmsMps2).sum() / n;
        double within = 0;
        double between = 0;
        for (LevelRow t : touches) {
            within += t.standardErrorMps2() * t.standardErrorMps2() / (n * n);
            between += (t.levelRmsMps2() - mean) * (t.levelRmsMps2() - mean);
        }
        double betweenMean = n > 1 ? between / (n - 1) / n : 0;
        return new Point(
                first.visitId(),
                first.date(),
                new OdometerKm(first.odometerKm()),
                touches.stream().mapToDouble(LevelRow::meanSpeedRpm).sum() / n,
                mean,
                Math.sqrt(Math.max(within, betweenMean)),
                n);
    }

    /**
     * The newest level against the earlier ones; none if there is nothing to hold it against. A
     * level below its error is only known to be below that, so the error stands for it and no
     * change is overstated.
     */
    List<LevelTrend> trend() {
        List<Double> levels =
                points.stream()
                        .map(p -> Math.max(p.levelRmsMps2(), p.standardErrorMps2()))
                        .toList();
        boolean judged = levels.size() >= 2 && levels.stream().allMatch(l -> l > 0);
        return judged ? List.of(LevelTrend.of(levels)) : List.of();
    }
}

package tickover.diagnose;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;

/**
 * One vehicle's newest level against those of its sisters: vehicles of the same drive, each with
 * its last visit, at a like place. It tells what is usual where a vehicle has no past of its own;
 * what sets vehicles apart from each other, sound ones too, is in the scatter.
 *
 * @param units the sisters that count
 * @param strayUnits sisters that stand so far out that they are left out
 * @param usual what their levels come to
 * @param newest the vehicle's level against that
 */
public record SisterComparison(
        List<String> units, List<String> strayUnits, LevelBaseline usual, NewestLevel newest) {
    public SisterComparison {
        units = List.copyOf(units);
        strayUnits = List.copyOf(strayUnits);
    }

    /**
     * Compares.
     *
     * @param series the vehicle's
     * @param sisters levels of the same part at each sister's last visit
     * @return empty with fewer than three sisters that have a like level
     */
    public static Optional<SisterComparison> of(
            LevelSeries series, Map<String, List<MeasuredLevel>> sisters) {
        Map<String, LevelSeries.Point> like = new LinkedHashMap<>();
        sisters.forEach(
                (unit, levels) ->
                        LikeWithLike.of(levels).series().stream()
                                .filter(s -> series.place().like(s.place()))
                                .findFirst()
                                .ifPresent(s -> like.put(unit, s.newest())));
        List<LevelSeries.Point> all = List.copyOf(like.values());
        List<LevelSeries.Point> strays = LevelBaseline.strays(all, ScatterPrior.NONE);
        List<String> strayUnits = new ArrayList<>();
        List<String> units = new ArrayList<>();
        like.forEach((unit, p) -> (strays.contains(p) ? strayUnits : units).add(unit));
        return LevelBaseline.of(
                        all.stream().filter(p -> !strays.contains(p)).toList(), ScatterPrior.NONE)
                .map(
                        usual ->
                                new SisterComparison(
                                        units,
                                        strayUnits,
                                        usual,
                                        NewestLevel.of(usual, series.newest().levelDb())));
    }
}

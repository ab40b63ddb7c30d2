package tickover.diagnose;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.Set;
import tickover.drive.Condition;

/**
 * Level changes of parts between two visits, like with like: captures are paired only when point,
 * axis, mount, regime and condition agree. A part that was probed at its own point is judged there
 * alone, since elsewhere others drown it.
 *
 * <p>The change of a pair is 20 log10(after/before). Its variance is the sum of both relative
 * variances times (20/ln 10)²; over several pairs the scatter between pairs counts too, whichever
 * is larger, because putting the probe down again moves a level more than the scatter within a
 * capture.
 */
public final class BeforeAfter {
    private static final double DB_PER_NEPER = 20 / Math.log(10);

    /** Two-sided 95 % points of Student's t for 1 to 10 degrees of freedom, then the normal. */
    private static final double[] T_95 = {
        12.706, 4.303, 3.182, 2.776, 2.571, 2.447, 2.365, 2.306, 2.262, 2.228
    };

    private static final double NORMAL_95 = 1.96;

    private BeforeAfter() {}

    /** What has to agree before two captures may be held against each other. */
    private record Place(
            String point, String axis, Mount mount, Regime regime, Condition condition) {
        static Place of(CaptureLabel label) {
            return new Place(
                    label.point(), label.axis(), label.mount(), label.regime(), label.condition());
        }
    }

    /** Mean level of the touches of one place and its standard error. */
    private record Level(double rmsMps2, double errorMps2) {}

    /** One pair of like levels. */
    private record Pair(Level before, Level after) {
        double changeDb() {
            return DB_PER_NEPER * Math.log(floored(after) / floored(before));
        }

        double varianceDb() {
            double b = before.errorMps2() / floored(before);
            double a = after.errorMps2() / floored(after);
            return DB_PER_NEPER * DB_PER_NEPER * (a * a + b * b);
        }

        /**
         * A level under its own error is only known to be below that; so no change is overstated.
         */
        private static double floored(Level level) {
            return Math.max(level.rmsMps2(), level.errorMps2());
        }

        boolean measurable() {
            return floored(before) > 0
                    && floored(after) > 0
                    && (before.rmsMps2() > before.errorMps2()
                            || after.rmsMps2() > after.errorMps2());
        }
    }

    /**
     * Compares two visits of one vehicle.
     *
     * @param before the earlier result
     * @param after the later result
     * @return one change per part that has a pair, in the order of the earlier result
     */
    public static List<PartChange> visits(VisitResult before, VisitResult after) {
        Map<String, Map<Place, Level>> old = byPartAndPlace(before);
        Map<String, Map<Place, Level>> now = byPartAndPlace(after);
        List<PartChange> changes = new ArrayList<>();
        for (String part : old.keySet()) {
            List<Pair> pairs = new ArrayList<>();
            Map<Place, Level> later = now.getOrDefault(part, Map.of());
            for (Place place : placesOf(part, old.get(part), later)) {
                pairs.add(new Pair(old.get(part).get(place), later.get(place)));
            }
            change(part, pairs).ifPresent(changes::add);
        }
        return List.copyOf(changes);
    }

    /**
     * Compares two captures, whatever they are of.
     *
     * @param before levels of one capture
     * @param after levels of the other
     * @return one change per part that both have
     */
    public static List<PartChange> captures(List<PartLevel> before, List<PartLevel> after) {
        Objects.requireNonNull(after, "after");
        List<PartChange> changes = new ArrayList<>();
        for (PartLevel b : before) {
            after.stream()
                    .filter(a -> a.part().equals(b.part()))
                    .findFirst()
                    .flatMap(a -> change(b.part(), List.of(new Pair(level(b), level(a)))))
                    .ifPresent(changes::add);
        }
        return List.copyOf(changes);
    }

    private static Level level(PartLevel level) {
        return new Level(level.levelRmsMps2(), level.standardErrorMps2());
    }

    private static Set<Place> placesOf(
            String part, Map<Place, Level> before, Map<Place, Level> after) {
        Set<Place> shared = new LinkedHashSet<>(before.keySet());
        shared.retainAll(after.keySet());
        Set<Place> own = new LinkedHashSet<>();
        shared.stream().filter(p -> p.point().equals(part)).forEach(own::add);
        return own.isEmpty() ? shared : own;
    }

    private static Map<String, Map<Place, Level>> byPartAndPlace(VisitResult result) {
        Map<String, Place> places = new LinkedHashMap<>();
        result.captures().forEach(c -> places.put(c.label().id(), Place.of(c.label())));
        Map<String, Map<Place, List<Level>>> touches = new LinkedHashMap<>();
        for (PartLevel level : result.levels()) {
            Place place = places.get(level.capture());
            if (place != null) {
                touches.computeIfAbsent(level.part(), p -> new LinkedHashMap<>())
                        .computeIfAbsent(place, p -> new ArrayList<>())
                        .add(level(level));
            }
        }
        Map<String, Map<Place, Level>> means = new LinkedHashMap<>();
        touches.forEach(
                (part, byPlace) -> {
                    Map<Place, Level> row = new LinkedHashMap<>();
                    byPlace.forEach((place, levels) -> row.put(place, mean(levels)));
                    means.put(part, row);
                });
        return means;
    }

    /** Mean over touches; its error is the larger of the scatter between and within them. */
    private static Level mean(List<Level> touches) {
        int n = touches.size();
        double mean = touches.stream().mapToDouble(Level::rmsMps2).sum() / n;
        double within = 0;
        double between = 0;
        for (Level t : touches) {
            within += t.errorMps2() * t.errorMps2() / (n * n);
            between += (t.rmsMps2() - mean) * (t.rmsMps2() - mean);
        }
        double betweenMean = n > 1 ? between / (n - 1) / n : 0;
        return new Level(mean, Math.sqrt(Math.max(within, betweenMean)));
    }

    private static Optional<PartChange> change(String part, List<Pair> all) {
        List<Pair> pairs = all.stream().filter(Pair::measurable).toList();
        int n = pairs.size();
        if (n == 0) {
            return Optional.empty();
        }
        double mean = pairs.stream().mapToDouble(Pair::changeDb).sum() / n;
        double within = 0;
        double between = 0;
        for (Pair p : pairs) {
            within += p.varianceDb() / (n * n);
            between += (p.changeDb() - mean) * (p.changeDb() - mean);
        }
        double halfWithin = NORMAL_95 * Math.sqrt(within);
        double halfBetween = n > 1 ? t95(n - 1) * Math.sqrt(between / (n - 1) / n) : 0;
        double half = Math.max(halfWithin, halfBetween);
        return Optional.of(
                new PartChange(
                        part,
                        mean,
                        mean - half,
                        mean + half,
                        n,
                        pairs.stream().mapToDouble(p -> p.before().rmsMps2()).sum() / n,
                        pairs.stream().mapToDouble(p -> p.after().rmsMps2()).sum() / n));
    }

    private static double t95(int degreesOfFreedom) {
        return degreesOfFreedom <= T_95.length ? T_95[degreesOfFreedom - 1] : NORMAL_95;
    }
}

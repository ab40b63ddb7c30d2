package tickover.diagnose;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.OptionalDouble;
import java.util.function.Function;
import java.util.function.Predicate;
import java.util.function.ToDoubleFunction;

/**
 * Compares one quantity between points and between conditions of a visit. Levels are in dB, so that
 * touches are averaged as ratios.
 */
final class Comparison {
    private final List<CaptureMeasurement> captures;

    Comparison(List<CaptureMeasurement> captures) {
        this.captures = captures;
    }

    /** Captures with the belt on and every injector connected: the ordinary ones. */
    List<CaptureMeasurement> ordinary() {
        return captures.stream()
                .filter(
                        c ->
                                c.label().condition().beltOn()
                                        && c.label().condition().injectorOff().isEmpty())
                .toList();
    }

    List<CaptureMeasurement> ordinaryAt(String point) {
        return ordinary().stream().filter(c -> c.label().point().equals(point)).toList();
    }

    /** Mean level per point over the ordinary captures, dB. */
    Map<String, Double> levelByPointDb(ToDoubleFunction<CaptureMeasurement> levelDb) {
        Map<String, List<Double>> lists = new LinkedHashMap<>();
        for (CaptureMeasurement c : ordinary()) {
            lists.computeIfAbsent(c.label().point(), k -> new ArrayList<>())
                    .add(levelDb.applyAsDouble(c));
        }
        Map<String, Double> out = new LinkedHashMap<>();
        lists.forEach((point, levels) -> out.put(point, mean(levels)));
        return out;
    }

    /**
     * Mean level difference between two conditions over the points where both were recorded, dB.
     *
     * @param with the condition of the minuend
     * @param without the condition of the subtrahend
     * @param otherwise what has to be equal on both sides, besides point and regime
     * @return empty if no point has both
     */
    OptionalDouble differenceDb(
            Predicate<CaptureLabel> with,
            Predicate<CaptureLabel> without,
            Function<CaptureLabel, String> otherwise,
            ToDoubleFunction<CaptureMeasurement> levelDb) {
        Map<String, List<Double>> a = new LinkedHashMap<>();
        Map<String, List<Double>> b = new LinkedHashMap<>();
        for (CaptureMeasurement c : captures) {
            String key =
                    String.join(
                            "\n",
                            c.label().point(),
                            c.label().regime().word(),
                            otherwise.apply(c.label()));
            if (with.test(c.label())) {
                a.computeIfAbsent(key, k -> new ArrayList<>()).add(levelDb.applyAsDouble(c));
            } else if (without.test(c.label())) {
                b.computeIfAbsent(key, k -> new ArrayList<>()).add(levelDb.applyAsDouble(c));
            }
        }
        List<Double> differences = new ArrayList<>();
        a.forEach(
                (key, levels) -> {
                    if (b.containsKey(key)) {
                        differences.add(mean(levels) - mean(b.get(key)));
                    }
                });
        return differences.isEmpty()
                ? OptionalDouble.empty()
                : OptionalDouble.of(mean(differences));
    }

    /**
     * A point against the others.
     *
     * @param ownAboveDb how far it is above the strongest other, dB; 0 without either
     * @param rivalPoint the strongest other; empty without one
     */
    record Place(double ownAboveDb, String rivalPoint) {}

    /** A point's level against the strongest other's. */
    Place place(String ownPoint, ToDoubleFunction<CaptureMeasurement> levelDb) {
        Map<String, Double> levels = levelByPointDb(levelDb);
        Double own = levels.remove(ownPoint);
        String rival = "";
        double strongest = Double.NEGATIVE_INFINITY;
        for (Map.Entry<String, Double> e : levels.entrySet()) {
            if (e.getValue() > strongest) {
                strongest = e.getValue();
                rival = e.getKey();
            }
        }
        return own == null || rival.isEmpty()
                ? new Place(0, rival)
                : new Place(own - strongest, rival);
    }

    /** How much weaker a quantity is with the belt off, dB; empty if that was not recorded. */
    OptionalDouble beltOffDb(ToDoubleFunction<CaptureMeasurement> levelDb) {
        return differenceDb(
                l -> l.condition().beltOn(),
                l -> !l.condition().beltOn(),
                l -> l.condition().withBeltOn(true).toString(),
                levelDb);
    }

    static double mean(List<Double> values) {
        return values.stream().mapToDouble(Double::doubleValue).average().orElse(0);
    }
}

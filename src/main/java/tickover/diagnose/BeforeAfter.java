package tickover.diagnose;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.Set;
import tickover.drive.PartLine;

/**
 * Level changes of parts between two visits, like with like: captures are paired only when point,
 * axis, mount, regime and condition agree, and of a part's lines only those count that no other
 * part shares on either side. A part that was probed at its own point is judged there alone, since
 * elsewhere others drown it.
 *
 * <p>The change is 20 log10 of after over before, of the roots of mean powers over the pairs. Its
 * interval holds the scatter within the captures and what putting the probe down again does. The
 * second is measured by the engine's own level, which runs through every capture: the scatter of
 * its changes over the pairs, where there are at least three.
 */
public final class BeforeAfter {
    private static final double DB_PER_NEPER = 20 / Math.log(10);
    private static final double NORMAL_95 = 1.96;

    /** Fewer pairs of engine levels say too little of how much a touch moves. */
    private static final int FEWEST_ENGINE_PAIRS = 3;

    private BeforeAfter() {}

    /** A mean square and its variance. */
    private record Power(double square, double variance) {
        static Power of(List<PartLevel> touches, Set<String> kinds) {
            double square = 0;
            double variance = 0;
            int n = touches.size();
            for (PartLevel touch : touches) {
                for (Level level : levels(touch, kinds)) {
                    square += level.rmsMps2() * level.rmsMps2() / n;
                    double error = level.errorOfSquare() / n;
                    variance += error * error;
                }
            }
            return new Power(square, variance);
        }

        static Power mean(List<Power> all) {
            double square = 0;
            double variance = 0;
            for (Power p : all) {
                square += p.square / all.size();
                variance += p.variance / all.size() / all.size();
            }
            return new Power(square, variance);
        }

        /** Only known to be below its error where it does not stand above it. */
        double floored() {
            return Math.max(square, Math.sqrt(variance));
        }

        boolean standsOut() {
            return square > NORMAL_95 * Math.sqrt(variance) && square > 0;
        }

        double relativeVariance() {
            double floor = floored();
            return variance / (floor * floor);
        }
    }

    /** A level with its standard error. */
    private record Level(double rmsMps2, double errorMps2) {
        double errorOfSquare() {
            return Math.max(2 * rmsMps2 * errorMps2, errorMps2 * errorMps2);
        }
    }

    /** The levels of one part at one place on both sides. */
    private record Pair(Power before, Power after) {
        static Optional<Pair> of(List<PartLevel> before, List<PartLevel> after) {
            Set<String> kinds = ownKinds(before);
            boolean byLines = !kinds.isEmpty() || !ownKinds(after).isEmpty();
            kinds.retainAll(ownKinds(after));
            return byLines && kinds.isEmpty()
                    ? Optional.empty()
                    : Optional.of(new Pair(Power.of(before, kinds), Power.of(after, kinds)));
        }

        double changeDb() {
            return DB_PER_NEPER / 2 * Math.log(after.floored() / before.floored());
        }

        boolean standsOut() {
            return before.standsOut() || after.standsOut();
        }
    }

    /** Kinds of lines that no other part shares in any touch. */
    private static Set<String> ownKinds(List<PartLevel> touches) {
        Set<String> own = new LinkedHashSet<>();
        touches.forEach(t -> t.lines().forEach(l -> own.add(l.kind())));
        for (PartLevel touch : touches) {
            Set<String> here = new LinkedHashSet<>();
            touch.lines().stream()
                    .filter(l -> l.sharedWith().isEmpty())
                    .forEach(l -> here.add(l.kind()));
            own.retainAll(here);
        }
        return own;
    }

    private static List<Level> levels(PartLevel touch, Set<String> kinds) {
        if (kinds.isEmpty()) {
            return List.of(new Level(touch.levelRmsMps2(), touch.standardErrorMps2()));
        }
        return touch.lines().stream()
                .filter(l -> kinds.contains(l.kind()))
                .map(l -> new Level(l.levelRmsMps2(), l.standardErrorMps2()))
                .toList();
    }

    /**
     * Compares two visits of one vehicle.
     *
     * @param before the earlier result
     * @param after the later result
     * @return one change per part that has a pair, in the order of the earlier result
     */
    public static List<PartChange> visits(VisitResult before, VisitResult after) {
        LikeCaptures like = LikeCaptures.of(before, after);
        Map<String, Map<LikeCaptures.Place, List<PartLevel>>> old =
                byPartAndPlace(before, like.before());
        Map<String, Map<LikeCaptures.Place, List<PartLevel>>> now =
                byPartAndPlace(after, like.after());
        Map<String, Map<LikeCaptures.Place, Pair>> pairs = new LinkedHashMap<>();
        old.forEach(
                (part, places) -> pairs.put(part, pairs(places, now.getOrDefault(part, Map.of()))));
        Touches touches = touches(pairs.getOrDefault(PartLine.ENGINE, Map.of()));
        List<PartChange> changes = new ArrayList<>();
        pairs.forEach(
                (part, places) ->
                        change(part, judged(part, places), touches).ifPresent(changes::add));
        return List.copyOf(changes);
    }

    private static Map<LikeCaptures.Place, Pair> pairs(
            Map<LikeCaptures.Place, List<PartLevel>> before,
            Map<LikeCaptures.Place, List<PartLevel>> after) {
        Map<LikeCaptures.Place, Pair> pairs = new LinkedHashMap<>();
        before.forEach(
                (place, touches) ->
                        Pair.of(touches, after.getOrDefault(place, List.of()))
                                .filter(p -> after.containsKey(place))
                                .ifPresent(p -> pairs.put(place, p)));
        return pairs;
    }

    private static List<Pair> judged(String part, Map<LikeCaptures.Place, Pair> places) {
        List<Pair> own = new ArrayList<>();
        places.forEach(
                (place, pair) -> {
                    if (place.point().equals(part)) {
                        own.add(pair);
                    }
                });
        return own.isEmpty() ? List.copyOf(places.values()) : own;
    }

    /**
     * What putting the probe down anew does to a level.
     *
     * @param known whether there were enough pairs to measure it
     * @param sigmaDb standard deviation of one pair's change, dB
     * @param degreesOfFreedom of that, at least 1
     */
    private record Touches(boolean known, double sigmaDb, int degreesOfFreedom) {
        static final Touches UNKNOWN = new Touches(false, 0, 1);
    }

    private static Touches touches(Map<LikeCaptures.Place, Pair> engine) {
        double[] changes =
                engine.values().stream()
                        .filter(Pair::standsOut)
                        .mapToDouble(Pair::changeDb)
                        .toArray();
        int n = changes.length;
        if (n < FEWEST_ENGINE_PAIRS) {
            return Touches.UNKNOWN;
        }
        double mean = 0;
        for (double c : changes) {
            mean += c / n;
        }
        double squares = 0;
        for (double c : changes) {
            squares += (c - mean) * (c - mean);
        }
        return new Touches(true, Math.sqrt(squares / (n - 1)), n - 1);
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
                    .flatMap(a -> Pair.of(List.of(b), List.of(a)))
                    .flatMap(p -> change(b.part(), List.of(p), Touches.UNKNOWN))
                    .ifPresent(changes::add);
        }
        return List.copyOf(changes);
    }

    private static Map<String, Map<LikeCaptures.Place, List<PartLevel>>> byPartAndPlace(
            VisitResult result, Map<String, LikeCaptures.Place> places) {
        Map<String, Map<LikeCaptures.Place, List<PartLevel>>> touches = new LinkedHashMap<>();
        for (PartLevel level : result.levels()) {
            LikeCaptures.Place place = places.get(level.capture());
            if (place != null) {
                touches.computeIfAbsent(level.part(), p -> new LinkedHashMap<>())
                        .computeIfAbsent(place, p -> new ArrayList<>())
                        .add(level);
            }
        }
        return touches;
    }

    private static Optional<PartChange> change(String part, List<Pair> pairs, Touches touches) {
        Pair all =
                new Pair(
                        Power.mean(pairs.stream().map(Pair::before).toList()),
                        Power.mean(pairs.stream().map(Pair::after).toList()));
        if (pairs.isEmpty() || !all.standsOut()) {
            return Optional.empty();
        }
        double withinSigma =
                DB_PER_NEPER
                        / 2
                        * Math.sqrt(all.before.relativeVariance() + all.after.relativeVariance());
        double touchSigma = touches.sigmaDb / Math.sqrt(pairs.size());
        double half =
                Math.hypot(
                        NORMAL_95 * withinSigma,
                        StudentT.twoSided95(touches.degreesOfFreedom) * touchSigma);
        double change = all.changeDb();
        return Optional.of(
                new PartChange(
                        part,
                        new PartChange.Interval(change, change - half, change + half),
                        pairs.size(),
                        touches.known,
                        luck(change, withinSigma, touchSigma, touches.degreesOfFreedom),
                        all.after.standsOut(),
                        Math.sqrt(all.before.floored()),
                        Math.sqrt(all.after.floored())));
    }

    /** Scatter within captures is known well, that of touches from a few: Satterthwaite's mean. */
    private static double luck(
            double changeDb, double withinSigma, double touchSigma, int touchFreedom) {
        double sigma = Math.hypot(withinSigma, touchSigma);
        if (!(sigma > 0)) {
            return changeDb == 0 ? 1 : 0;
        }
        double share = touchSigma / sigma;
        double freedom = share > 0 ? touchFreedom / Math.pow(share, 4) : Double.POSITIVE_INFINITY;
        return Math.min(1, StudentT.twoSidedTail(changeDb / sigma, freedom));
    }
}

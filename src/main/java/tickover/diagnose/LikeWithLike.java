package tickover.diagnose;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.UUID;
import tickover.drive.Condition;
import tickover.drive.PartWords;

/**
 * Strings levels together, like with like: same part, point, axis, mount, regime and condition, and
 * a speed within a band of the first one's. Nothing else is mixed in; what is left out is said.
 */
public final class LikeWithLike {
    /** Speeds within this share of a series' first are one band. */
    public static final double SPEED_BAND_RATIO = 0.10;

    private final List<LevelSeries> series;
    private final List<MeasuredLevel> withoutLevel;

    private LikeWithLike(List<LevelSeries> series, List<MeasuredLevel> withoutLevel) {
        this.series = List.copyOf(series);
        this.withoutLevel = List.copyOf(withoutLevel);
    }

    static boolean oneBand(double firstRpm, double otherRpm) {
        return Math.abs(otherRpm - firstRpm) <= SPEED_BAND_RATIO * firstRpm;
    }

    /** What agrees exactly. */
    private record Key(
            String part,
            String point,
            String axis,
            Mount mount,
            Regime regime,
            Condition condition) {
        static Key of(MeasuredLevel m) {
            CaptureLabel l = m.label();
            return new Key(m.part(), l.point(), l.axis(), l.mount(), l.regime(), l.condition());
        }

        LevelSeries.Place place(double speedRpm) {
            return new LevelSeries.Place(part, point, axis, mount, regime, condition, speedRpm);
        }
    }

    /** The levels of one speed band, by visit. */
    private record Band(double firstRpm, Map<UUID, List<MeasuredLevel>> visits) {}

    /**
     * Sorts levels.
     *
     * @param levels of one vehicle, oldest visit first
     * @return their series; a part's own point first, then by number of visits, the unloaded drive
     *     before others
     */
    public static LikeWithLike of(List<MeasuredLevel> levels) {
        Map<Key, List<Band>> bands = new LinkedHashMap<>();
        List<MeasuredLevel> nothing = new ArrayList<>();
        for (MeasuredLevel level : levels) {
            if (level.knownRmsMps2() > 0) {
                band(bands.computeIfAbsent(Key.of(level), k -> new ArrayList<>()), level)
                        .visits()
                        .computeIfAbsent(level.visit().id(), v -> new ArrayList<>())
                        .add(level);
            } else {
                nothing.add(level);
            }
        }
        List<LevelSeries> series = new ArrayList<>();
        bands.forEach(
                (key, all) ->
                        all.forEach(
                                band ->
                                        series.add(
                                                new LevelSeries(
                                                        key.place(band.firstRpm()),
                                                        points(band)))));
        series.sort(
                Comparator.comparing((LevelSeries s) -> !s.place().point().equals(s.place().part()))
                        .thenComparing(s -> -s.points().size())
                        .thenComparing(s -> !s.place().condition().equals(Condition.UNLOADED)));
        return new LikeWithLike(series, nothing);
    }

    private static List<LevelSeries.Point> points(Band band) {
        return band.visits().values().stream().map(LevelSeries.Point::of).toList();
    }

    private static Band band(List<Band> known, MeasuredLevel level) {
        for (Band band : known) {
            if (oneBand(band.firstRpm(), level.meanSpeedRpm())) {
                return band;
            }
        }
        Band fresh = new Band(level.meanSpeedRpm(), new LinkedHashMap<>());
        known.add(fresh);
        return fresh;
    }

    /**
     * Returns the series.
     *
     * @return the one to look at first comes first
     */
    public List<LevelSeries> series() {
        return series;
    }

    /**
     * Returns what has no place in any series: levels of nothing with an error of nothing, which no
     * decibel can express.
     *
     * @return as they were given
     */
    public List<MeasuredLevel> withoutLevel() {
        return withoutLevel;
    }

    /**
     * Says what parts two places, so that it is said rather than mixed.
     *
     * @param place one
     * @param other the other
     * @return such as {@code mount magnet, near 1500 rpm}: what the other has that the one has not
     */
    public static String difference(LevelSeries.Place place, LevelSeries.Place other) {
        List<String> words = new ArrayList<>();
        if (!place.point().equals(other.point())) {
            words.add("at " + PartWords.the(other.point()));
        }
        if (!place.axis().equals(other.axis())) {
            words.add(other.axis().isEmpty() ? "no axis named" : "axis " + other.axis());
        }
        if (place.mount() != other.mount()) {
            words.add("mount " + other.mount().word());
        }
        if (place.regime() != other.regime()) {
            words.add(other.regime().word());
        }
        if (!place.condition().equals(other.condition())) {
            words.add(other.condition().toString());
        }
        if (!oneBand(place.speedRpm(), other.speedRpm())) {
            words.add("near " + Math.round(other.speedRpm()) + " rpm");
        }
        return String.join(", ", words);
    }
}

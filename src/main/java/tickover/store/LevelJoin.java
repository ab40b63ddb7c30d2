package tickover.store;

import java.sql.Connection;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.time.LocalDateTime;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.UUID;
import tickover.diagnose.CaptureLabel;
import tickover.diagnose.MeasuredLevel;
import tickover.diagnose.VisitMoment;

/** Puts levels together with their visits and captures, in memory. */
final class LevelJoin {
    /** A result, of which visit of which vehicle. */
    private record Result(VisitMoment visit, String codeVersion, String unit) {}

    /** A capture of a result. */
    private record Capture(CaptureLabel label, double meanSpeedRpm) {}

    /** A level as its table has it. */
    private record Bare(
            long finding, String capture, String part, int place, double level, double error) {}

    private final Map<Long, Result> results = new LinkedHashMap<>();
    private final Map<Long, Map<String, Capture>> captures = new HashMap<>();
    private final Map<Long, List<Bare>> levels = new HashMap<>();

    private LevelJoin() {}

    /** Every level of a vehicle by the latest result of each visit, oldest visit first. */
    static List<MeasuredLevel> ofVehicle(Connection c, long vehicleId) throws SQLException {
        LevelJoin join = new LevelJoin();
        Row.list(c, HistorySql.VEHICLE_RESULTS, join::result, vehicleId);
        Row.list(c, HistorySql.VEHICLE_CAPTURES, join::capture, vehicleId);
        Row.list(c, HistorySql.VEHICLE_LEVELS, join::level, vehicleId);
        List<MeasuredLevel> all = new ArrayList<>();
        for (long finding : join.results.keySet()) {
            join.add(finding, all);
        }
        return all;
    }

    /** Levels of one part at the last visits of sisters, by unit. */
    static Map<String, List<MeasuredLevel>> ofSisters(
            Connection c, long vehicleId, int most, String part) throws SQLException {
        LevelJoin join = new LevelJoin();
        Row.list(c, HistorySql.SISTER_RESULTS, join::result, vehicleId, vehicleId, most);
        Row.list(c, HistorySql.SISTER_CAPTURES, join::capture, vehicleId, vehicleId, most);
        Row.list(c, HistorySql.SISTER_LEVELS, join::level, vehicleId, vehicleId, most, part);
        Map<String, List<MeasuredLevel>> all = new LinkedHashMap<>();
        for (Map.Entry<Long, Result> r : join.results.entrySet()) {
            List<MeasuredLevel> own = new ArrayList<>();
            join.add(r.getKey(), own);
            if (!own.isEmpty()) {
                all.put(r.getValue().unit(), own);
            }
        }
        return all;
    }

    private boolean result(ResultSet r) throws SQLException {
        VisitMoment visit =
                VisitMoment.of(
                        UUID.fromString(r.getString(2)), LocalDateTime.parse(r.getString(3)));
        double km = r.getDouble(4);
        boolean read = !r.wasNull();
        results.put(
                r.getLong(1),
                new Result(
                        read ? visit.withOdometerKm(km) : visit, r.getString(5), r.getString(6)));
        return true;
    }

    private boolean capture(ResultSet r) throws SQLException {
        CaptureLabel label = VisitRows.label(r);
        captures.computeIfAbsent(r.getLong(1), f -> new HashMap<>())
                .put(label.id(), new Capture(label, r.getDouble(2)));
        return true;
    }

    private boolean level(ResultSet r) throws SQLException {
        Bare bare =
                new Bare(
                        r.getLong(1),
                        r.getString(2),
                        r.getString(3),
                        r.getInt(4),
                        r.getDouble(5),
                        r.getDouble(6));
        levels.computeIfAbsent(bare.finding(), f -> new ArrayList<>()).add(bare);
        return true;
    }

    private void add(long finding, List<MeasuredLevel> to) {
        Result result = results.get(finding);
        List<Bare> own = levels.getOrDefault(finding, List.of());
        Map<String, Capture> labelled = captures.getOrDefault(finding, Map.of());
        own.stream()
                .filter(b -> labelled.containsKey(b.capture()))
                .sorted(Comparator.comparingInt(Bare::place))
                .forEach(
                        b -> {
                            Capture capture = labelled.get(b.capture());
                            to.add(
                                    new MeasuredLevel(
                                            result.visit(),
                                            b.part(),
                                            capture.label(),
                                            capture.meanSpeedRpm(),
                                            b.level(),
                                            b.error(),
                                            result.codeVersion()));
                        });
    }
}

package tickover.store;

import java.nio.charset.StandardCharsets;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.sql.Connection;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.time.LocalDateTime;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.HexFormat;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.UUID;
import tickover.diagnose.Attention;
import tickover.diagnose.Findings;
import tickover.diagnose.MeasuredLevel;
import tickover.diagnose.Ranking;
import tickover.diagnose.RepairMark;
import tickover.diagnose.Risen;
import tickover.diagnose.RisenParts;
import tickover.diagnose.VehicleStanding;
import tickover.diagnose.VehicleTrend;
import tickover.diagnose.Verdict;
import tickover.diagnose.VisitMoment;
import tickover.drive.Pulley;
import tickover.drive.Vehicle;

/**
 * How vehicles stand, as rows derived from the rest of the log. Whatever changes what they derive
 * from forgets them in its own transaction; what is missing is made anew when it is asked for. So
 * they are never wrong, and may be deleted at any time.
 */
final class Standings {
    private Standings() {}

    /** Forgets a vehicle's standing, within the transaction that changes what it derives from. */
    static void forget(Connection c, long vehicleId) throws SQLException {
        Row.insert(c, HistorySql.DELETE_ATTENTION, vehicleId);
        Row.insert(c, HistorySql.DELETE_STANDING, vehicleId);
    }

    static void forget(Connection c, String unit) throws SQLException {
        Optional<Long> id = Row.first(c, Sql.FIND_VEHICLE, r -> r.getLong(1), unit);
        if (id.isPresent()) {
            forget(c, id.get());
        }
    }

    static List<Long> missing(Connection c) throws SQLException {
        return Row.list(
                c, HistorySql.MISSING_STANDINGS, r -> r.getLong(1), VehicleStanding.RULE_VERSION);
    }

    static String unit(Connection c, long vehicleId) throws SQLException {
        return Row.first(c, "SELECT unit FROM vehicle WHERE id = ?", r -> r.getString(1), vehicleId)
                .orElseThrow();
    }

    /** Makes a vehicle's standing anew. */
    static void make(Connection c, long vehicleId) throws SQLException {
        forget(c, vehicleId);
        String unit = unit(c, vehicleId);
        Optional<Vehicle> drive = drive(c, unit);
        List<RepairMark> marks = repairs(c, unit);
        long visits =
                Row.first(c, HistorySql.COUNT_VISITS, r -> r.getLong(1), vehicleId).orElseThrow();
        List<MeasuredLevel> levels = LevelJoin.ofVehicle(c, vehicleId);
        Optional<VehicleStanding.LastVisit> last =
                last(c, vehicleId, drive.stream().toList(), levels, marks);
        VehicleTrend trend = VehicleTrend.of(levels, marks);
        VehicleStanding standing =
                last.isEmpty()
                        ? new VehicleStanding(0, List.of())
                        : VehicleStanding.of(last.get(), trend, marks);
        Row.insert(
                c,
                HistorySql.INSERT_STANDING,
                vehicleId,
                VehicleStanding.RULE_VERSION,
                drive.map(Standings::driveSha256).orElse(""),
                visits,
                last.map(l -> l.moment().id().toString()).orElse(null),
                last.map(l -> TomlText.DATE_TIME.format(l.moment().date())).orElse(null),
                last.flatMap(VehicleStanding.LastVisit::verdict).map(Verdict::word).orElse(null),
                standing.urgency(),
                standing.strength(),
                trend.asked());
        try (Row.Inserter rows = new Row.Inserter(c, HistorySql.INSERT_ATTENTION)) {
            int place = 0;
            for (Attention a : standing.reasons()) {
                rows.add(
                        vehicleId,
                        place++,
                        a.kind().word(),
                        a.part(),
                        drive.flatMap(d -> d.pulley(a.part()))
                                .map(Pulley::role)
                                .map(role -> role.word())
                                .orElse(""),
                        a.chance(),
                        a.changeDb().isPresent() ? a.changeDb().getAsDouble() : null,
                        a.sentence());
            }
            rows.flush();
        }
    }

    /** The drive as known last; none if the log has none or it cannot be read any more. */
    static Optional<Vehicle> drive(Connection c, String unit) throws SQLException {
        Optional<String> text = Row.first(c, Sql.FIND_DRIVES, r -> r.getString(1), unit, unit);
        try {
            return text.map(VisitFolder::vehicleOf);
        } catch (VisitFolderException e) {
            // The overview is no place to stumble over it; whoever asks for the drive is told.
            return Optional.empty();
        }
    }

    /** Vehicles are sisters if all but their name and description is equal. */
    static String driveSha256(Vehicle vehicle) {
        String text =
                VisitFolder.vehicleText(
                        new Vehicle(
                                "drive", "", vehicle.engine(), vehicle.belts(), vehicle.pulleys()));
        try {
            return HexFormat.of()
                    .formatHex(
                            MessageDigest.getInstance("SHA-256")
                                    .digest(text.getBytes(StandardCharsets.UTF_8)));
        } catch (NoSuchAlgorithmException e) {
            throw new IllegalStateException("every Java runtime has SHA-256", e);
        }
    }

    private static Optional<VehicleStanding.LastVisit> last(
            Connection c,
            long vehicleId,
            List<Vehicle> drive,
            List<MeasuredLevel> levels,
            List<RepairMark> marks)
            throws SQLException {
        return Row.first(
                c,
                HistorySql.LAST_VISIT,
                r -> {
                    VisitMoment moment = moment(r, "id");
                    String verdict = r.getString("verdict");
                    if (verdict == null) {
                        return VehicleStanding.LastVisit.notAnalysed(moment);
                    }
                    Findings alone =
                            new Findings(
                                    Words.of(Verdict.class, verdict),
                                    ResultRows.candidatesAlone(c, r.getLong("finding_id")),
                                    List.of(),
                                    List.of());
                    List<Risen> risen = RisenParts.of(levels, moment.id(), marks);
                    Findings inLight = alone;
                    for (Vehicle vehicle : drive) {
                        // As for findings of the visit; which tests come next is not kept.
                        inLight = Ranking.inLightOf(alone, vehicle, List.of(), risen);
                    }
                    return VehicleStanding.LastVisit.of(moment, alone, inLight);
                },
                vehicleId);
    }

    static VisitMoment moment(ResultSet r, String idColumn) throws SQLException {
        VisitMoment moment =
                VisitMoment.of(
                        UUID.fromString(r.getString(idColumn)),
                        LocalDateTime.parse(r.getString("visited_at")));
        Double km = Row.maybeNumber(r, "odometer_km");
        return km == null ? moment : moment.withOdometerKm(km);
    }

    static List<RepairMark> repairs(Connection c, String unit) throws SQLException {
        return Row.list(c, HistorySql.LIST_REPAIRS_OF_UNIT, Standings::repair, unit);
    }

    static RepairMark repair(ResultSet r) throws SQLException {
        return new RepairMark(
                UUID.fromString(r.getString("id")),
                r.getString("unit"),
                LocalDateTime.parse(r.getString("repaired_at")),
                r.getString("part"),
                r.getString("sentence"));
    }

    static List<FleetLine> lines(Connection c) throws SQLException {
        Map<Long, List<FleetLine.Reason>> reasons = new HashMap<>();
        Row.list(
                c,
                HistorySql.LIST_ATTENTION,
                r ->
                        reasons.computeIfAbsent(r.getLong("vehicle_id"), v -> new ArrayList<>())
                                .add(reason(r)));
        return Row.list(
                c,
                HistorySql.LIST_STANDINGS,
                r ->
                        new FleetLine(
                                r.getString("unit"),
                                r.getInt("visits"),
                                lastOf(r),
                                r.getInt("urgency"),
                                r.getInt("series_asked"),
                                reasons.getOrDefault(r.getLong("vehicle_id"), List.of())));
    }

    private static FleetLine.Last lastOf(ResultSet r) throws SQLException {
        String id = r.getString("visit_id");
        String verdict = r.getString("verdict");
        return id == null
                ? new FleetLine.Last(null, null, null)
                : new FleetLine.Last(
                        UUID.fromString(id),
                        LocalDateTime.parse(r.getString("visited_at")),
                        verdict == null ? null : Words.of(Verdict.class, verdict));
    }

    private static FleetLine.Reason reason(ResultSet r) throws SQLException {
        Attention a =
                Attention.of(
                        Words.of(Attention.Kind.class, r.getString("kind")),
                        r.getString("part"),
                        r.getDouble("chance"),
                        r.getString("sentence"));
        Double change = Row.maybeNumber(r, "change_db");
        return new FleetLine.Reason(
                change == null ? a : a.withChangeDb(change), r.getString("part_role"));
    }
}

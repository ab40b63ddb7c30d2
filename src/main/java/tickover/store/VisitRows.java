package tickover.store;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.sql.Connection;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.time.Instant;
import java.time.LocalDateTime;
import java.util.Arrays;
import java.util.HexFormat;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.UUID;
import tickover.diagnose.CaptureLabel;
import tickover.diagnose.Mount;
import tickover.diagnose.Regime;
import tickover.diagnose.Verdict;
import tickover.drive.Condition;

/** Visits and their captures as rows. */
final class VisitRows {
    private VisitRows() {}

    /**
     * The texts of a visit as they came.
     *
     * @param vehicle of {@code vehicle.toml}
     * @param visit of {@code visit.toml}
     */
    record Texts(String vehicle, String visit) {
        static Texts in(Path folder) throws IOException {
            return new Texts(
                    Files.readString(folder.resolve(VisitFolder.VEHICLE_FILE)),
                    Files.readString(folder.resolve(VisitFolder.VISIT_FILE)));
        }
    }

    static void insert(Connection c, Visit visit, Texts texts, Instant now) throws SQLException {
        long vehicleId = requireVehicle(c, visit.vehicle().unit());
        String id = visit.id().toString();
        Row.insert(
                c,
                Sql.INSERT_VISIT,
                id,
                vehicleId,
                TomlText.DATE_TIME.format(visit.date()),
                visit.odometerKm().isPresent() ? visit.odometerKm().getAsDouble() : null,
                visit.complaint(),
                visit.vehicle().description(),
                texts.vehicle(),
                texts.visit(),
                content(visit),
                now.toEpochMilli());
        try (Row.Inserter rows = new Row.Inserter(c, Sql.INSERT_FILE)) {
            for (KeptFile f : visit.files()) {
                rows.add(id, f.name(), f.sha256(), f.sizeBytes(), f.named());
            }
            rows.flush();
        }
        try (Row.Inserter rows = new Row.Inserter(c, Sql.INSERT_CAPTURE)) {
            int place = 0;
            for (VisitCapture capture : visit.captures()) {
                insert(rows, id, place++, capture);
            }
            rows.flush();
        }
    }

    /** Finds a vehicle's row or makes it. */
    static long requireVehicle(Connection c, String unit) throws SQLException {
        Optional<Long> known = Row.first(c, Sql.FIND_VEHICLE, r -> r.getLong(1), unit);
        if (known.isPresent()) {
            return known.get();
        }
        Row.insert(c, Sql.INSERT_VEHICLE, unit);
        return Row.first(c, Sql.FIND_VEHICLE, r -> r.getLong(1), unit).orElseThrow();
    }

    /** Finds the row of a vehicle that has to be there. */
    static long knownVehicle(Connection c, String unit) throws SQLException {
        return Row.first(c, Sql.FIND_VEHICLE, r -> r.getLong(1), unit)
                .orElseThrow(
                        () ->
                                new StoreException(
                                        StoreException.Reason.NO_SUCH_VEHICLE,
                                        "there is no vehicle "
                                                + unit
                                                + " in the log; 'tickover vehicles' lists those"
                                                + " there are"));
    }

    static long vehicleOf(Connection c, UUID visitId) throws SQLException {
        return Row.first(c, Sql.FIND_VEHICLE_OF, r -> r.getLong(1), visitId.toString())
                .orElseThrow();
    }

    static Note note(ResultSet r) throws SQLException {
        return new Note(
                UUID.fromString(r.getString("id")),
                r.getString("unit"),
                LocalDateTime.parse(r.getString("noted_at")),
                r.getString("part"),
                r.getString("visit_id"),
                r.getString("sentence"));
    }

    private static void insert(Row.Inserter rows, String visitId, int place, VisitCapture capture)
            throws SQLException {
        insertCapture(
                rows,
                capture.label(),
                visitId,
                capture.label().id(),
                place,
                capture.file(),
                capture.scaleMps2(),
                capture.speedKind().name().toLowerCase(Locale.ROOT),
                capture.speedFile().orElse(null));
    }

    /**
     * Adds the row of a capture.
     *
     * @param own the columns before those of the label: visit, capture, place, WAV file, scale,
     *     kind of speed, and its file or null
     */
    static void insertCapture(Row.Inserter rows, CaptureLabel label, Object... own)
            throws SQLException {
        Condition condition = label.condition();
        Object[] ofLabel = {
            label.point(),
            label.axis(),
            label.mount().word(),
            label.regime().word(),
            condition.aircon(),
            condition.driveGear() ? "drive" : "neutral",
            condition.headlights(),
            condition.steering(),
            condition.beltOn() ? "on" : "off",
            condition.injectorOff().isPresent() ? condition.injectorOff().getAsInt() : null
        };
        Object[] all = Arrays.copyOf(own, own.length + ofLabel.length);
        System.arraycopy(ofLabel, 0, all, own.length, ofLabel.length);
        rows.add(all);
    }

    static String content(Visit visit) {
        return HexFormat.of().formatHex(KeptFile.contentDigest(visit.files()));
    }

    static Optional<String> content(Connection c, UUID id) throws SQLException {
        return Row.first(c, Sql.FIND_CONTENT, r -> r.getString(1), id.toString());
    }

    static List<KeptFile> files(Connection c, UUID id) throws SQLException {
        return Row.list(
                c,
                Sql.FIND_FILES,
                r ->
                        new KeptFile(
                                r.getString("name"),
                                r.getString("sha256"),
                                r.getLong("size_bytes"),
                                r.getBoolean("named")),
                id.toString());
    }

    static List<String> ids(Connection c) throws SQLException {
        return Row.list(c, Sql.LIST_VISIT_IDS, r -> r.getString(1));
    }

    static List<String> captures(Connection c, UUID id) throws SQLException {
        return Row.list(c, Sql.LIST_CAPTURES, r -> r.getString(1), id.toString());
    }

    static KeptVisit keptVisit(ResultSet r) throws SQLException {
        String verdict = r.getString("verdict");
        return new KeptVisit(
                UUID.fromString(r.getString("id")),
                r.getString("unit"),
                LocalDateTime.parse(r.getString("visited_at")),
                Row.maybeNumber(r, "odometer_km"),
                r.getString("complaint"),
                r.getInt("captures"),
                verdict == null
                        ? null
                        : new KeptVisit.Analysis(
                                Instant.ofEpochMilli(r.getLong("made_at_ms")),
                                Words.of(Verdict.class, verdict)));
    }

    /** The label of a row with all columns of a capture. */
    static CaptureLabel label(ResultSet r) throws SQLException {
        Condition condition =
                Condition.UNLOADED
                        .withAircon(r.getBoolean("aircon"))
                        .withDriveGear(r.getString("gear").equals("drive"))
                        .withHeadlights(r.getBoolean("headlights"))
                        .withSteering(r.getBoolean("steering"))
                        .withBeltOn(r.getString("belt").equals("on"));
        int injectorOff = r.getInt("injector_off");
        return new CaptureLabel(
                r.getString("capture"),
                r.getString("point"),
                r.getString("axis"),
                Words.of(Mount.class, r.getString("mount")),
                Words.of(Regime.class, r.getString("regime")),
                injectorOff == 0 ? condition : condition.withInjectorOff(injectorOff));
    }
}

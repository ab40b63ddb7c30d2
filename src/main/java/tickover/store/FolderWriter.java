package tickover.store;

import java.io.BufferedWriter;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.util.stream.Collectors;
import tickover.align.SpeedReadings;
import tickover.align.SpeedSource;
import tickover.align.TachPulses;
import tickover.diagnose.CaptureLabel;
import tickover.diagnose.QualityNote;
import tickover.drive.BearingGeometry;
import tickover.drive.Belt;
import tickover.drive.Condition;
import tickover.drive.Engine;
import tickover.drive.Pulley;
import tickover.drive.PulleyBearing;
import tickover.drive.Vehicle;
import tickover.order.TimeRange;

/** Writes a draft as the files of a visit folder. */
final class FolderWriter {
    private FolderWriter() {}

    static void write(VisitDraft draft, Path dir) throws IOException {
        text(dir.resolve(VisitFolder.VEHICLE_FILE), vehicle(draft.vehicle()));
        text(dir.resolve(VisitFolder.VISIT_FILE), visit(draft));
        for (CaptureDraft capture : draft.captures()) {
            capture.samples().putAt(dir.resolve(capture.label().id() + ".wav"));
            speed(capture, dir);
        }
    }

    private static void text(Path file, TomlText text) throws IOException {
        Files.writeString(file, text.toString(), StandardOpenOption.CREATE_NEW);
    }

    static TomlText vehicle(Vehicle vehicle) {
        TomlText t = new TomlText();
        t.table("[vehicle]").put("unit", vehicle.unit());
        t.put("description", vehicle.description());
        engine(t, vehicle.engine());
        for (Belt belt : vehicle.belts()) {
            t.table("[[belts]]").put("name", belt.name());
            belt.lengthMm().ifPresent(mm -> t.put("length_mm", mm));
            if (!belt.path().isEmpty()) {
                t.putNames("path", belt.path());
            }
        }
        for (Pulley pulley : vehicle.pulleys()) {
            pulley(t, pulley);
        }
        return t;
    }

    private static void engine(TomlText t, Engine engine) {
        t.table("[engine]").put("cylinders", engine.cylinders());
        t.put("strokes", engine.strokes());
        engine.idleRpm().ifPresent(rpm -> t.put("idle_rpm", rpm));
        if (!engine.firingOrder().isEmpty()) {
            t.putWholes("firing_order", engine.firingOrder());
        }
    }

    private static void pulley(TomlText t, Pulley pulley) {
        t.table("[[pulleys]]").put("name", pulley.name());
        t.put("role", pulley.role().word());
        t.put("diameter_mm", pulley.diameterMm());
        t.put("face", pulley.face().word());
        pulley.position().ifPresent(p -> t.put("x_mm", p.xMm()).put("y_mm", p.yMm()));
        if (!pulley.passLines().isEmpty()) {
            t.line(
                    "lines",
                    pulley.passLines().stream()
                            .map(
                                    l ->
                                            "{ name = "
                                                    + TomlText.quoted(l.name())
                                                    + ", per_turn = "
                                                    + TomlText.number(l.perTurn())
                                                    + " }")
                            .collect(Collectors.joining(", ", "[", "]")));
        }
        for (PulleyBearing bearing : pulley.bearings()) {
            t.table("[[pulleys.bearings]]");
            bearing.designation().ifPresent(d -> t.put("designation", d));
            bearing.geometry().ifPresent(g -> geometry(t, g));
            t.put("rotating_ring", bearing.turningRing().word());
        }
    }

    private static void geometry(TomlText t, BearingGeometry geometry) {
        t.put("balls", geometry.balls());
        t.put("ball_diameter_mm", geometry.ballDiameterMm());
        t.put("pitch_diameter_mm", geometry.pitchDiameterMm());
        t.put("contact_angle_deg", geometry.contactAngleDeg());
    }

    private static TomlText visit(VisitDraft draft) {
        TomlText t = new TomlText();
        t.table("[visit]").put("date", draft.date());
        draft.odometerKm().ifPresent(km -> t.put("odometer_km", km));
        t.put("complaint", draft.complaint());
        draft.id().ifPresent(id -> t.put("id", id.toString()));
        for (CaptureDraft capture : draft.captures()) {
            capture(t, capture);
        }
        return t;
    }

    private static void capture(TomlText t, CaptureDraft capture) {
        CaptureLabel label = capture.label();
        t.table("[[captures]]").put("file", label.id() + ".wav");
        t.put("scale_mps2", capture.samples().scaleMps2());
        SpeedSource speed = capture.speed();
        if (speed.kind() != SpeedSource.Kind.NONE) {
            t.put(key(speed.kind()), speedFile(capture));
        }
        if (speed instanceof TachPulses tach) {
            t.put("pulses_per_turn", tach.pulsesPerTurn());
            t.put("tach_pulley", capture.tachPulley());
        }
        if (!label.point().isEmpty()) {
            t.put("point", label.point());
        }
        t.put("axis", label.axis()).put("mount", label.mount().word());
        t.put("regime", label.regime().word());
        condition(t, label.condition());
        for (QualityNote note : capture.quality()) {
            if (note.ranges().isEmpty()) {
                quality(t, note);
            }
            for (TimeRange range : note.ranges()) {
                quality(t, note).put("from_s", range.fromS()).put("to_s", range.toS());
            }
        }
    }

    private static TomlText quality(TomlText t, QualityNote note) {
        t.table("[[captures.quality]]").put("problem", note.problem().word());
        return note.text().isEmpty() ? t : t.put("text", note.text());
    }

    private static void condition(TomlText t, Condition condition) {
        t.table("[captures.condition]").put("aircon", condition.aircon());
        t.put("gear", condition.driveGear() ? "drive" : "neutral");
        t.put("headlights", condition.headlights()).put("steering", condition.steering());
        t.put("belt", condition.beltOn() ? "on" : "off");
        condition.injectorOff().ifPresent(n -> t.put("injector_off", n));
    }

    private static String key(SpeedSource.Kind kind) {
        return switch (kind) {
            case TACH -> "tach";
            case OBD -> "obd";
            case KNOWN -> "rpm";
            case NONE -> throw new IllegalArgumentException("kind=NONE, need one with a record");
        };
    }

    private static String speedFile(CaptureDraft capture) {
        return capture.label().id() + "." + key(capture.speed().kind()) + ".csv";
    }

    private static void speed(CaptureDraft capture, Path dir) throws IOException {
        SpeedSource speed = capture.speed();
        if (speed.kind() == SpeedSource.Kind.NONE) {
            return;
        }
        try (BufferedWriter out =
                Files.newBufferedWriter(
                        dir.resolve(speedFile(capture)), StandardOpenOption.CREATE_NEW)) {
            if (speed instanceof TachPulses tach) {
                out.write("time_s\r\n");
                for (double timeS : tach.timesS()) {
                    out.write(TomlText.number(timeS) + "\r\n");
                }
            } else if (speed instanceof SpeedReadings readings) {
                double[] timesS = readings.timesS();
                double[] speedsRpm = readings.speedsRpm();
                out.write("time_s,rpm\r\n");
                for (int i = 0; i < timesS.length; i++) {
                    out.write(
                            TomlText.number(timesS[i])
                                    + ","
                                    + TomlText.number(speedsRpm[i])
                                    + "\r\n");
                }
            }
        }
    }
}

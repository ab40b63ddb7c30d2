package tickover.store;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.OptionalDouble;
import java.util.OptionalInt;
import java.util.Set;
import java.util.UUID;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import tickover.align.SpeedSource;
import tickover.diagnose.CaptureLabel;
import tickover.diagnose.Mount;
import tickover.diagnose.QualityNote;
import tickover.diagnose.QualityProblem;
import tickover.diagnose.Regime;
import tickover.drive.Condition;
import tickover.drive.DriveModel;
import tickover.drive.Pulley;
import tickover.drive.Vehicle;
import tickover.order.TimeRange;

/** Reads {@code visit.toml}, with the vehicle that it is about already known. */
final class VisitToml {
    private static final Set<String> FILE = Set.of("visit", "captures");
    private static final Set<String> VISIT = Set.of("date", "odometer_km", "complaint", "id");
    private static final Set<String> CAPTURE =
            Set.of(
                    "file",
                    "scale_mps2",
                    "tach",
                    "obd",
                    "rpm",
                    "pulses_per_turn",
                    "tach_pulley",
                    "point",
                    "axis",
                    "mount",
                    "regime",
                    "condition",
                    "quality");
    private static final Set<String> QUALITY = Set.of("problem", "from_s", "to_s", "text");
    private static final List<String> PROBLEMS =
            QualityProblem.recorded().stream().map(QualityProblem::word).toList();
    private static final Set<String> CONDITION =
            Set.of("aircon", "gear", "headlights", "steering", "belt", "injector_off");
    private static final List<String> SPEEDS = List.of("tach", "obd", "rpm");
    private static final List<String> MOUNTS =
            Arrays.stream(Mount.values()).map(Mount::word).toList();
    private static final List<String> REGIMES =
            Arrays.stream(Regime.values()).map(Regime::word).toList();
    private static final String CRANK = "crank";
    private static final Pattern UUID_FORM =
            Pattern.compile("[0-9a-fA-F]{8}(-[0-9a-fA-F]{4}){3}-[0-9a-fA-F]{12}");
    private static final Pattern INJECTOR_POINT = Pattern.compile("injector-(\\d{1,9})");

    private final FolderFiles folder;
    private final Vehicle vehicle;
    private final Map<String, Double> turns = new HashMap<>();

    private VisitToml(FolderFiles folder, Vehicle vehicle) {
        this.folder = folder;
        this.vehicle = vehicle;
    }

    /**
     * What the file says.
     *
     * @param facts all but the captures
     * @param captures in their order
     */
    record Parsed(Visit.VisitFacts facts, List<VisitCapture> captures) {}

    static Parsed read(FolderFiles folder, Path path, Vehicle vehicle) {
        Keys file = Keys.parse(path, FILE);
        Keys visit =
                file.table("visit", VISIT)
                        .orElseThrow(() -> file.missing("visit", "[visit] with date"));
        Visit.VisitFacts facts = facts(visit, vehicle);
        List<VisitCapture> captures = new VisitToml(folder, vehicle).captures(file);
        return new Parsed(facts, captures);
    }

    private static Visit.VisitFacts facts(Keys t, Vehicle vehicle) {
        String dateNeed = "a local date and time without quotes, such as 2026-03-04T09:30:00";
        var date = t.dateTime("date", dateNeed).orElseThrow(() -> t.missing("date", dateNeed));
        String odometerNeed = "the distance in km, 0 or more";
        OptionalDouble odometerKm = t.number("odometer_km", odometerNeed);
        if (odometerKm.isPresent() && !(odometerKm.getAsDouble() >= 0)) {
            throw t.wrong(
                    "odometer_km",
                    Wording.number(odometerKm.getAsDouble()) + " is below 0; give " + odometerNeed);
        }
        String complaint = t.text("complaint", "a text").orElse("");
        String idNeed = "a UUID such as 0195f0c2-7b3e-7c1a-9d52-5d0e3c8a6f10, or leave it out";
        UUID id = null;
        String written = t.text("id", idNeed).orElse(null);
        if (written != null) {
            if (!UUID_FORM.matcher(written).matches()) {
                throw t.wrong("id", Wording.quoted(written) + " is no UUID; give " + idNeed);
            }
            id = UUID.fromString(written);
        }
        return new Visit.VisitFacts(
                vehicle,
                date,
                odometerKm.isPresent() ? odometerKm.getAsDouble() : null,
                complaint,
                id);
    }

    private List<VisitCapture> captures(Keys file) {
        List<VisitCapture> captures = new ArrayList<>();
        Set<String> ids = new HashSet<>();
        for (Keys t : file.tables("captures", CAPTURE)) {
            captures.add(capture(t, ids));
        }
        if (captures.isEmpty()) {
            throw file.missing(
                    "captures", "at least one [[captures]]; a visit is what was recorded");
        }
        return captures;
    }

    private VisitCapture capture(Keys t, Set<String> ids) {
        String fileNeed = "the name of a WAV file in the folder";
        String name = t.name("file", fileNeed).orElseThrow(() -> t.missing("file", fileNeed));
        Path wav = folder.named(t, "file", name);
        String id = withoutEnding(name);
        if (!ids.add(id.toLowerCase(Locale.ROOT))) {
            throw t.wrong(
                    "file",
                    Wording.quoted(name) + " appears twice; give each capture a file of its own");
        }
        double scaleMps2 = t.numberAbove0("scale_mps2", "m/s² per full scale").orElse(1.0);
        List<String> speeds = SPEEDS.stream().filter(t::has).toList();
        if (speeds.size() > 1) {
            throw t.wrong(
                    speeds.get(1),
                    "is a second speed source besides "
                            + speeds.get(0)
                            + "; give at most one of tach, obd, rpm");
        }
        VisitCapture.Tach tach = tach(t);
        CaptureLabel label = label(t, id);
        List<QualityNote> quality =
                t.tables("quality", QUALITY).stream().map(q -> quality(q, id)).toList();
        if (speeds.isEmpty()) {
            return new VisitCapture(
                    label, wav, scaleMps2, SpeedSource.Kind.NONE, null, tach, quality);
        }
        String key = speeds.get(0);
        String speedNeed = "the name of a CSV file in the folder";
        Path speed = folder.named(t, key, t.name(key, speedNeed).orElseThrow());
        SpeedSource.Kind kind =
                switch (key) {
                    case "tach" -> SpeedSource.Kind.TACH;
                    case "obd" -> SpeedSource.Kind.OBD;
                    default -> SpeedSource.Kind.KNOWN;
                };
        return new VisitCapture(label, wav, scaleMps2, kind, speed, tach, quality);
    }

    private static QualityNote quality(Keys t, String capture) {
        String problemNeed = "one of " + String.join(", ", PROBLEMS);
        if (!t.has("problem")) {
            throw t.missing("problem", problemNeed);
        }
        QualityProblem problem =
                QualityProblem.ofWord(t.word("problem", PROBLEMS, "")).orElseThrow();
        String text = t.name("text", "one line that says what happened").orElse("");
        return new QualityNote(capture, problem, range(t), text);
    }

    /** When it happened; both ends or neither. */
    private static List<TimeRange> range(Keys t) {
        String fromNeed = "the seconds from the first sample to where it begins, 0 or more";
        String toNeed = "the seconds from the first sample to where it ends, above from_s";
        OptionalDouble fromS = t.number("from_s", fromNeed);
        OptionalDouble toS = t.number("to_s", toNeed);
        if (fromS.isEmpty() && toS.isEmpty()) {
            return List.of();
        }
        if (toS.isEmpty()) {
            throw t.missing("to_s", toNeed + ", or leave out from_s too");
        }
        if (fromS.isEmpty()) {
            throw t.missing("from_s", fromNeed + ", or leave out to_s too");
        }
        if (!(fromS.getAsDouble() >= 0)) {
            throw t.wrong(
                    "from_s",
                    Wording.number(fromS.getAsDouble()) + " is below 0; give " + fromNeed);
        }
        if (!(toS.getAsDouble() > fromS.getAsDouble())) {
            throw t.wrong(
                    "to_s",
                    Wording.number(toS.getAsDouble())
                            + " is not after from_s, "
                            + Wording.number(fromS.getAsDouble())
                            + "; give "
                            + toNeed);
        }
        return List.of(new TimeRange(fromS.getAsDouble(), toS.getAsDouble()));
    }

    private static String withoutEnding(String name) {
        int dot = name.lastIndexOf('.');
        return dot > 0 ? name.substring(0, dot) : name;
    }

    private VisitCapture.Tach tach(Keys t) {
        int pulsesPerTurn =
                t.whole(
                                "pulses_per_turn",
                                1,
                                Integer.MAX_VALUE,
                                "the pulses per turn of the marked pulley, 1 or more")
                        .orElse(1);
        String pulley =
                t.name("tach_pulley", "the name of the pulley that carries the mark").orElse(CRANK);
        return new VisitCapture.Tach(pulley, pulsesPerTurn, turnsPerCrankTurn(t, pulley));
    }

    private double turnsPerCrankTurn(Keys t, String name) {
        if (vehicle.pulley(name).isEmpty()) {
            if (name.equals(CRANK)) {
                return 1;
            }
            throw t.wrong(
                    "tach_pulley",
                    Wording.quoted(name)
                            + " is no pulley of vehicle.toml; give one of "
                            + Wording.list(vehicle.pulleys().stream().map(Pulley::name).toList()));
        }
        // Most captures of a visit have the same mark, and a drive takes some work to make.
        return turns.computeIfAbsent(
                name, n -> DriveModel.of(vehicle).part(n).orElseThrow().turnsPerCrankTurn());
    }

    private CaptureLabel label(Keys t, String id) {
        String point =
                t.name("point", "where the probe stood: a pulley's name or another word")
                        .orElse("");
        Matcher injector = INJECTOR_POINT.matcher(point);
        if (injector.matches()) {
            requireInjector(t, "point", Integer.parseInt(injector.group(1)));
        }
        String axis = t.text("axis", "radial, axial, vertical, lateral or another word").orElse("");
        String mount = t.word("mount", MOUNTS, Mount.HAND.word());
        String regime = t.word("regime", REGIMES, Regime.IDLE.word());
        return new CaptureLabel(
                id,
                point,
                axis,
                Mount.valueOf(mount.toUpperCase(Locale.ROOT)),
                Regime.valueOf(regime.toUpperCase(Locale.ROOT)),
                t.table("condition", CONDITION).map(this::condition).orElse(Condition.UNLOADED));
    }

    private Condition condition(Keys t) {
        Condition condition =
                Condition.UNLOADED
                        .withAircon(t.flag("aircon"))
                        .withDriveGear(
                                t.word("gear", List.of("neutral", "drive"), "neutral")
                                        .equals("drive"))
                        .withHeadlights(t.flag("headlights"))
                        .withSteering(t.flag("steering"))
                        .withBeltOn(t.word("belt", List.of("on", "off"), "on").equals("on"));
        OptionalInt injectorOff =
                t.whole(
                        "injector_off",
                        1,
                        vehicle.engine().cylinders(),
                        "a cylinder's number from 1 to " + vehicle.engine().cylinders());
        return injectorOff.isPresent()
                ? condition.withInjectorOff(injectorOff.getAsInt())
                : condition;
    }

    private void requireInjector(Keys t, String key, int number) {
        int cylinders = vehicle.engine().cylinders();
        if (!(number >= 1 && number <= cylinders)) {
            throw t.wrong(
                    key,
                    "there is no injector "
                            + number
                            + " on "
                            + cylinders
                            + " cylinders; give injector-1 to injector-"
                            + cylinders);
        }
    }
}

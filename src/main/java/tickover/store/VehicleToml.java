package tickover.store;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashSet;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.OptionalInt;
import java.util.Set;
import java.util.regex.Pattern;
import tickover.drive.BearingGeometry;
import tickover.drive.Belt;
import tickover.drive.Engine;
import tickover.drive.Face;
import tickover.drive.PassLine;
import tickover.drive.Position;
import tickover.drive.Pulley;
import tickover.drive.PulleyBearing;
import tickover.drive.Ring;
import tickover.drive.Role;
import tickover.drive.Vehicle;

/** Reads {@code vehicle.toml}. */
final class VehicleToml {
    private static final int MAX_CYLINDERS = 16;
    private static final int MIN_BALLS = 3;
    private static final int MAX_BALLS = 1000;

    /** What a drive can be computed with; a test holds these against the kinematics. */
    private static final double SMALLEST_MM = 0.001;

    private static final double LARGEST_MM = 1e6;
    private static final double MOST_PER_TURN = 1e6;

    /** What findings call components that are no pulleys. */
    private static final Pattern RESERVED =
            Pattern.compile("engine|none|valve-train|injector-.*|belt:.*");

    private static final Set<String> FILE = Set.of("vehicle", "engine", "belts", "pulleys");
    private static final Set<String> VEHICLE = Set.of("unit", "description");
    private static final Set<String> ENGINE =
            Set.of("cylinders", "strokes", "idle_rpm", "firing_order");
    private static final Set<String> BELT = Set.of("name", "length_mm", "path");
    private static final Set<String> PULLEY =
            Set.of("name", "role", "diameter_mm", "face", "x_mm", "y_mm", "lines", "bearings");
    private static final Set<String> LINE = Set.of("name", "per_turn");
    private static final Set<String> BEARING =
            Set.of(
                    "designation",
                    "balls",
                    "ball_diameter_mm",
                    "pitch_diameter_mm",
                    "contact_angle_deg",
                    "rotating_ring");
    private static final List<String> ROLES = Arrays.stream(Role.values()).map(Role::word).toList();

    private VehicleToml() {}

    static Vehicle read(Path path) {
        return vehicle(Keys.parse(path, FILE));
    }

    /** Reads a text that stands for a file of the given name. */
    static Vehicle read(String name, String text) {
        return vehicle(Keys.parse(name, text, FILE));
    }

    private static Vehicle vehicle(Keys file) {
        Keys vehicle =
                file.table("vehicle", VEHICLE)
                        .orElseThrow(() -> file.missing("vehicle", "[vehicle] with unit"));
        String unitNeed = "the fleet's name for the vehicle";
        String unit =
                vehicle.name("unit", unitNeed).orElseThrow(() -> vehicle.missing("unit", unitNeed));
        String description = vehicle.text("description", "a text").orElse("");
        Engine engine =
                engine(
                        file.table("engine", ENGINE)
                                .orElseThrow(
                                        () -> file.missing("engine", "[engine] with cylinders")));
        List<Pulley> pulleys = pulleys(file);
        List<Belt> belts = belts(file, pulleys.stream().map(Pulley::name).toList());
        return new Vehicle(unit, description, engine, belts, pulleys);
    }

    private static Engine engine(Keys t) {
        String need = "a whole number from 1 to " + MAX_CYLINDERS;
        int cylinders =
                t.whole("cylinders", 1, MAX_CYLINDERS, need)
                        .orElseThrow(() -> t.missing("cylinders", need));
        int strokes = t.whole("strokes", 2, 4, "4 or 2").orElse(4);
        if (strokes == 3) {
            throw t.wrong("strokes", "3 is out of range; give 4 or 2");
        }
        Engine engine = Engine.of(cylinders, strokes);
        OptionalDouble idleRpm = t.numberAbove0("idle_rpm", "the idle speed in rpm");
        if (idleRpm.isPresent()) {
            engine = engine.withIdleRpm(idleRpm.getAsDouble());
        }
        String orderNeed = "each cylinder from 1 to " + cylinders + " once";
        List<Integer> firingOrder = t.wholes("firing_order", orderNeed);
        if (t.has("firing_order")) {
            Set<Integer> seen = new HashSet<>(firingOrder);
            boolean inRange = seen.stream().allMatch(c -> c >= 1 && c <= cylinders);
            if (!inRange || seen.size() != cylinders || firingOrder.size() != cylinders) {
                throw t.wrong(
                        "firing_order", firingOrder + " is no firing order; give " + orderNeed);
            }
            engine = engine.withFiringOrder(firingOrder);
        }
        return engine;
    }

    private static List<Belt> belts(Keys file, List<String> pulleys) {
        List<Belt> belts = new ArrayList<>();
        Set<String> names = new HashSet<>();
        for (Keys t : file.tables("belts", BELT)) {
            String name = uniqueName(t, names, "belt");
            OptionalDouble lengthMm = sizeMm(t, "length_mm", "the length at the pitch line in mm");
            List<String> path = t.names("path", "pulley names in order of contact");
            requireStops(t, path, pulleys);
            belts.add(
                    lengthMm.isPresent()
                            ? Belt.of(name, lengthMm.getAsDouble(), path)
                            : Belt.of(name, path));
        }
        return belts;
    }

    private static void requireStops(Keys t, List<String> path, List<String> pulleys) {
        Set<String> seen = new HashSet<>();
        for (String stop : path) {
            if (!pulleys.contains(stop)) {
                throw t.wrong(
                        "path",
                        Wording.quoted(stop)
                                + " is no pulley; give names of [[pulleys]]: "
                                + Wording.list(pulleys));
            }
            if (!seen.add(stop)) {
                throw t.wrong(
                        "path",
                        Wording.quoted(stop) + " appears twice; give each pulley once, in order");
            }
        }
        if (path.size() == 1) {
            throw t.wrong("path", "has one pulley; give two or more, or leave it out");
        }
    }

    private static String uniqueName(Keys t, Set<String> names, String what) {
        String need = "a name of its own for each " + what;
        String name = t.name("name", need).orElseThrow(() -> t.missing("name", need));
        if (!names.add(name)) {
            throw t.wrong("name", Wording.quoted(name) + " appears twice; give " + need);
        }
        return name;
    }

    private static List<Pulley> pulleys(Keys file) {
        List<Pulley> pulleys = new ArrayList<>();
        Set<String> names = new HashSet<>();
        for (Keys t : file.tables("pulleys", PULLEY)) {
            pulleys.add(pulley(t, names));
        }
        if (!pulleys.isEmpty() && pulleys.stream().noneMatch(p -> p.role() == Role.CRANK)) {
            throw file.wrong(
                    "pulleys",
                    "none has the role crank; give the crank's pulley, by which all others are"
                            + " measured");
        }
        return pulleys;
    }

    private static Pulley pulley(Keys t, Set<String> names) {
        String name = uniqueName(t, names, "pulley");
        if (RESERVED.matcher(name).matches()) {
            throw t.wrong(
                    "name",
                    Wording.quoted(name)
                            + " is a word for something else in findings; give the pulley another"
                            + " name");
        }
        if (!t.has("role")) {
            throw t.missing("role", "one of " + String.join(", ", ROLES));
        }
        Role role = Role.ofWord(t.word("role", ROLES, "")).orElseThrow();
        String need = "the diameter at the belt's pitch line in mm";
        double diameterMm =
                sizeMm(t, "diameter_mm", need).orElseThrow(() -> t.missing("diameter_mm", need));
        Pulley.Builder pulley = Pulley.named(name, role, diameterMm);
        boolean flat =
                t.word("face", List.of(Face.GROOVED.word(), Face.FLAT.word()), Face.GROOVED.word())
                        .equals(Face.FLAT.word());
        pulley.face(flat ? Face.FLAT : Face.GROOVED);
        position(t).ifPresent(pulley::at);
        for (Keys line : t.tables("lines", LINE)) {
            pulley.line(line(line));
        }
        for (Keys bearing : t.tables("bearings", BEARING)) {
            pulley.bearing(bearing(bearing, role));
        }
        return pulley.build();
    }

    private static Optional<Position> position(Keys t) {
        OptionalDouble xMm = t.number("x_mm", "the centre's place to the right in mm");
        OptionalDouble yMm = t.number("y_mm", "the centre's place upwards in mm");
        t.requireBetween("x_mm", xMm, -LARGEST_MM, LARGEST_MM, "a place in mm");
        t.requireBetween("y_mm", yMm, -LARGEST_MM, LARGEST_MM, "a place in mm");
        if (xMm.isPresent() != yMm.isPresent()) {
            throw t.missing(xMm.isPresent() ? "y_mm" : "x_mm", "both x_mm and y_mm, or neither");
        }
        return xMm.isPresent()
                ? Optional.of(new Position(xMm.getAsDouble(), yMm.getAsDouble()))
                : Optional.empty();
    }

    private static OptionalDouble sizeMm(Keys t, String key, String need) {
        return t.numberAbove0(key, SMALLEST_MM, LARGEST_MM, need);
    }

    private static PassLine line(Keys t) {
        String nameNeed = "a word for what passes, such as vanes";
        String name = t.name("name", nameNeed).orElseThrow(() -> t.missing("name", nameNeed));
        String need = "how many pass per turn of the pulley";
        return new PassLine(
                name,
                t.numberAbove0("per_turn", 1 / MOST_PER_TURN, MOST_PER_TURN, need)
                        .orElseThrow(() -> t.missing("per_turn", need)));
    }

    private static PulleyBearing bearing(Keys t, Role role) {
        String ringWord =
                t.word(
                        "rotating_ring",
                        List.of(Ring.OUTER.word(), Ring.INNER.word()),
                        role.usualTurningRing().word());
        Ring ring = ringWord.equals(Ring.OUTER.word()) ? Ring.OUTER : Ring.INNER;
        Optional<String> designation =
                t.name("designation", "what is printed on the bearing, or leave it out");
        Optional<BearingGeometry> geometry = geometry(t);
        if (geometry.isPresent()) {
            return designation.isPresent()
                    ? PulleyBearing.of(designation.get(), geometry.get(), ring)
                    : PulleyBearing.ofGeometry(geometry.get(), ring);
        }
        return designation.isPresent()
                ? PulleyBearing.ofDesignation(designation.get(), ring)
                : PulleyBearing.unknown(ring);
    }

    private static Optional<BearingGeometry> geometry(Keys t) {
        OptionalInt balls =
                t.whole("balls", MIN_BALLS, MAX_BALLS, "the number of rolling elements, 3 or more");
        String ballNeed = "the diameter of a rolling element in mm";
        OptionalDouble ballMm = sizeMm(t, "ball_diameter_mm", ballNeed);
        String pitchNeed = "the diameter of the circle through the balls' centres in mm";
        OptionalDouble pitchMm = sizeMm(t, "pitch_diameter_mm", pitchNeed);
        OptionalDouble angleDeg = t.number("contact_angle_deg", "0 to below 90 degrees");
        boolean none = balls.isEmpty() && ballMm.isEmpty() && pitchMm.isEmpty();
        if (none && angleDeg.isEmpty()) {
            return Optional.empty();
        }
        String all = "balls, ball_diameter_mm and pitch_diameter_mm together, or none of them";
        int count = balls.orElseThrow(() -> t.missing("balls", all));
        double ball = ballMm.orElseThrow(() -> t.missing("ball_diameter_mm", all));
        double pitch = pitchMm.orElseThrow(() -> t.missing("pitch_diameter_mm", all));
        if (!(pitch > ball)) {
            throw t.wrong(
                    "pitch_diameter_mm",
                    Wording.number(pitch)
                            + " is not above the ball diameter "
                            + Wording.number(ball)
                            + "; give "
                            + pitchNeed);
        }
        double angle = angleDeg.orElse(0);
        if (!(angle >= 0 && angle < 90)) {
            throw t.wrong(
                    "contact_angle_deg",
                    Wording.number(angle) + " is out of range; give 0 to below 90 degrees");
        }
        return Optional.of(new BearingGeometry(count, ball, pitch, angle));
    }
}

package tickover.drive;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.stream.Stream;

/**
 * The kinematics of a vehicle's accessory drive: how fast and which way every part turns, and which
 * orders it can make. What cannot be computed is absent; {@link #notes} says why.
 */
public final class DriveModel {
    /** Length of the capture that {@link #collisions} are judged for, s. */
    public static final double ORDINARY_CAPTURE_S = 20;

    /** Its speed where the vehicle's idle speed is not given, rpm. */
    public static final double ORDINARY_IDLE_RPM = 800;

    /** Up to which order {@link #collisions} count harmonics of engine and crank lines. */
    public static final double ENGINE_ORDERS = 12;

    private final Vehicle vehicle;
    private final SearchTolerance tolerance;
    private final Map<String, MeasuredTurns> measured;
    private final List<DrivePart> parts;
    private final List<DriveBelt> belts;
    private final List<PartLine> engineLines;
    private final List<Collision> collisions;
    private final List<String> notes;

    private DriveModel(
            Vehicle vehicle, SearchTolerance tolerance, Map<String, MeasuredTurns> measured) {
        this.vehicle = Objects.requireNonNull(vehicle, "vehicle");
        this.tolerance = tolerance;
        this.measured = Map.copyOf(measured);
        SizeCheck.require(vehicle);
        List<String> found = new ArrayList<>();
        if (vehicle.pulleys().isEmpty()) {
            found.add(
                    "vehicle "
                            + vehicle.unit()
                            + " lists no pulleys, so only what the engine itself does can be"
                            + " judged; add its pulleys with their diameter_mm");
            this.belts = List.of();
            this.parts = List.of();
        } else {
            DriveSpeeds speeds = new DriveSpeeds(vehicle, tolerance.beltSlipRatio());
            found.addAll(speeds.notes());
            this.belts = belts(speeds, found);
            this.parts = parts(speeds, found);
        }
        this.engineLines = engineLines(vehicle.engine());
        this.collisions = findCollisions();
        this.notes = List.copyOf(found);
    }

    /**
     * Builds the model with the usual tolerances.
     *
     * @param vehicle as the user measured it
     * @return the model
     * @throws IllegalArgumentException if there are pulleys but none has the role crank, or a size
     *     is one that no drive has
     */
    public static DriveModel of(Vehicle vehicle) {
        return of(vehicle, SearchTolerance.USUAL);
    }

    /**
     * Builds the model with stated tolerances.
     *
     * @param vehicle as the user measured it
     * @param tolerance how far real orders may be from nominal ones
     * @return the model
     * @throws IllegalArgumentException if there are pulleys but none has the role crank, or a size
     *     is one that no drive has
     */
    public static DriveModel of(Vehicle vehicle, SearchTolerance tolerance) {
        return new DriveModel(vehicle, Objects.requireNonNull(tolerance, "tolerance"), Map.of());
    }

    /**
     * The same drive with a pulley's speed taken from the data instead of the diameters: all its
     * lines move with it, and search ranges shrink to what the measurement leaves open. Other
     * pulleys stay as they are, because each slips on its own.
     *
     * @param pulley name of a pulley that is not the crank's
     * @param turns what was measured
     * @return a refined model
     * @throws IllegalArgumentException if there is no such pulley, or it is the crank's
     */
    public DriveModel withMeasured(String pulley, MeasuredTurns turns) {
        Objects.requireNonNull(turns, "turns");
        DrivePart known =
                part(pulley)
                        .orElseThrow(
                                () ->
                                        new IllegalArgumentException(
                                                "pulley="
                                                        + pulley
                                                        + ", need a pulley of vehicle "
                                                        + vehicle.unit()));
        if (known.role() == Role.CRANK) {
            throw new IllegalArgumentException(
                    "pulley=" + pulley + ", need one that is not the crank's: it turns once");
        }
        Map<String, MeasuredTurns> all = new HashMap<>(measured);
        all.put(pulley, turns);
        return new DriveModel(vehicle, tolerance, all);
    }

    private List<DriveBelt> belts(DriveSpeeds speeds, List<String> found) {
        List<DriveBelt> list = new ArrayList<>();
        for (Belt belt : vehicle.belts()) {
            BeltRouter.Answer answer = BeltRouter.layOut(vehicle, belt);
            answer.problem().ifPresent(found::add);
            DriveBelt made =
                    new DriveBelt(
                            belt, answer.route().orElse(null), speeds.travelMm(belt), tolerance);
            made.lengthContradiction(tolerance.beltLengthRatio()).ifPresent(found::add);
            list.add(made);
        }
        return List.copyOf(list);
    }

    private List<DrivePart> parts(DriveSpeeds speeds, List<String> found) {
        DriveLines lines = new DriveLines(tolerance);
        List<DrivePart> list = new ArrayList<>();
        for (Pulley pulley : vehicle.pulleys()) {
            List<PartBearing> bearings = PartBearing.of(pulley);
            PulleySpeed speed = measured(pulley, speeds.of(pulley));
            noteUnknownBearings(pulley, found);
            list.add(
                    new DrivePart(
                            pulley,
                            speed,
                            contact(pulley.name()).orElse(null),
                            bearings,
                            lines.of(pulley, speed, bearings)));
        }
        return List.copyOf(list);
    }

    private PulleySpeed measured(Pulley pulley, PulleySpeed nominal) {
        MeasuredTurns turns = measured.get(pulley.name());
        return turns == null ? nominal : nominal.measuredAs(turns);
    }

    private static void noteUnknownBearings(Pulley pulley, List<String> found) {
        for (int i = 0; i < pulley.bearings().size(); i++) {
            PulleyBearing bearing = pulley.bearings().get(i);
            if (PartBearing.choices(bearing).isEmpty()) {
                found.add(
                        "pulley "
                                + pulley.name()
                                + ", "
                                + PartBearing.label(i, bearing)
                                + ": internals unknown, no bearing lines; give balls,"
                                + " ball_diameter_mm and pitch_diameter_mm, or a designation of "
                                + String.join(", ", BearingTable.designations()));
            }
        }
    }

    private Optional<BeltRoute.Contact> contact(String pulley) {
        return belts.stream()
                .flatMap(b -> b.route().stream())
                .flatMap(r -> r.contact(pulley).stream())
                .findFirst();
    }

    private static List<PartLine> engineLines(Engine engine) {
        return List.of(
                engineLine(LineKind.CYCLE, engine.cycleOrder()),
                engineLine(LineKind.FIRING, engine.firingOrders()));
    }

    private static PartLine engineLine(String kind, double order) {
        return new PartLine(PartLine.ENGINE, kind, PartLine.ENGINE, order, 0, List.of());
    }

    private List<Collision> findCollisions() {
        double idleRpm = vehicle.engine().idleRpm().orElse(ORDINARY_IDLE_RPM);
        Separability.Spec spec =
                new Separability.Spec(ORDINARY_CAPTURE_S, idleRpm, 1, ENGINE_ORDERS);
        return Separability.of(vehicle, lines(), spec).pairs().stream()
                .filter(p -> p.gapOrders() < spec.resolutionOrders())
                .map(Collision::of)
                .toList();
    }

    /**
     * Returns the vehicle that it models.
     *
     * @return as the user measured it
     */
    public Vehicle vehicle() {
        return vehicle;
    }

    /**
     * Returns the pulleys.
     *
     * @return one for each pulley of the vehicle, in its order
     */
    public List<DrivePart> parts() {
        return parts;
    }

    /**
     * Finds a pulley.
     *
     * @param name its name
     * @return the part, or empty
     */
    public Optional<DrivePart> part(String name) {
        return parts.stream().filter(p -> p.name().equals(name)).findFirst();
    }

    /**
     * Returns the belts.
     *
     * @return one for each belt of the vehicle, in its order
     */
    public List<DriveBelt> belts() {
        return belts;
    }

    /**
     * Returns what the engine itself makes; every harmonic of these may be strong.
     *
     * @return once per working cycle, and once per firing
     */
    public List<PartLine> engineLines() {
        return engineLines;
    }

    /**
     * Returns every line of every pulley and belt and of the engine.
     *
     * @return pulleys first, then belts, then the engine
     */
    public List<PartLine> lines() {
        return Stream.of(
                        parts.stream().flatMap(p -> p.lines().stream()),
                        belts.stream().flatMap(b -> b.line().stream()),
                        engineLines.stream())
                .flatMap(s -> s)
                .toList();
    }

    /**
     * Returns the lines that an ordinary capture cannot tell apart: lines of different parts closer
     * than its resolution, harmonics of the engine's and the crank's lines included. {@link
     * Separability} answers for other captures and more harmonics.
     *
     * @return each pair once
     */
    public List<Collision> collisions() {
        return collisions;
    }

    /**
     * Returns what could not be computed or does not fit together.
     *
     * @return whole sentences that name the belt or pulley; empty if all is well
     */
    public List<String> notes() {
        return notes;
    }
}

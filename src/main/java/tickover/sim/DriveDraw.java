package tickover.sim;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import tickover.drive.BearingGeometry;
import tickover.drive.Engine;
import tickover.drive.Face;
import tickover.drive.PassLine;
import tickover.drive.Position;
import tickover.drive.Ring;
import tickover.drive.Role;

/**
 * Draws an engine and an accessory drive that could exist: grooved pulleys around a ring, flat ones
 * pressing the belt in between two of them, and the belt's way checked by {@link BeltRun}.
 */
final class DriveDraw {
    private static final int LAYOUT_TRIES = 4000;

    /** Firing orders in use for even firing; other cylinder counts fire in plain order here. */
    private static final Map<Integer, List<Integer>> FIRING_ORDERS =
            Map.of(
                    3, List.of(1, 3, 2),
                    4, List.of(1, 3, 4, 2),
                    5, List.of(1, 2, 4, 5, 3),
                    6, List.of(1, 5, 3, 6, 2, 4),
                    8, List.of(1, 8, 4, 3, 6, 5, 7, 2));

    private final Draw draw;

    private DriveDraw(Draw draw) {
        this.draw = draw;
    }

    static TrueDrive draw(Draw draw) {
        return new DriveDraw(draw).drive();
    }

    private TrueDrive drive() {
        Engine engine = engine();
        for (int i = 0; i < LAYOUT_TRIES; i++) {
            Optional<TrueDrive> drive = layout(engine);
            if (drive.isPresent()) {
                return drive.get();
            }
        }
        throw new IllegalStateException(
                "no layout among tries=" + LAYOUT_TRIES + ", need one; loosen the layout's ranges");
    }

    private Engine engine() {
        int[] counts = {3, 4, 5, 6, 8};
        int cylinders = counts[draw.pickWeighted(0.13, 0.66, 0.05, 0.11, 0.05)];
        double idleRpm = Math.rint(draw.between(cylinders > 4 ? 600 : 690, 880) / 10) * 10;
        return Engine.of(cylinders, 4)
                .withIdleRpm(idleRpm)
                .withFiringOrder(FIRING_ORDERS.get(cylinders));
    }

    /** What a pulley is before it has a place. */
    private record Plan(Role role, String name, double diameterMm, Face face) {}

    private Optional<TrueDrive> layout(Engine engine) {
        List<Plan> plans = plans();
        Plan apart = null;
        if (plans.size() >= 6 && draw.chance(0.2)) {
            apart =
                    plans.stream()
                            .filter(
                                    p ->
                                            p.role() == Role.COMPRESSOR
                                                    || p.role() == Role.STEERING_PUMP
                                                    || p.role() == Role.FAN)
                            .findFirst()
                            .orElse(null);
        }
        Plan second = apart;
        List<Plan> main = plans.stream().filter(p -> second == null || !p.equals(second)).toList();
        Map<String, TruePulley> placed = new HashMap<>();
        List<String> path = place(main, placed);
        List<TruePulley> pulleys = new ArrayList<>();
        path.forEach(name -> pulleys.add(placed.get(name)));
        Optional<BeltRun> run = BeltRun.of(pulleys);
        if (run.isEmpty()) {
            return Optional.empty();
        }
        List<TrueBelt> belts = new ArrayList<>();
        belts.add(new TrueBelt("main", path, run.get()));
        if (second != null) {
            double angle = Math.toRadians(draw.between(150, 390));
            double distance = draw.between(220, 330);
            TruePulley p = pulley(second, distance * Math.cos(angle), distance * Math.sin(angle));
            TruePulley crank = placed.get("crank");
            Optional<BeltRun> secondRun = BeltRun.of(List.of(crank, p));
            if (secondRun.isEmpty()) {
                return Optional.empty();
            }
            pulleys.add(p);
            belts.add(new TrueBelt("second", List.of("crank", p.name()), secondRun.get()));
        }
        return Optional.of(new TrueDrive(engine, draw.shuffledTail(pulleys), belts));
    }

    private List<Plan> plans() {
        List<Plan> out = new ArrayList<>();
        double crank = draw.between(130, 188);
        out.add(new Plan(Role.CRANK, "crank", crank, Face.GROOVED));
        double alternator = Math.max(52, crank / draw.between(2.2, 3.0));
        out.add(new Plan(Role.ALTERNATOR, "alternator", alternator, Face.GROOVED));
        Face pumpFace = draw.chance(0.4) ? Face.FLAT : Face.GROOVED;
        out.add(
                new Plan(
                        Role.WATER_PUMP, "water-pump", crank / draw.between(0.95, 1.35), pumpFace));
        double guide = draw.between(62, 88);
        out.add(new Plan(Role.TENSIONER, "tensioner", guide, Face.FLAT));
        double idler = draw.chance(0.35) ? guide : draw.between(62, 92);
        boolean twoIdlers = draw.chance(0.3);
        Face idlerFace = draw.chance(0.6) ? Face.FLAT : Face.GROOVED;
        if (draw.chance(0.9) || twoIdlers) {
            out.add(new Plan(Role.IDLER, twoIdlers ? "idler-1" : "idler", idler, idlerFace));
        }
        if (twoIdlers) {
            double other = draw.chance(0.5) ? idler : draw.between(62, 92);
            out.add(new Plan(Role.IDLER, "idler-2", other, Face.GROOVED));
        }
        if (draw.chance(0.85)) {
            double d = crank / draw.between(1.15, 1.5);
            out.add(new Plan(Role.COMPRESSOR, "compressor", d, Face.GROOVED));
        }
        if (draw.chance(0.55) && out.size() < 8) {
            double d = crank / draw.between(1.0, 1.3);
            out.add(new Plan(Role.STEERING_PUMP, "steering-pump", d, Face.GROOVED));
        }
        if (draw.chance(0.12) && out.size() < 8) {
            out.add(new Plan(Role.FAN, "fan", crank / draw.between(0.9, 1.3), Face.GROOVED));
        }
        return out;
    }

    /** Places the pulleys of a belt and answers their order of contact. */
    private List<String> place(List<Plan> plans, Map<String, TruePulley> placed) {
        List<Plan> grooved = new ArrayList<>();
        List<Plan> flat = new ArrayList<>();
        for (Plan p : plans.subList(1, plans.size())) {
            (p.face() == Face.GROOVED ? grooved : flat).add(p);
        }
        grooved = draw.shuffled(grooved);
        flat = draw.shuffled(flat);
        int around = grooved.size() + 1;
        double a = draw.between(170, 250) + 14 * around;
        double b = draw.between(180, 270) + 14 * around;
        List<TruePulley> ring = new ArrayList<>();
        ring.add(pulley(plans.get(0), 0, 0));
        double spread = 2 * Math.PI / around;
        for (int i = 0; i < grooved.size(); i++) {
            double angle = -Math.PI / 2 + spread * (i + 1 + draw.between(-0.22, 0.22));
            double r = draw.between(0.85, 1.1);
            ring.add(pulley(grooved.get(i), a * r * Math.cos(angle), b + b * r * Math.sin(angle)));
        }
        List<Integer> gaps = new ArrayList<>();
        for (int i = 0; i < around; i++) {
            gaps.add(i);
        }
        gaps = draw.shuffled(gaps);
        Map<Integer, TruePulley> between = new HashMap<>();
        for (int i = 0; i < Math.min(flat.size(), around); i++) {
            TruePulley before = ring.get(gaps.get(i));
            TruePulley after = ring.get((gaps.get(i) + 1) % around);
            between.put(gaps.get(i), pressed(flat.get(i), before, after));
        }
        List<String> path = new ArrayList<>();
        for (int i = 0; i < around; i++) {
            path.add(ring.get(i).name());
            placed.put(ring.get(i).name(), ring.get(i));
            TruePulley p = between.get(i);
            if (p != null) {
                path.add(p.name());
                placed.put(p.name(), p);
            }
        }
        return path;
    }

    /** A flat pulley outside the span between two grooved ones, pressing it inwards. */
    private TruePulley pressed(Plan plan, TruePulley before, TruePulley after) {
        double dx = after.position().xMm() - before.position().xMm();
        double dy = after.position().yMm() - before.position().yMm();
        double distance = Math.max(1, Math.hypot(dx, dy));
        double along = draw.between(0.35, 0.65);
        double spanOut = before.radiusMm() * (1 - along) + after.radiusMm() * along;
        double out = spanOut + plan.diameterMm() / 2 - draw.between(20, 65);
        return pulley(
                plan,
                before.position().xMm() + along * dx + out * dy / distance,
                before.position().yMm() + along * dy - out * dx / distance);
    }

    private TruePulley pulley(Plan plan, double xMm, double yMm) {
        Draw own = draw.branch(plan.name());
        List<PassLine> lines = new ArrayList<>();
        switch (plan.role()) {
            case ALTERNATOR -> lines.add(new PassLine("slots", own.chance(0.8) ? 36 : 48));
            case WATER_PUMP -> lines.add(new PassLine("vanes", own.whole(5, 8)));
            case STEERING_PUMP -> lines.add(new PassLine("vanes", own.whole(9, 11)));
            case COMPRESSOR -> lines.add(new PassLine("pistons", own.whole(5, 7)));
            case FAN -> lines.add(new PassLine("blades", own.whole(7, 11)));
            case CRANK, IDLER, TENSIONER, OTHER -> {}
        }
        return new TruePulley(
                plan.name(),
                plan.role(),
                plan.diameterMm(),
                plan.face(),
                new Position(xMm, yMm),
                bearings(plan.role(), own),
                lines);
    }

    private static List<TrueBearing> bearings(Role role, Draw draw) {
        return switch (role) {
            case CRANK, OTHER -> List.of();
            case ALTERNATOR ->
                    List.of(
                            bearing(draw.pick(List.of("6303", "6203")), Ring.INNER, draw),
                            bearing(draw.pick(List.of("6203", "6202", "6201")), Ring.INNER, draw));
            case WATER_PUMP ->
                    List.of(
                            own(
                                    "integral",
                                    draw.whole(8, 10),
                                    6.35,
                                    draw.between(21, 24),
                                    Ring.INNER,
                                    draw));
            case COMPRESSOR ->
                    List.of(
                            own(
                                    "double-row",
                                    draw.whole(11, 14),
                                    5.5,
                                    draw.between(40, 46),
                                    Ring.OUTER,
                                    draw));
            case STEERING_PUMP -> List.of(bearing("6203", Ring.INNER, draw));
            case FAN -> List.of(bearing("6204", Ring.OUTER, draw));
            case IDLER, TENSIONER ->
                    List.of(
                            bearing(
                                    draw.pick(List.of("6203", "6203", "6202", "6303")),
                                    Ring.OUTER,
                                    draw));
        };
    }

    /** Typical internals, from memory; makers differ, so each is drawn around them. */
    private static TrueBearing bearing(String designation, Ring ring, Draw draw) {
        return switch (designation) {
            case "6201" -> own(designation, 7, 5.95, 22, ring, draw);
            case "6202" -> own(designation, 8, 5.95, 25, ring, draw);
            case "6203" -> own(designation, 8, 6.75, 28.5, ring, draw);
            case "6204" -> own(designation, 8, 7.94, 33.5, ring, draw);
            case "6303" -> own(designation, 7, 8.73, 32, ring, draw);
            default -> throw new IllegalArgumentException("designation=" + designation);
        };
    }

    private static TrueBearing own(
            String designation, int balls, double ballMm, double pitchMm, Ring ring, Draw draw) {
        BearingGeometry geometry =
                new BearingGeometry(
                        balls,
                        ballMm * (1 + draw.between(-0.012, 0.012)),
                        pitchMm * (1 + draw.between(-0.01, 0.01)),
                        draw.chance(0.5) ? 0 : draw.between(0, 12));
        return new TrueBearing(designation, geometry, ring, draw.between(-0.002, 0.01));
    }
}

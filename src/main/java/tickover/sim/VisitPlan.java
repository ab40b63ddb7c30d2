package tickover.sim;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import tickover.drive.Condition;
import tickover.drive.PartLine;
import tickover.drive.Role;

/**
 * What a mechanic records: some points at idle, some of them under a load, sometimes with the belt
 * off, an injector unplugged, a held speed or a run-up. The mechanic has heard the noise and mostly
 * gets near it, but not always.
 */
final class VisitPlan {
    private static final int MOST_CAPTURES = 14;
    private static final double NEAR_SHARE = 0.84;

    private final TrueDrive drive;
    private final Trouble trouble;
    private final List<String> allPoints;
    private final Draw draw;
    private final List<CapturePlan> out = new ArrayList<>();

    private VisitPlan(TrueDrive drive, Trouble trouble, List<String> allPoints, Draw draw) {
        this.drive = drive;
        this.trouble = trouble;
        this.allPoints = allPoints;
        this.draw = draw;
    }

    static List<CapturePlan> draw(
            TrueDrive drive, Trouble trouble, List<String> allPoints, Draw draw) {
        return new VisitPlan(drive, trouble, allPoints, draw).plan();
    }

    private List<CapturePlan> plan() {
        List<String> points = points();
        double idleHz = drive.idleHz();
        boolean again = draw.chance(0.2);
        for (String p : points) {
            add(p, SimulatedCapture.Regime.IDLE, idleHz, Condition.UNLOADED);
        }
        if (again) {
            add(points.get(0), SimulatedCapture.Regime.IDLE, idleHz, Condition.UNLOADED);
        }
        List<Condition> loads = draw.shuffled(loads());
        int states = draw.pickWeighted(0.12, 0.38, 0.35, 0.15);
        for (Condition load : loads.subList(0, Math.min(states, loads.size()))) {
            int at = draw.pickWeighted(0, 0.6, 0.3, 0.1);
            for (String p : draw.shuffled(points).subList(0, Math.min(at, points.size()))) {
                add(p, SimulatedCapture.Regime.IDLE, idleHz, load);
            }
        }
        if (draw.chance(0.16)) {
            Condition off = Condition.UNLOADED.withBeltOn(false);
            for (String p : draw.shuffled(points).subList(0, draw.whole(1, 2))) {
                add(p, SimulatedCapture.Regime.IDLE, idleHz, off);
            }
        }
        injectorOff(points, idleHz);
        if (draw.chance(0.4)) {
            double heldHz = draw.between(1500, 2500) / 60;
            for (String p : draw.shuffled(points).subList(0, draw.whole(1, 2))) {
                add(p, SimulatedCapture.Regime.HOLD, heldHz, Condition.UNLOADED);
            }
        }
        if (draw.chance(0.25)) {
            double topHz = draw.between(1800, 3200) / 60;
            add(draw.pick(points), SimulatedCapture.Regime.SWEEP, topHz, Condition.UNLOADED);
        }
        return List.copyOf(out);
    }

    private void add(
            String point, SimulatedCapture.Regime regime, double topHz, Condition condition) {
        if (out.size() >= MOST_CAPTURES) {
            return;
        }
        double durationS = Math.rint(draw.between(5, 12) * 10) / 10;
        String file = String.format(java.util.Locale.ROOT, "c%02d", out.size() + 1);
        out.add(new CapturePlan(file, point, regime, topHz, condition, durationS));
    }

    /** Points near the trouble: its own, as far as it has one. */
    private List<String> near() {
        String c = trouble.component();
        if (c.equals("valve-train")) {
            return List.of("valve-cover");
        }
        if (c.equals(PartLine.ENGINE)) {
            return List.of("block");
        }
        return allPoints.contains(c) ? List.of(c) : List.of();
    }

    private List<String> points() {
        boolean lookAtEngine =
                switch (trouble.kind()) {
                    case TICK -> draw.chance(0.85);
                    case UNSPECIFIED -> draw.chance(0.5);
                    default -> draw.chance(0.3);
                };
        int wanted = draw.whole(3, 7);
        List<String> near = near();
        boolean reach = draw.chance(NEAR_SHARE);
        List<String> pulleys = new ArrayList<>();
        List<String> engine = new ArrayList<>();
        for (String p : draw.shuffled(allPoints)) {
            if (!near.contains(p)) {
                (drive.pulley(p).isPresent() ? pulleys : engine).add(p);
            }
        }
        List<String> out = new ArrayList<>();
        if (reach) {
            out.addAll(near);
        }
        int fromEngine = lookAtEngine ? Math.min(3, wanted - 1) : draw.pickWeighted(0.5, 0.5);
        if (lookAtEngine && draw.chance(0.8)) {
            engine.sort((a, b) -> Boolean.compare(atInjectors(b), atInjectors(a)));
        }
        out.addAll(engine.subList(0, Math.min(fromEngine, engine.size())));
        while (out.size() < wanted && !pulleys.isEmpty()) {
            out.add(pulleys.remove(0));
        }
        return draw.shuffled(out);
    }

    private static boolean atInjectors(String point) {
        return point.startsWith("injector-") || point.equals("valve-cover");
    }

    private List<Condition> loads() {
        List<Condition> loads = new ArrayList<>();
        loads.add(Condition.UNLOADED.withHeadlights(true));
        loads.add(Condition.UNLOADED.withDriveGear(true));
        if (has(Role.COMPRESSOR)) {
            loads.add(Condition.UNLOADED.withAircon(true));
        }
        if (has(Role.STEERING_PUMP)) {
            loads.add(Condition.UNLOADED.withSteering(true));
        }
        return loads;
    }

    private boolean has(Role role) {
        return drive.pulleys().stream().anyMatch(p -> p.role() == role);
    }

    private void injectorOff(List<String> points, double idleHz) {
        Optional<String> at = points.stream().filter(VisitPlan::atInjectors).findFirst();
        boolean tick = trouble.kind() == FaultKind.TICK;
        if (at.isEmpty() || !draw.chance(tick ? 0.4 : 0.2)) {
            return;
        }
        int any = draw.whole(1, drive.engine().cylinders());
        boolean injector = trouble.component().startsWith("injector-");
        int cylinder =
                injector && draw.chance(0.7)
                        ? Integer.parseInt(trouble.component().substring("injector-".length()))
                        : any;
        String point = points.contains("injector-" + cylinder) ? "injector-" + cylinder : at.get();
        add(
                point,
                SimulatedCapture.Regime.IDLE,
                idleHz,
                Condition.UNLOADED.withInjectorOff(cylinder));
    }

    /** Words of a driver, who hears what it sounds like and no more. */
    static String complaint(Trouble trouble, Draw draw) {
        List<String> whine =
                List.of(
                        "whine that climbs with engine speed",
                        "howling from the front, rises with the engine",
                        "grinding noise from the belt side",
                        "growl at idle that follows the revs");
        List<String> beat =
                List.of(
                        "rumbling at idle from the belt side",
                        "rhythmic thump at idle",
                        "flapping or slapping noise at the front");
        List<String> tick =
                List.of(
                        "ticking at idle",
                        "tapping noise, quicker with the revs",
                        "rattle at idle");
        List<String> none =
                List.of(
                        "service visit, no complaint",
                        "driver says it has become louder",
                        "asked to check a noise, nothing definite");
        List<String> fitting =
                switch (trouble.kind()) {
                    case BEARING_OUTER_RING,
                            BEARING_INNER_RING,
                            ROLLING_ELEMENT,
                            CAGE,
                            BEARING_ROUGH ->
                            whine;
                    case ECCENTRIC, BELT_DAMAGE -> beat;
                    case LOOSE, TICK -> tick;
                    case UNSPECIFIED -> draw.branch("noise").chance(0.7) ? whine : tick;
                    case NONE -> none;
                };
        List<List<String>> any = Arrays.asList(whine, beat, tick, none);
        return draw.pick(draw.chance(0.7) ? fitting : draw.pick(any));
    }
}

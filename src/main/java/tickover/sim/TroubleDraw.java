package tickover.sim;

import java.util.ArrayList;
import java.util.List;
import tickover.drive.PartLine;
import tickover.drive.Role;

/** Draws what is wrong with a vehicle, in proportions that a workshop might see. */
final class TroubleDraw {
    private static final double HEALTHY_SHARE = 0.25;

    private static final List<FaultKind> KINDS =
            List.of(
                    FaultKind.BEARING_OUTER_RING,
                    FaultKind.BEARING_INNER_RING,
                    FaultKind.ROLLING_ELEMENT,
                    FaultKind.CAGE,
                    FaultKind.BEARING_ROUGH,
                    FaultKind.ECCENTRIC,
                    FaultKind.LOOSE,
                    FaultKind.BELT_DAMAGE,
                    FaultKind.TICK);

    /** Of what is wrong in engines that come in with a noise at the front, what is elsewhere. */
    private static final double OUTSIDE_SHARE = 0.08;

    private TroubleDraw() {}

    /** Draws the kind of fault. */
    static FaultKind kind(Draw draw, WorkshopCase wanted) {
        boolean healthy = draw.chance(HEALTHY_SHARE);
        FaultKind drawn = draw.pickWeighted(KINDS, 14, 14, 8, 5, 12, 9, 9, 9, 14);
        if (wanted.fault().isPresent()) {
            return wanted.fault().orElseThrow();
        }
        if (wanted.role().isPresent()) {
            return drawn;
        }
        boolean outside = draw.branch("outside").chance(OUTSIDE_SHARE);
        return healthy ? FaultKind.NONE : outside ? FaultKind.UNSPECIFIED : drawn;
    }

    /** Whether a drive has a part that can have the fault. */
    static boolean fits(TrueDrive drive, FaultKind kind, WorkshopCase wanted) {
        boolean pulleyFault =
                kind.isInBearing() || kind == FaultKind.ECCENTRIC || kind == FaultKind.LOOSE;
        return !pulleyFault || !candidates(drive, kind, wanted).isEmpty();
    }

    private static List<TruePulley> candidates(
            TrueDrive drive, FaultKind kind, WorkshopCase wanted) {
        List<TruePulley> out = new ArrayList<>();
        for (TruePulley p : drive.pulleys()) {
            boolean role = wanted.role().map(r -> r == p.role()).orElse(true);
            boolean able = !kind.isInBearing() || !p.bearings().isEmpty();
            if (p.role() != Role.CRANK && role && able) {
                out.add(p);
            }
        }
        return out;
    }

    static Trouble draw(Draw draw, TrueDrive drive, FaultKind kind, WorkshopCase wanted) {
        double drawn = Math.pow(draw.between(0, 1), 0.8);
        double severity = wanted.severityRatio().orElse(drawn);
        return switch (kind) {
            case NONE -> Trouble.NONE;
            case UNSPECIFIED -> new Trouble(PartLine.ENGINE, kind, severity, 0);
            case TICK -> {
                boolean valve = draw.chance(0.35);
                int cylinder = draw.whole(1, drive.engine().cylinders());
                yield new Trouble(
                        valve ? "valve-train" : "injector-" + cylinder, kind, severity, 0);
            }
            case BELT_DAMAGE ->
                    new Trouble("belt:" + draw.pick(drive.belts()).name(), kind, severity, 0);
            case BEARING_OUTER_RING,
                    BEARING_INNER_RING,
                    ROLLING_ELEMENT,
                    CAGE,
                    BEARING_ROUGH,
                    ECCENTRIC,
                    LOOSE -> {
                List<TruePulley> able = candidates(drive, kind, wanted);
                double[] weights = able.stream().mapToDouble(TroubleDraw::weight).toArray();
                TruePulley p = able.get(draw.pickWeighted(weights));
                int bearing = p.bearings().isEmpty() ? 0 : draw.whole(0, p.bearings().size() - 1);
                yield new Trouble(p.name(), kind, severity, bearing);
            }
        };
    }

    private static double weight(TruePulley p) {
        return switch (p.role()) {
            case IDLER -> 1.5;
            case TENSIONER -> 1.4;
            case ALTERNATOR, WATER_PUMP -> 1.2;
            case COMPRESSOR -> 0.9;
            case STEERING_PUMP, FAN, OTHER -> 0.6;
            case CRANK -> 0;
        };
    }
}

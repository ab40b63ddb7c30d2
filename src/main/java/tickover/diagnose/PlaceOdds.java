package tickover.diagnose;

import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import tickover.drive.Position;
import tickover.drive.Pulley;
import tickover.drive.Role;
import tickover.drive.Vehicle;

/**
 * Where a rhythm comes from, by how strong it is at each point: the odds for one place against all
 * others.
 *
 * <p>Nothing is known of the ways from a place to a point but that they lose level with distance,
 * give or take. Where positions are not given, a typical distance stands for them, so that what is
 * left is whether it is strongest at its own point.
 */
final class PlaceOdds {
    /** Scatter of ways, axes and touches around that. */
    private static final double SCATTER_DB = 5;

    private static final double TYPICAL_APART_MM = 280;
    private static final double TYPICAL_TO_BRACKET_MM = 200;
    private static final double TYPICAL_TO_ENGINE_MM = 380;
    private static final String BRACKET = "bracket";

    private final Vehicle vehicle;
    private final Set<String> places = new LinkedHashSet<>();

    /**
     * A level at a point.
     *
     * @param levelDb the level, or where nothing stands out what it could be at most
     * @param heard whether it stands out
     */
    record Heard(double levelDb, boolean heard) {}

    PlaceOdds(Vehicle vehicle) {
        this.vehicle = vehicle;
        for (Pulley p : vehicle.pulleys()) {
            if (p.role() != Role.CRANK) {
                places.add(p.name());
            }
        }
        places.add(Suspects.BLOCK);
    }

    /** Logarithm of the odds for a place, in nats; 0 if fewer than two points were recorded. */
    double nats(String place, Map<String, Heard> levels) {
        if (place.isEmpty() || levels.size() < 2) {
            return 0;
        }
        double own = logLikelihood(place, levels);
        double sum = 0;
        List<String> all = new ArrayList<>(places);
        if (!places.contains(place)) {
            all.add(place);
        }
        for (String other : all) {
            sum += Math.exp(logLikelihood(other, levels) - own) / all.size();
        }
        return -Math.log(sum);
    }

    private double logLikelihood(String place, Map<String, Heard> levels) {
        double sum = 0;
        int count = 0;
        for (Map.Entry<String, Heard> e : levels.entrySet()) {
            if (e.getValue().heard()) {
                sum += e.getValue().levelDb() + lossDb(place, e.getKey());
                count++;
            }
        }
        if (count == 0) {
            return 0;
        }
        double source = sum / count;
        double squares = 0;
        for (Map.Entry<String, Heard> e : levels.entrySet()) {
            double off = source - lossDb(place, e.getKey()) - e.getValue().levelDb();
            squares += e.getValue().heard() || off > 0 ? off * off : 0;
        }
        return -squares / (2 * SCATTER_DB * SCATTER_DB);
    }

    private double lossDb(String place, String point) {
        return WayLoss.lossDb(apartMm(place, point));
    }

    private double apartMm(String a, String b) {
        if (a.equals(b)) {
            return 0;
        }
        Optional<Pulley> pa = vehicle.pulley(a);
        Optional<Pulley> pb = vehicle.pulley(b);
        if (pa.isPresent() && pb.isPresent()) {
            Optional<Position> xa = pa.get().position();
            Optional<Position> xb = pb.get().position();
            return xa.isPresent() && xb.isPresent()
                    ? Math.hypot(xa.get().xMm() - xb.get().xMm(), xa.get().yMm() - xb.get().yMm())
                    : TYPICAL_APART_MM;
        }
        if (a.equals(BRACKET) || b.equals(BRACKET)) {
            return TYPICAL_TO_BRACKET_MM;
        }
        int ca = InjectorPoint.cylinder(a);
        int cb = InjectorPoint.cylinder(b);
        if (ca > 0 && cb > 0) {
            return WayLoss.CYLINDER_APART_MM * Math.abs(ca - cb);
        }
        boolean bothOnHead =
                (ca > 0 || a.equals(InjectorPoint.VALVE_COVER))
                        && (cb > 0 || b.equals(InjectorPoint.VALVE_COVER));
        return bothOnHead ? WayLoss.COVER_TO_INJECTOR_MM : TYPICAL_TO_ENGINE_MM;
    }
}

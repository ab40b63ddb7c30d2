package tickover.diagnose;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Collection;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import tickover.drive.Engine;
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
 * left is whether it is strongest at its own point. What is in the engine itself may sit in the
 * block or behind the last cylinder, from where it reaches all points at the front about alike.
 */
final class PlaceOdds {
    /** Scatter of ways, axes and touches around that. */
    private static final double SCATTER_DB = 5;

    private static final double TYPICAL_APART_MM = 280;
    private static final double TYPICAL_TO_BRACKET_MM = 200;
    private static final double TYPICAL_TO_ENGINE_MM = 380;
    private static final String BRACKET = "bracket";

    /**
     * Where gearbox and camshaft drives are: behind the last cylinder, far from every pulley. The
     * distances are guesses, as in {@link WayLoss}; the simulator's gearbox stands there.
     */
    private static final String REAR = "rear";

    private static final double REAR_TO_FRONT_MM = 600;
    private static final double REAR_TO_BLOCK_MM = 400;
    private static final double REAR_TO_LAST_CYLINDER_MM = 150;

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

    /** Places that can be asked for at once: the pulleys, and the engine as its block. */
    List<String> places() {
        return List.copyOf(places);
    }

    /** Prepares points for many questions. */
    Points at(List<String> points) {
        return new Points(points);
    }

    /** What is lost on the ways from every place to some points. */
    final class Points {
        private final List<double[]> lossesDb = new ArrayList<>();
        private final double[] rearDb;

        private Points(List<String> points) {
            for (String place : places) {
                lossesDb.add(losses(place, points));
            }
            rearDb = losses(REAR, points);
        }

        /**
         * Odds for each of {@link #places()} against the others, nats.
         *
         * @param levelDb level at each point, dB
         * @param heard whether it stands out there
         */
        double[] nats(double[] levelDb, boolean[] heard) {
            double[] log = new double[lossesDb.size()];
            int i = 0;
            for (String place : places) {
                log[i] = logLikelihood(lossesDb.get(i), levelDb, heard);
                if (place.equals(Suspects.BLOCK)) {
                    log[i] = meanOf(log[i], logLikelihood(rearDb, levelDb, heard));
                }
                i++;
            }
            double top = Arrays.stream(log).max().orElse(0);
            double sum = 0;
            for (double l : log) {
                sum += Math.exp(l - top);
            }
            double all = top + Math.log(sum / log.length);
            return Arrays.stream(log).map(l -> l - all).toArray();
        }
    }

    private double[] losses(String place, Collection<String> points) {
        return points.stream().mapToDouble(point -> lossDb(place, point)).toArray();
    }

    private double logLikelihood(String place, Map<String, Heard> levels) {
        double[] levelDb = new double[levels.size()];
        boolean[] heard = new boolean[levels.size()];
        int i = 0;
        for (Heard h : levels.values()) {
            levelDb[i] = h.levelDb();
            heard[i++] = h.heard();
        }
        double at = logLikelihood(losses(place, levels.keySet()), levelDb, heard);
        return place.equals(Suspects.BLOCK)
                ? meanOf(at, logLikelihood(losses(REAR, levels.keySet()), levelDb, heard))
                : at;
    }

    /** Logarithm of the mean of two likelihoods. */
    private static double meanOf(double a, double b) {
        double top = Math.max(a, b);
        return top + Math.log((Math.exp(a - top) + Math.exp(b - top)) / 2);
    }

    private static double logLikelihood(double[] lossDb, double[] levelDb, boolean[] heard) {
        double sum = 0;
        int count = 0;
        for (int i = 0; i < lossDb.length; i++) {
            if (heard[i]) {
                sum += levelDb[i] + lossDb[i];
                count++;
            }
        }
        if (count == 0) {
            return 0;
        }
        double source = sum / count;
        double squares = 0;
        for (int i = 0; i < lossDb.length; i++) {
            double off = source - lossDb[i] - levelDb[i];
            squares += heard[i] || off > 0 ? off * off : 0;
        }
        return -squares / (2 * SCATTER_DB * SCATTER_DB);
    }

    private double lossDb(String place, String point) {
        return WayLoss.lossDb(apartMm(place, point));
    }

    private double rearMm(String point) {
        Engine engine = vehicle.engine();
        double cylinders = engine.cylinders();
        int at = InjectorPoint.cylinder(point);
        if (at > 0) {
            return REAR_TO_LAST_CYLINDER_MM
                    + WayLoss.CYLINDER_APART_MM * Math.max(0, cylinders - at);
        }
        if (point.equals(InjectorPoint.VALVE_COVER)) {
            return REAR_TO_LAST_CYLINDER_MM + WayLoss.CYLINDER_APART_MM * cylinders / 2;
        }
        return point.equals(Suspects.BLOCK) ? REAR_TO_BLOCK_MM : REAR_TO_FRONT_MM;
    }

    private double apartMm(String a, String b) {
        if (a.equals(REAR)) {
            return rearMm(b);
        }
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

package tickover.drive;

import java.util.ArrayList;
import java.util.Collections;
import java.util.Comparator;
import java.util.HashSet;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.Set;

/**
 * Lays a belt round its pulleys by tangents.
 *
 * <p>A span runs from pulley to pulley along a common tangent: an outer one if the belt bends the
 * same way round both, an inner one if not. With the span's direction at angle t and its left
 * normal n, a pulley that the belt rounds anticlockwise lies its radius to the left: n·(centre -
 * point) = r, and -r clockwise. The difference of two such equations gives t.
 *
 * <p>The path may name the stops clockwise or anticlockwise; both are tried, and the shorter one
 * counts that is a belt: it turns once in all, its spans do not cross, and they pass clear of the
 * other pulleys.
 */
final class BeltRouter {
    /** Round-off of angles, rad, and of lengths, as a share of the belt's extent. */
    private static final double ROUND_OFF = 1e-9;

    private final List<Pulley> stops;
    private final int n;

    private BeltRouter(List<Pulley> stops) {
        this.stops = stops;
        this.n = stops.size();
    }

    /** Either a route or a sentence why there is none; neither if nothing was said of positions. */
    static final class Answer {
        private final BeltRoute route;
        private final String problem;

        private Answer(BeltRoute route, String problem) {
            this.route = route;
            this.problem = problem;
        }

        Optional<BeltRoute> route() {
            return Optional.ofNullable(route);
        }

        Optional<String> problem() {
            return Optional.ofNullable(problem);
        }
    }

    /** Lays out a belt, or finds what stands in the way. */
    static Answer layOut(Vehicle vehicle, Belt belt) {
        List<Pulley> stops =
                belt.path().stream().map(s -> vehicle.pulley(s).orElseThrow()).toList();
        if (stops.stream().allMatch(p -> p.position().isEmpty())) {
            return new Answer(null, null);
        }
        Optional<String> unfit = unfitStops(stops);
        if (unfit.isPresent()) {
            return problem(belt, unfit.get());
        }
        BeltRouter router = new BeltRouter(stops);
        Attempt best = router.attempt(1).betterOf(router.attempt(-1));
        return best.problem() == null
                ? new Answer(best.route(), null)
                : problem(belt, best.problem());
    }

    private static Answer problem(Belt belt, String what) {
        return new Answer(
                null, "belt " + belt.name() + " is not laid out, so without wrap angles: " + what);
    }

    private static Optional<String> unfitStops(List<Pulley> stops) {
        Set<String> seen = new HashSet<>();
        for (Pulley p : stops) {
            if (p.position().isEmpty()) {
                return Optional.of("pulley " + p.name() + " has no x_mm and y_mm");
            }
            if (!seen.add(p.name())) {
                return Optional.of("its path names " + p.name() + " twice");
            }
        }
        if (stops.size() < 2) {
            return Optional.of("its path names only " + stops.get(0).name());
        }
        for (int i = 0; i < stops.size(); i++) {
            for (Pulley q : stops.subList(i + 1, stops.size())) {
                Pulley p = stops.get(i);
                double apartMm = centre(p).minus(centre(q)).size();
                double radiiMm = (p.diameterMm() + q.diameterMm()) / 2;
                if (apartMm < radiiMm * (1 - ROUND_OFF)) {
                    return Optional.of(
                            String.format(
                                    Locale.ROOT,
                                    "pulleys %s and %s overlap, their centres are %.1f mm apart"
                                            + " and their radii add up to %.1f mm",
                                    p.name(),
                                    q.name(),
                                    apartMm,
                                    radiiMm));
                }
            }
        }
        return Optional.empty();
    }

    /** One way round, with the reason why it is no belt, or null if it is one. */
    private record Attempt(BeltRoute route, String problem, double tautMm) {
        /** A belt before no belt, then the tauter: the wrong way round makes detours. */
        Attempt betterOf(Attempt other) {
            if ((problem == null) != (other.problem == null)) {
                return problem == null ? this : other;
            }
            return tautMm <= other.tautMm ? this : other;
        }
    }

    /** Tries the path as named anticlockwise (+1) or clockwise (-1). */
    private Attempt attempt(int way) {
        double[] spanRad = new double[n];
        for (int i = 0; i < n; i++) {
            spanRad[i] = tangentRad(stops.get(i), stops.get((i + 1) % n), way);
        }
        List<BeltRoute.Contact> contacts = new ArrayList<>();
        double turnedRad = 0;
        double lengthMm = 0;
        for (int i = 0; i < n; i++) {
            Pulley p = stops.get(i);
            int bend = bend(p, way);
            double inRad = spanRad[(i + n - 1) % n];
            double wrapRad = wrapRad(bend * (spanRad[i] - inRad));
            turnedRad += bend * wrapRad;
            lengthMm += wrapRad * p.diameterMm() / 2;
            contacts.add(
                    new BeltRoute.Contact(
                            p.name(),
                            p.position().orElseThrow(),
                            p.diameterMm() / 2,
                            touch(p, bend, inRad),
                            touch(p, bend, spanRad[i]),
                            Math.toDegrees(wrapRad),
                            bend > 0));
        }
        for (BeltRoute.Span span : BeltRoute.spans(contacts)) {
            lengthMm += span.lengthMm();
        }
        BeltRoute route = new BeltRoute(contacts, lengthMm);
        // The sum is a whole number of turns, so anything well below half a turn tells.
        boolean closed = Math.abs(turnedRad - way * 2 * Math.PI) < 1;
        if (closed) {
            return new Attempt(route, obstacle(route), lengthMm);
        }
        BeltRoute.Contact missed =
                Collections.max(contacts, Comparator.comparingDouble(BeltRoute.Contact::wrapDeg));
        // Round a pulley that it does not reach, a taut belt would save the whole turn.
        double tautMm = lengthMm - 2 * Math.PI * missed.radiusMm();
        return new Attempt(route, unreached(missed), tautMm);
    }

    /** +1 where the belt bends anticlockwise: round grooved pulleys if it runs anticlockwise. */
    private static int bend(Pulley p, int way) {
        return p.face() == Face.GROOVED ? way : -way;
    }

    private static double tangentRad(Pulley from, Pulley to, int way) {
        Vector between = centre(to).minus(centre(from));
        double riseMm = (bend(to, way) * to.diameterMm() - bend(from, way) * from.diameterMm()) / 2;
        double sine = Math.max(-1, Math.min(1, riseMm / between.size()));
        return Math.atan2(between.yMm, between.xMm) - Math.asin(sine);
    }

    /** Into 0 to below one turn; what is a turn but for round-off is no wrap at all. */
    private static double wrapRad(double angleRad) {
        double turnRad = 2 * Math.PI;
        double wrap = angleRad - turnRad * Math.floor(angleRad / turnRad);
        return wrap > turnRad - ROUND_OFF ? 0 : wrap;
    }

    /** Where a span of the given direction touches the pulley: its radius to the right or left. */
    private static Position touch(Pulley p, int bend, double spanRad) {
        double reachMm = bend * p.diameterMm() / 2;
        Vector c = centre(p);
        return new Position(
                c.xMm + reachMm * Math.sin(spanRad), c.yMm - reachMm * Math.cos(spanRad));
    }

    private static String unreached(BeltRoute.Contact missed) {
        return String.format(
                Locale.ROOT,
                "to close it would have to go round pulley %s by %.0f degrees; check the order of"
                        + " its path and the faces and positions of its pulleys",
                missed.pulley(),
                missed.wrapDeg());
    }

    private String obstacle(BeltRoute route) {
        List<BeltRoute.Span> spans = route.spans();
        for (int i = 0; i < n; i++) {
            BeltRoute.Span span = spans.get(i);
            for (Pulley p : stops) {
                boolean end =
                        p.name().equals(span.fromPulley()) || p.name().equals(span.toPulley());
                if (!end && distanceMm(span, centre(p)) < p.diameterMm() / 2 * (1 - ROUND_OFF)) {
                    return "its span from "
                            + span.fromPulley()
                            + " to "
                            + span.toPulley()
                            + " would run through pulley "
                            + p.name();
                }
            }
            for (BeltRoute.Span other : spans.subList(i + 1, n)) {
                if (cross(span, other)) {
                    return "its spans from "
                            + span.fromPulley()
                            + " to "
                            + span.toPulley()
                            + " and from "
                            + other.fromPulley()
                            + " to "
                            + other.toPulley()
                            + " would cross";
                }
            }
        }
        return null;
    }

    private static double distanceMm(BeltRoute.Span span, Vector point) {
        Vector from = Vector.of(span.from());
        Vector along = Vector.of(span.to()).minus(from);
        Vector reach = point.minus(from);
        double square = along.dot(along);
        double share = square == 0 ? 0 : Math.max(0, Math.min(1, reach.dot(along) / square));
        return new Vector(reach.xMm - share * along.xMm, reach.yMm - share * along.yMm).size();
    }

    /**
     * Whether the spans cross at an inner point of both; a shared touching point is no crossing.
     */
    private static boolean cross(BeltRoute.Span a, BeltRoute.Span b) {
        return onBothSides(a, b) && onBothSides(b, a);
    }

    private static boolean onBothSides(BeltRoute.Span line, BeltRoute.Span points) {
        Vector from = Vector.of(line.from());
        Vector along = Vector.of(line.to()).minus(from);
        double first = along.cross(Vector.of(points.from()).minus(from));
        double second = along.cross(Vector.of(points.to()).minus(from));
        double slack = ROUND_OFF * along.size() * (along.size() + points.lengthMm());
        return Math.abs(first) > slack && Math.abs(second) > slack && first * second < 0;
    }

    private static Vector centre(Pulley p) {
        return Vector.of(p.position().orElseThrow());
    }

    private record Vector(double xMm, double yMm) {
        static Vector of(Position p) {
            return new Vector(p.xMm(), p.yMm());
        }

        Vector minus(Vector other) {
            return new Vector(xMm - other.xMm, yMm - other.yMm);
        }

        double dot(Vector other) {
            return xMm * other.xMm + yMm * other.yMm;
        }

        double cross(Vector other) {
            return xMm * other.yMm - yMm * other.xMm;
        }

        double size() {
            return Math.hypot(xMm, yMm);
        }
    }
}

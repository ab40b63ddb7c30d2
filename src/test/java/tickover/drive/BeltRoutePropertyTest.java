package tickover.drive;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Optional;
import java.util.Random;
import org.junit.jupiter.api.Test;

/** Laws of belt layouts, on random drives of grooved pulleys with idlers on the belt's back. */
class BeltRoutePropertyTest {
    private static final long SEED = 9981;
    private static final int TRIALS = 400;

    /** So many of the trials must give a belt, or the laws would be tested on air. */
    private static final int ENOUGH = 150;

    /** Round-off of lengths in the thousands of mm, made worse by grazing tangents. */
    private static final double ROUND_OFF = 1e-6;

    private record Layout(List<Pulley> stops) {
        Optional<BeltRoute> route() {
            List<String> path = stops.stream().map(Pulley::name).toList();
            return DriveModel.of(
                            Drives.vehicle(
                                    List.of(Belt.of("main", path)), stops.toArray(new Pulley[0])))
                    .belts()
                    .get(0)
                    .route();
        }

        Layout moved(double[][] matrix, double scale, double xMm, double yMm) {
            return new Layout(
                    stops.stream()
                            .map(
                                    p -> {
                                        Position c = p.position().orElseThrow();
                                        double x = matrix[0][0] * c.xMm() + matrix[0][1] * c.yMm();
                                        double y = matrix[1][0] * c.xMm() + matrix[1][1] * c.yMm();
                                        return Pulley.named(
                                                        p.name(), p.role(), p.diameterMm() * scale)
                                                .face(p.face())
                                                .at(new Position(scale * x + xMm, scale * y + yMm))
                                                .build();
                                    })
                            .toList());
        }
    }

    private interface Law {
        void holds(Layout layout, BeltRoute route, Random random, String where);
    }

    /** Grooved pulleys round a centre, and between some neighbours an idler pressed inward. */
    private static Layout randomLayout(Random random, boolean withIdlers) {
        int count = 2 + random.nextInt(4);
        List<Pulley> stops = new ArrayList<>();
        for (int i = 0; i < count; i++) {
            double angleRad = 2 * Math.PI * (i + 0.6 * (random.nextDouble() - 0.5)) / count;
            double reachMm = 200 + 150 * random.nextDouble();
            double diameterMm = 50 + 120 * random.nextDouble();
            double xMm = reachMm * Math.cos(angleRad);
            double yMm = reachMm * Math.sin(angleRad);
            Role role = i == 0 ? Role.CRANK : Role.OTHER;
            stops.add(Drives.grooved("grooved-" + i, role, diameterMm, xMm, yMm));
            if (withIdlers && random.nextBoolean()) {
                double idlerRad = 2 * Math.PI * (i + 0.5) / count;
                double idlerReachMm = 120 + 150 * random.nextDouble();
                stops.add(
                        Drives.flat(
                                "flat-" + i,
                                Role.IDLER,
                                50 + 40 * random.nextDouble(),
                                idlerReachMm * Math.cos(idlerRad),
                                idlerReachMm * Math.sin(idlerRad)));
            }
        }
        return new Layout(stops);
    }

    private static void forManyBelts(boolean withIdlers, Law law) {
        Random random = new Random(SEED);
        int belts = 0;
        for (int i = 0; i < TRIALS; i++) {
            Layout layout = randomLayout(random, withIdlers);
            Optional<BeltRoute> route = layout.route();
            if (route.isPresent()) {
                belts++;
                law.holds(layout, route.get(), random, "seed " + SEED + ", trial " + i);
            }
        }
        assertTrue(belts >= ENOUGH, "only " + belts + " belts of " + TRIALS + ", seed " + SEED);
    }

    private static void assertSame(
            BeltRoute expected, double scale, Optional<BeltRoute> actual, String where) {
        assertTrue(actual.isPresent(), where);
        double lengthMm = scale * expected.lengthMm();
        assertEquals(lengthMm, actual.get().lengthMm(), ROUND_OFF * scale, where);
        for (BeltRoute.Contact c : expected.contacts()) {
            assertEquals(
                    c.wrapDeg(),
                    actual.get().contact(c.pulley()).orElseThrow().wrapDeg(),
                    ROUND_OFF,
                    where + ", " + c.pulley());
        }
    }

    @Test
    void pathMayBeNamedEitherWayRoundAndFromAnyStop() {
        forManyBelts(
                true,
                (layout, route, random, where) -> {
                    List<Pulley> stops = new ArrayList<>(layout.stops());
                    Collections.rotate(stops, random.nextInt(stops.size()));
                    assertSame(route, 1, new Layout(stops).route(), where);
                    Collections.reverse(stops);
                    assertSame(route, 1, new Layout(stops).route(), where);
                });
    }

    @Test
    void turningMovingAndMirroringChangeNothing() {
        forManyBelts(
                true,
                (layout, route, random, where) -> {
                    double t = 2 * Math.PI * random.nextDouble();
                    double[][] turn = {{Math.cos(t), -Math.sin(t)}, {Math.sin(t), Math.cos(t)}};
                    double[][] mirror = {{Math.cos(t), Math.sin(t)}, {Math.sin(t), -Math.cos(t)}};
                    double xMm = 500 * random.nextDouble();
                    double yMm = 500 * random.nextDouble();
                    assertSame(route, 1, layout.moved(turn, 1, xMm, yMm).route(), where);
                    assertSame(route, 1, layout.moved(mirror, 1, xMm, yMm).route(), where);
                });
    }

    @Test
    void lengthGrowsWithTheDriveAndWrapsStay() {
        forManyBelts(
                true,
                (layout, route, random, where) -> {
                    double scale = 0.1 + 10 * random.nextDouble();
                    double[][] same = {{1, 0}, {0, 1}};
                    assertSame(route, scale, layout.moved(same, scale, 0, 0).route(), where);
                });
    }

    @Test
    void groovedWrapsLessFlatWrapsAreOneTurn() {
        forManyBelts(
                true,
                (layout, route, random, where) -> {
                    double turnedDeg = 0;
                    for (int i = 0; i < layout.stops().size(); i++) {
                        boolean grooved = layout.stops().get(i).face() == Face.GROOVED;
                        double wrapDeg = route.contacts().get(i).wrapDeg();
                        turnedDeg += grooved ? wrapDeg : -wrapDeg;
                    }
                    assertEquals(360, turnedDeg, ROUND_OFF, where);
                });
    }

    @Test
    void beltTouchesItsPulleysAndEntersNone() {
        forManyBelts(
                true,
                (layout, route, random, where) -> {
                    List<BeltRoute.Contact> contacts = route.contacts();
                    for (BeltRoute.Contact c : contacts) {
                        assertEquals(c.radiusMm(), distanceMm(c, c.entry()), ROUND_OFF, where);
                        assertEquals(c.radiusMm(), distanceMm(c, c.exit()), ROUND_OFF, where);
                    }
                    for (BeltRoute.Span span : route.spans()) {
                        for (double share = 0; share <= 1; share += 0.02) {
                            Position point =
                                    new Position(
                                            span.from().xMm()
                                                    + share * (span.to().xMm() - span.from().xMm()),
                                            span.from().yMm()
                                                    + share
                                                            * (span.to().yMm()
                                                                    - span.from().yMm()));
                            for (BeltRoute.Contact c : contacts) {
                                assertTrue(distanceMm(c, point) > c.radiusMm() - ROUND_OFF, where);
                            }
                        }
                    }
                });
    }

    private static double distanceMm(BeltRoute.Contact c, Position point) {
        return Math.hypot(point.xMm() - c.centre().xMm(), point.yMm() - c.centre().yMm());
    }

    /**
     * Without idlers a belt is the convex hull of its pulleys, whose girth is the mean width times
     * pi: an independent route by support functions.
     */
    @Test
    void allGroovedBeltIsTheConvexHull() {
        int directions = 20000;
        // The support function has corners, where the sum errs by one step squared.
        double sumErrorMm = 1e-3;
        forManyBelts(
                false,
                (layout, route, random, where) -> {
                    double girthMm = 0;
                    for (int i = 0; i < directions; i++) {
                        double t = 2 * Math.PI * i / directions;
                        double supportMm = Double.NEGATIVE_INFINITY;
                        for (Pulley p : layout.stops()) {
                            Position c = p.position().orElseThrow();
                            supportMm =
                                    Math.max(
                                            supportMm,
                                            c.xMm() * Math.cos(t)
                                                    + c.yMm() * Math.sin(t)
                                                    + p.diameterMm() / 2);
                        }
                        girthMm += supportMm * 2 * Math.PI / directions;
                    }
                    assertEquals(girthMm, route.lengthMm(), sumErrorMm, where);
                    double wrapsDeg =
                            route.contacts().stream().mapToDouble(BeltRoute.Contact::wrapDeg).sum();
                    assertEquals(360, wrapsDeg, ROUND_OFF, where);
                });
    }

    @Test
    void pathThatTheDriveCannotCloseIsAlwaysExplained() {
        Random random = new Random(SEED);
        int refused = 0;
        for (int i = 0; i < TRIALS; i++) {
            List<Pulley> stops = new ArrayList<>(randomLayout(random, true).stops());
            Collections.shuffle(stops, random);
            List<String> path = stops.stream().map(Pulley::name).toList();
            DriveModel model =
                    DriveModel.of(
                            Drives.vehicle(
                                    List.of(Belt.of("main", path)), stops.toArray(new Pulley[0])));
            boolean laidOut = model.belts().get(0).route().isPresent();
            refused += laidOut ? 0 : 1;
            assertEquals(laidOut ? 0 : 1, model.notes().size(), "seed " + SEED + ", trial " + i);
        }
        assertTrue(refused > TRIALS / 10, "shuffled paths should mostly fail, seed " + SEED);
    }
}

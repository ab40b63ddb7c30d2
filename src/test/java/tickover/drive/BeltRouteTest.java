package tickover.drive;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Arrays;
import java.util.List;
import org.junit.jupiter.api.Test;

class BeltRouteTest {
    /** Round-off of lengths in the thousands of mm and angles in the hundreds of degrees. */
    private static final double ROUND_OFF = 1e-9;

    /**
     * The polyline of the brute-force belt has steps of about 1 mm: its chords fall short of an arc
     * of 30 mm radius by (1/30)²/24 of it, and of the corners where arcs begin by as much again.
     */
    private static final double POLYLINE_RATIO = 1e-4;

    private static DriveModel model(List<String> path, Pulley... pulleys) {
        return DriveModel.of(Drives.vehicle(List.of(Belt.of("main", path)), pulleys));
    }

    private static BeltRoute route(Pulley... pulleys) {
        List<String> path = Arrays.stream(pulleys).map(Pulley::name).toList();
        DriveModel model = model(path, pulleys);
        return model.belts()
                .get(0)
                .route()
                .orElseThrow(() -> new AssertionError(model.notes().toString()));
    }

    private static String onlyNote(Pulley... pulleys) {
        List<String> path = Arrays.stream(pulleys).map(Pulley::name).toList();
        DriveModel model = model(path, pulleys);
        DriveBelt belt = model.belts().get(0);
        assertTrue(belt.route().isEmpty());
        assertTrue(belt.lengthMm().isEmpty());
        assertTrue(belt.order().isEmpty());
        assertTrue(model.parts().stream().allMatch(p -> p.wrapDeg().isEmpty()));
        assertEquals(1, model.notes().size(), model.notes().toString());
        return model.notes().get(0);
    }

    private static double wrapDeg(BeltRoute route, String pulley) {
        return route.contact(pulley).orElseThrow().wrapDeg();
    }

    /** Closed form: two half circles and two spans. */
    @Test
    void equalPulleysTakeTwoHalfCirclesAndTwoSpans() {
        BeltRoute route =
                route(
                        Drives.grooved("crank", Role.CRANK, 100, 0, 0),
                        Drives.grooved("pump", Role.WATER_PUMP, 100, 180, 240));
        assertEquals(2 * 300 + Math.PI * 100, route.lengthMm(), ROUND_OFF);
        assertEquals(180, wrapDeg(route, "crank"), ROUND_OFF);
        assertEquals(180, wrapDeg(route, "pump"), ROUND_OFF);
    }

    /** Closed form of the open belt: spans √(C²-(R-r)²), wraps 180 ± 2 asin((R-r)/C) degrees. */
    @Test
    void unequalPulleysFollowTheOpenBeltFormula() {
        BeltRoute route =
                route(
                        Drives.grooved("crank", Role.CRANK, 160, -20, 10),
                        Drives.grooved("alternator", Role.ALTERNATOR, 60, 130, 210));
        double slantRad = Math.asin(50 / 250.0);
        double lengthMm =
                2 * Math.sqrt(250.0 * 250 - 50 * 50)
                        + 80 * (Math.PI + 2 * slantRad)
                        + 30 * (Math.PI - 2 * slantRad);
        assertEquals(lengthMm, route.lengthMm(), ROUND_OFF);
        assertEquals(180 + 2 * Math.toDegrees(slantRad), wrapDeg(route, "crank"), ROUND_OFF);
        assertEquals(180 - 2 * Math.toDegrees(slantRad), wrapDeg(route, "alternator"), ROUND_OFF);
    }

    /** Closed form: three equal pulleys on an equilateral triangle wrap a third of a turn each. */
    @Test
    void threeEqualPulleysShareOneTurn() {
        double heightMm = 100 * Math.sqrt(3);
        BeltRoute route =
                route(
                        Drives.grooved("crank", Role.CRANK, 80, 0, 0),
                        Drives.grooved("pump", Role.WATER_PUMP, 80, 100, heightMm),
                        Drives.grooved("compressor", Role.COMPRESSOR, 80, 200, 0));
        assertEquals(3 * 200 + Math.PI * 80, route.lengthMm(), ROUND_OFF);
        for (String name : List.of("crank", "pump", "compressor")) {
            assertEquals(120, wrapDeg(route, name), ROUND_OFF);
        }
    }

    /**
     * Two equal pulleys with an idler on the back of the upper span. Closed form by right
     * triangles: with the idler's centre h above and the pulleys' a aside, an inner tangent has the
     * length √(a²+h²-(R+r)²).
     */
    @Test
    void idlerOnTheBackIsReachedByInnerTangents() {
        BeltRoute route =
                route(
                        Drives.grooved("crank", Role.CRANK, 100, -150, 0),
                        Drives.grooved("pump", Role.WATER_PUMP, 100, 150, 0),
                        Drives.flat("idler", Role.IDLER, 60, 0, 60));
        double spanMm = Math.sqrt(150.0 * 150 + 60 * 60 - 80 * 80);
        double dipRad = Math.asin(80 / Math.hypot(150, 60)) - Math.atan2(60, 150);
        double lengthMm = 300 + 2 * spanMm + 2 * 50 * (Math.PI + dipRad) + 30 * 2 * dipRad;
        assertEquals(lengthMm, route.lengthMm(), ROUND_OFF);
        assertEquals(2 * Math.toDegrees(dipRad), wrapDeg(route, "idler"), ROUND_OFF);
        assertEquals(180 + Math.toDegrees(dipRad), wrapDeg(route, "crank"), ROUND_OFF);
    }

    @Test
    void lengthMatchesABeltPulledTightByBruteForce() {
        Pulley[] pulleys = {
            Drives.grooved("crank", Role.CRANK, 165, 0, 0),
            Drives.grooved("compressor", Role.COMPRESSOR, 120, 260, 20),
            Drives.flat("idler", Role.IDLER, 70, 175, 160),
            Drives.grooved("alternator", Role.ALTERNATOR, 60, 240, 300),
            Drives.grooved("steering-pump", Role.STEERING_PUMP, 130, -130, 330),
            Drives.flat("tensioner", Role.TENSIONER, 76, -95, 170),
        };
        double[][] roundAbout = {
            {-110, -110},
            {340, -60},
            {340, 90},
            {175, 100},
            {125, 160},
            {175, 220},
            {300, 270},
            {260, 360},
            {-130, 420},
            {-220, 330},
            {-95, 230},
            {-40, 170},
            {-95, 115},
        };
        double expectedMm = TautBelt.lengthMm(roundAbout, List.of(pulleys));
        assertEquals(expectedMm, route(pulleys).lengthMm(), POLYLINE_RATIO * expectedMm);
    }

    @Test
    void spansAndArcsJoinAtTouchingPoints() {
        BeltRoute route =
                route(
                        Drives.grooved("crank", Role.CRANK, 100, -150, 0),
                        Drives.grooved("pump", Role.WATER_PUMP, 100, 150, 0),
                        Drives.flat("idler", Role.IDLER, 60, 0, 60));
        List<BeltRoute.Span> spans = route.spans();
        assertEquals(3, spans.size());
        assertEquals("crank", spans.get(0).fromPulley());
        assertEquals("pump", spans.get(0).toPulley());
        // Named this way round, the lower span runs to the right: the belt goes anticlockwise.
        assertEquals(-50, spans.get(0).from().yMm(), ROUND_OFF);
        assertEquals(-50, spans.get(0).to().yMm(), ROUND_OFF);
        assertTrue(route.contact("crank").orElseThrow().anticlockwise());
        assertFalse(route.contact("idler").orElseThrow().anticlockwise());
        double sumMm = spans.stream().mapToDouble(BeltRoute.Span::lengthMm).sum();
        for (BeltRoute.Contact c : route.contacts()) {
            sumMm += Math.toRadians(c.wrapDeg()) * c.radiusMm();
        }
        assertEquals(route.lengthMm(), sumMm, ROUND_OFF);
    }

    @Test
    void overlappingPulleysAreNamed() {
        String note =
                onlyNote(
                        Drives.grooved("crank", Role.CRANK, 160, 0, 0),
                        Drives.grooved("pump", Role.WATER_PUMP, 100, 0, 129));
        assertTrue(note.contains("belt main"), note);
        assertTrue(note.contains("pulleys crank and pump overlap"), note);
        assertTrue(note.contains("129.0 mm apart") && note.contains("130.0 mm"), note);
    }

    @Test
    void idlerThatTheBeltDoesNotReachIsNamed() {
        String note =
                onlyNote(
                        Drives.grooved("crank", Role.CRANK, 100, -150, 0),
                        Drives.grooved("pump", Role.WATER_PUMP, 100, 150, 0),
                        Drives.flat("idler", Role.IDLER, 60, 0, 90));
        assertTrue(note.contains("go round pulley idler"), note);
    }

    @Test
    void spanThatRunsThroughAPulleyIsNamed() {
        String note =
                onlyNote(
                        Drives.grooved("crank", Role.CRANK, 100, -200, 0),
                        Drives.grooved("pump", Role.WATER_PUMP, 100, 200, 0),
                        Drives.flat("idler", Role.IDLER, 130, 0, 0));
        assertTrue(note.contains("would run through pulley idler"), note);
    }

    @Test
    void twoPulleysOnOppositeFacesAreNoBelt() {
        String note =
                onlyNote(
                        Drives.grooved("crank", Role.CRANK, 100, -150, 0),
                        Drives.flat("idler", Role.IDLER, 60, 150, 0));
        assertTrue(note.startsWith("belt main is not laid out"), note);
    }

    @Test
    void pulleyWithoutPositionIsNamedWhereOthersHaveOne() {
        String note =
                onlyNote(
                        Drives.grooved("crank", Role.CRANK, 100, -150, 0),
                        Pulley.named("pump", Role.WATER_PUMP, 100).build());
        assertTrue(note.contains("pulley pump has no x_mm and y_mm"), note);
    }

    @Test
    void pathThatNamesAPulleyTwiceIsNotLaidOut() {
        Pulley crank = Drives.grooved("crank", Role.CRANK, 100, -150, 0);
        Pulley pump = Drives.grooved("pump", Role.WATER_PUMP, 100, 150, 0);
        DriveModel model = model(List.of("crank", "pump", "crank"), crank, pump);
        assertTrue(model.notes().get(0).contains("names crank twice"), model.notes().get(0));
    }

    @Test
    void givenLengthCountsAndIsCheckedAgainstThePositions() {
        Pulley crank = Drives.grooved("crank", Role.CRANK, 100, -150, 0);
        Pulley pump = Drives.grooved("pump", Role.WATER_PUMP, 100, 150, 0);
        double computedMm = 600 + Math.PI * 100;
        for (double givenMm : new double[] {computedMm * 1.015, computedMm * 1.05}) {
            DriveModel model =
                    DriveModel.of(
                            Drives.vehicle(
                                    List.of(Belt.of("main", givenMm, List.of("crank", "pump"))),
                                    crank,
                                    pump));
            DriveBelt belt = model.belts().get(0);
            assertEquals(givenMm, belt.lengthMm().orElseThrow());
            assertEquals(computedMm, belt.computedLengthMm().orElseThrow(), ROUND_OFF);
            assertEquals(Math.PI * 100 / givenMm, belt.order().orElseThrow(), ROUND_OFF);
            boolean beyond = givenMm / computedMm > 1.02;
            assertEquals(beyond ? 1 : 0, model.notes().size());
            if (beyond) {
                String note = model.notes().get(0);
                assertTrue(note.contains("length_mm=959.9") && note.contains("914.2 mm"), note);
            }
        }
    }
}

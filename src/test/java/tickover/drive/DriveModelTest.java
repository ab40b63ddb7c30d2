package tickover.drive;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;
import tickover.diagnose.Fault;

class DriveModelTest {
    /** Round-off of a few operations. */
    private static final double ROUND_OFF = 1e-12;

    private static final Pulley CRANK = Pulley.named("crank", Role.CRANK, 165).build();

    @Test
    void pulleyWithoutPathOrPositionTurnsByItsDiameter() {
        DriveModel model =
                DriveModel.of(
                        Drives.vehicle(
                                List.of(),
                                CRANK,
                                Pulley.named("idler", Role.IDLER, 66).face(Face.FLAT).build()));
        DrivePart idler = model.part("idler").orElseThrow();
        assertEquals(2.5, idler.turnsPerCrankTurn(), ROUND_OFF);
        assertEquals(Direction.COUNTER, idler.direction());
        assertTrue(idler.wrapDeg().isEmpty());
        assertTrue(model.belts().isEmpty());
        assertEquals(List.of(), model.notes());
    }

    @Test
    void secondBeltIsFollowedThroughTheSharedPulley() {
        DriveModel model =
                DriveModel.of(
                        Drives.vehicle(
                                List.of(
                                        Belt.of("rear", List.of("pump", "fan", "jockey")),
                                        Belt.of("front", List.of("crank", "pump"))),
                                CRANK,
                                Pulley.named("pump", Role.WATER_PUMP, 110).face(Face.FLAT).build(),
                                Pulley.named("fan", Role.FAN, 220).build(),
                                Pulley.named("jockey", Role.IDLER, 55).face(Face.FLAT).build()));
        assertEquals(1.5, model.part("pump").orElseThrow().turnsPerCrankTurn(), ROUND_OFF);
        assertEquals(0.75, model.part("fan").orElseThrow().turnsPerCrankTurn(), ROUND_OFF);
        assertEquals(3.0, model.part("jockey").orElseThrow().turnsPerCrankTurn(), ROUND_OFF);
        assertEquals(Direction.COUNTER, model.part("pump").orElseThrow().direction());
        assertEquals(Direction.CRANK, model.part("fan").orElseThrow().direction());
        assertEquals(Direction.COUNTER, model.part("jockey").orElseThrow().direction());
        assertTrue(
                Drives.line(model, "fan", "turn").uncertaintyRatio()
                        > Drives.line(model, "pump", "turn").uncertaintyRatio());
    }

    @Test
    void twoPulleysOnTheCrankBothTurnOnce() {
        DriveModel model =
                DriveModel.of(
                        Drives.vehicle(
                                List.of(
                                        Belt.of("inner", 1000, List.of("crank", "pump")),
                                        Belt.of("outer", 900, List.of("crank-outer", "fan"))),
                                CRANK,
                                Pulley.named("crank-outer", Role.CRANK, 132).build(),
                                Pulley.named("pump", Role.WATER_PUMP, 110).build(),
                                Pulley.named("fan", Role.FAN, 110).build()));
        assertEquals(1, model.part("crank-outer").orElseThrow().turnsPerCrankTurn(), ROUND_OFF);
        assertEquals(1.5, model.part("pump").orElseThrow().turnsPerCrankTurn(), ROUND_OFF);
        assertEquals(1.2, model.part("fan").orElseThrow().turnsPerCrankTurn(), ROUND_OFF);
        assertEquals(Math.PI * 132 / 900, model.belts().get(1).order().orElseThrow(), ROUND_OFF);
    }

    @Test
    void pulleyThatTwoBeltsTurnDifferentlyIsNoted() {
        DriveModel model =
                DriveModel.of(
                        Drives.vehicle(
                                List.of(
                                        Belt.of("inner", List.of("crank", "pump")),
                                        Belt.of("outer", List.of("crank-outer", "pump"))),
                                CRANK,
                                Pulley.named("crank-outer", Role.CRANK, 132).build(),
                                Pulley.named("pump", Role.WATER_PUMP, 110).build()));
        assertEquals(1, model.notes().size());
        assertTrue(model.notes().get(0).contains("belt outer"), model.notes().get(0));
        assertTrue(model.notes().get(0).contains("pulley pump"), model.notes().get(0));
    }

    @Test
    void beltThatNothingDrivesIsNotedAndCountsByDiameter() {
        DriveModel model =
                DriveModel.of(
                        Drives.vehicle(
                                List.of(Belt.of("lost", List.of("fan", "pump"))),
                                CRANK,
                                Pulley.named("pump", Role.WATER_PUMP, 110).build(),
                                Pulley.named("fan", Role.FAN, 220).build()));
        assertEquals(0.75, model.part("fan").orElseThrow().turnsPerCrankTurn(), ROUND_OFF);
        assertEquals(1, model.notes().size());
        assertTrue(model.notes().get(0).contains("belt lost"), model.notes().get(0));
    }

    @Test
    void vehicleWithoutCrankIsRefusedWithWhatIsNeeded() {
        Vehicle vehicle = Drives.vehicle(List.of(), Pulley.named("idler", Role.IDLER, 66).build());
        String message =
                assertThrows(IllegalArgumentException.class, () -> DriveModel.of(vehicle))
                        .getMessage();
        assertTrue(message.contains("ML-07") && message.contains("role=crank"), message);
    }

    @Test
    void sizesThatNoDriveHasAreRefusedByName() {
        Pulley huge = Pulley.named("pump", Role.WATER_PUMP, 1e300).build();
        assertRefused("pulley pump has diameter_mm=1.0E300", List.of(), huge);
        Pulley far = Drives.grooved("pump", Role.WATER_PUMP, 110, 0, -1e200);
        assertRefused("pulley pump has y_mm=-1.0E200", List.of(), far);
        Pulley busy =
                Pulley.named("pump", Role.WATER_PUMP, 110).line(new PassLine("vanes", 1e9)).build();
        assertRefused("pulley pump, line vanes has per_turn=1.0E9", List.of(), busy);
        assertRefused(
                "belt main has length_mm=1.0E-300",
                List.of(Belt.of("main", 1e-300, List.of("crank"))));
    }

    private static void assertRefused(String start, List<Belt> belts, Pulley... others) {
        List<Pulley> pulleys = new ArrayList<>(List.of(others));
        pulleys.add(CRANK);
        Vehicle vehicle = Drives.vehicle(belts, pulleys.toArray(new Pulley[0]));
        String message =
                assertThrows(IllegalArgumentException.class, () -> DriveModel.of(vehicle))
                        .getMessage();
        assertTrue(message.startsWith(start + ", need "), message);
    }

    @Test
    void passLinesKeepTheirNameAndFollowTheirPulley() {
        Pulley alternator =
                Pulley.named("alternator", Role.ALTERNATOR, 55)
                        .line(new PassLine("slots", 36))
                        .build();
        DriveModel model = DriveModel.of(Drives.vehicle(List.of(), CRANK, alternator));
        PartLine slots = Drives.line(model, "alternator", "slots");
        assertEquals(108, slots.order(), 108 * ROUND_OFF);
        assertEquals(List.of(), slots.sidebandOrders());
    }

    @Test
    void turningInnerRingModulatesInnerRaceByTurnAndBallsByCage() {
        DriveModel model = withBearing(Ring.INNER);
        // 8 balls of 10 on 50: cage 0.4, outer 3.2, inner 4.8, ball 4.8; the idler turns 2.5.
        assertLine(model, LineKind.BEARING_OUTER_RING, 8);
        assertLine(model, LineKind.BEARING_INNER_RING, 12, 9.5, 14.5);
        assertLine(model, LineKind.ROLLING_ELEMENT, 12, 11, 13);
        assertLine(model, LineKind.CAGE, 1);
    }

    @Test
    void turningOuterRingModulatesOuterRaceByTurnAndBallsByItsFasterCage() {
        DriveModel model = withBearing(Ring.OUTER);
        assertLine(model, LineKind.BEARING_OUTER_RING, 8, 5.5, 10.5);
        assertLine(model, LineKind.BEARING_INNER_RING, 12);
        assertLine(model, LineKind.ROLLING_ELEMENT, 12, 10.5, 13.5);
        assertLine(model, LineKind.CAGE, 1.5);
    }

    private static DriveModel withBearing(Ring turning) {
        Pulley idler =
                Pulley.named("idler", Role.IDLER, 66)
                        .bearing(
                                PulleyBearing.ofGeometry(
                                        new BearingGeometry(8, 10, 50, 0), turning))
                        .build();
        return DriveModel.of(Drives.vehicle(List.of(), CRANK, idler));
    }

    private static void assertLine(
            DriveModel model, String kind, double order, double... sidebandOrders) {
        double roundOff = 15 * ROUND_OFF;
        PartLine line = Drives.line(model, "idler", kind);
        assertEquals(order, line.order(), roundOff);
        assertEquals(sidebandOrders.length, line.sidebandOrders().size());
        for (int i = 0; i < sidebandOrders.length; i++) {
            assertEquals(sidebandOrders[i], line.sidebandOrders().get(i), roundOff);
        }
    }

    @Test
    void bearingsOfOnePulleyAreToldApart() {
        Pulley alternator =
                Pulley.named("alternator", Role.ALTERNATOR, 60)
                        .bearing(PulleyBearing.ofDesignation("6303-2RS", Ring.INNER))
                        .bearing(PulleyBearing.ofDesignation("6203/C3", Ring.INNER))
                        .build();
        DrivePart part =
                DriveModel.of(Drives.vehicle(List.of(), CRANK, alternator))
                        .part("alternator")
                        .orElseThrow();
        assertEquals(
                List.of("bearing 1 (6303-2RS)", "bearing 2 (6203/C3)"),
                part.bearings().stream().map(PartBearing::label).toList());
        assertEquals(
                2,
                part.lines().stream()
                        .filter(l -> l.kind().equals(LineKind.CAGE))
                        .map(PartLine::source)
                        .distinct()
                        .count());
    }

    @Test
    void givenInternalsCountBeforeTheTable() {
        BearingGeometry given = new BearingGeometry(9, 6, 29, 0);
        Pulley idler =
                Pulley.named("idler", Role.IDLER, 66)
                        .bearing(PulleyBearing.of("6203", given, Ring.OUTER))
                        .build();
        PartBearing bearing =
                DriveModel.of(Drives.vehicle(List.of(), CRANK, idler))
                        .part("idler")
                        .orElseThrow()
                        .bearings()
                        .get(0);
        assertEquals(given, bearing.geometry());
        assertEquals(false, bearing.typical());
    }

    @Test
    void bearingOfUnknownInternalsHasNoLinesAndIsNoted() {
        Pulley pump =
                Pulley.named("pump", Role.WATER_PUMP, 110)
                        .bearing(PulleyBearing.unknown(Ring.INNER))
                        .bearing(PulleyBearing.ofDesignation("WP-77", Ring.INNER))
                        .build();
        DriveModel model = DriveModel.of(Drives.vehicle(List.of(), CRANK, pump));
        assertEquals(1, model.part("pump").orElseThrow().lines().size());
        assertEquals(2, model.notes().size());
        assertTrue(model.notes().get(1).contains("pulley pump, bearing 2 (WP-77)"));
    }

    @Test
    void twoUsualNumbersOfBallsMakeTwoSetsOfLines() {
        Pulley pump =
                Pulley.named("pump", Role.WATER_PUMP, 110)
                        .bearing(PulleyBearing.ofDesignation("6301", Ring.INNER))
                        .build();
        DrivePart part =
                DriveModel.of(Drives.vehicle(List.of(), CRANK, pump)).part("pump").orElseThrow();
        assertEquals(
                List.of("bearing 1 (6301), 6 balls", "bearing 1 (6301), 7 balls"),
                part.bearings().stream().map(PartBearing::label).toList());
        assertEquals(9, part.lines().size());
    }

    @Test
    void searchIsWiderTheLessIsKnown() {
        SearchTolerance none = new SearchTolerance(0, 0, 0, 0);
        SearchTolerance some = new SearchTolerance(0.03, 0.04, 0.12, 0);
        Pulley idler =
                Pulley.named("idler", Role.IDLER, 66)
                        .bearing(PulleyBearing.ofDesignation("6203", Ring.OUTER))
                        .build();
        Vehicle vehicle = Drives.vehicle(List.of(), CRANK, idler);
        DriveModel model = DriveModel.of(vehicle, some);
        assertEquals(0, Drives.line(model, "crank", "turn").uncertaintyRatio());
        assertEquals(0.03, Drives.line(model, "idler", "turn").uncertaintyRatio(), ROUND_OFF);
        assertEquals(
                0.13, Drives.line(model, "idler", LineKind.CAGE).uncertaintyRatio(), ROUND_OFF);
        PartLine exact = Drives.line(DriveModel.of(vehicle, none), "idler", LineKind.CAGE);
        assertEquals(exact.order(), exact.lowestOrders());
        assertEquals(exact.order(), exact.highestOrders());
    }

    @Test
    void measuredSpeedMovesAllLinesOfItsPulleyAlone() {
        Pulley idler =
                Pulley.named("idler", Role.IDLER, 66)
                        .bearing(
                                PulleyBearing.ofGeometry(
                                        new BearingGeometry(8, 10, 50, 0), Ring.OUTER))
                        .build();
        Pulley pump = Pulley.named("pump", Role.WATER_PUMP, 66).build();
        DriveModel model =
                DriveModel.of(
                                Drives.vehicle(List.of(), CRANK, idler, pump),
                                new SearchTolerance(0.01, 0.004, 0.1, 0))
                        .withMeasured("idler", new MeasuredTurns(2.48, 0.003));
        assertEquals(2.48, model.part("idler").orElseThrow().turnsPerCrankTurn());
        assertEquals(2.5, model.part("pump").orElseThrow().turnsPerCrankTurn(), ROUND_OFF);
        PartLine outer = Drives.line(model, "idler", LineKind.BEARING_OUTER_RING);
        assertEquals(2.48 * 3.2, outer.order(), 10 * ROUND_OFF);
        assertEquals(2.48 * 2.2, outer.sidebandOrders().get(0), 10 * ROUND_OFF);
        assertEquals(0.005, outer.uncertaintyRatio(), ROUND_OFF);
        assertEquals(0.003, Drives.line(model, "idler", "turn").uncertaintyRatio());
        assertEquals(0.01, Drives.line(model, "pump", "turn").uncertaintyRatio(), ROUND_OFF);
    }

    @Test
    void measuredSpeedOfTheCrankOrOfNobodyIsRefused() {
        DriveModel model = DriveModel.of(Drives.vehicle(List.of(), CRANK));
        MeasuredTurns turns = new MeasuredTurns(1.01, 0.001);
        assertThrows(IllegalArgumentException.class, () -> model.withMeasured("crank", turns));
        assertThrows(IllegalArgumentException.class, () -> model.withMeasured("fan", turns));
    }

    @Test
    void bearingLinesGoByTheWordsOfFaults() {
        for (String kind :
                List.of(
                        LineKind.BEARING_OUTER_RING,
                        LineKind.BEARING_INNER_RING,
                        LineKind.ROLLING_ELEMENT,
                        LineKind.CAGE)) {
            assertTrue(Fault.ofWord(kind).isPresent(), kind);
        }
    }

    @Test
    void lengthThatIsNotKnownLeavesTheBeltWithoutOrder() {
        DriveModel model =
                DriveModel.of(Drives.vehicle(List.of(Belt.of("main", List.of("crank"))), CRANK));
        DriveBelt belt = model.belts().get(0);
        assertTrue(belt.lengthMm().isEmpty());
        assertTrue(belt.order().isEmpty());
        assertTrue(belt.line().isEmpty());
        assertTrue(model.lines().stream().noneMatch(l -> l.kind().equals(LineKind.BELT)));
    }

    @Test
    void engineMakesCycleAndFiringLines() {
        DriveModel model = DriveModel.of(Drives.vehicle(List.of(), CRANK));
        assertEquals(List.of(0.5, 2.0), model.engineLines().stream().map(PartLine::order).toList());
    }

    @Test
    void vehicleWithoutPulleysStillHasAnEngine() {
        DriveModel model =
                DriveModel.of(new Vehicle("ML-01", "", Engine.of(4, 4), List.of(), List.of()));
        assertEquals(List.of(), model.parts());
        assertEquals(2, model.lines().size());
        assertTrue(model.notes().get(0).contains("lists no pulleys"), model.notes().toString());
    }
}

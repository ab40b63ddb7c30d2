package tickover.drive;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.Test;

class SeparabilityTest {
    private static final SearchTolerance EXACT = new SearchTolerance(0, 0, 0, 0);

    /** A drive whose alternator turns 3 times and whose pump turns as stated per crank turn. */
    private static DriveModel withPump(double turns, SearchTolerance tolerance) {
        return DriveModel.of(
                Drives.vehicle(
                        List.of(),
                        Pulley.named("crank", Role.CRANK, 150).build(),
                        Pulley.named("alternator", Role.ALTERNATOR, 150 / 2.9).build(),
                        Pulley.named("pump", Role.WATER_PUMP, 150 / turns).build()),
                tolerance);
    }

    private static Optional<LinePair> alternatorAndPump(DriveModel model, Separability.Spec spec) {
        return Separability.of(model, spec).pairs().stream()
                .filter(p -> p.a().line().part().equals("alternator"))
                .filter(p -> p.b().line().part().equals("pump"))
                .findFirst();
    }

    private static Separability.Spec capture(double captureS, double speedRpm) {
        return new Separability.Spec(captureS, speedRpm, 1, 0);
    }

    @Test
    void resolutionIsFourBinsOfTheTurnsRecorded() {
        assertEquals(400, capture(30, 800).turns(), 1e-9);
        assertEquals(0.01, capture(30, 800).resolutionOrders(), 1e-12);
    }

    @Test
    void knownLinesNeedOnlyLengthToBeParted() {
        DriveModel model = withPump(2.88, EXACT);
        LinePair pair = alternatorAndPump(model, capture(10, 600)).orElseThrow();
        assertEquals(Parting.CAPTURE_TOO_SHORT, pair.parting());
        // 4/0.02 turns at 10 turns a second.
        double roundOffS = 1e-9;
        assertEquals(20, pair.neededS(600).orElseThrow(), roundOffS);
        assertEquals(10, pair.neededS(1200).orElseThrow(), roundOffS);
        assertTrue(alternatorAndPump(model, capture(20.01, 600)).isEmpty());
        assertEquals(
                Parting.CAPTURE_TOO_SHORT,
                alternatorAndPump(model, capture(19.99, 600)).orElseThrow().parting());
    }

    @Test
    void linesInEachOthersPlaceAreNotPartedByLength() {
        DriveModel model = withPump(2.88, SearchTolerance.USUAL);
        assertEquals(
                Parting.INSEPARABLE,
                alternatorAndPump(model, capture(10, 600)).orElseThrow().parting());
        assertEquals(
                Parting.PLACES_OVERLAP,
                alternatorAndPump(model, capture(60, 600)).orElseThrow().parting());
    }

    @Test
    void measuredSpeedsPartLinesThatSlipLeavesOpen() {
        DriveModel model = withPump(2.88, SearchTolerance.USUAL);
        DriveModel refined =
                model.withMeasured("alternator", new MeasuredTurns(2.896, 0.001))
                        .withMeasured("pump", new MeasuredTurns(2.874, 0.001));
        assertTrue(alternatorAndPump(refined, capture(60, 600)).isEmpty());
    }

    @Test
    void equalPulleysAreInseparableAtAnyLengthAndSpeed() {
        DriveModel model = withPump(2.9, EXACT);
        for (double captureS : new double[] {1, 60, 36_000}) {
            for (double speedRpm : new double[] {600, 3000}) {
                LinePair pair = alternatorAndPump(model, capture(captureS, speedRpm)).orElseThrow();
                // Resolution goes below round-off at no length, so the gap never resolves.
                assertEquals(Parting.INSEPARABLE, pair.parting());
                assertTrue(pair.neededS(speedRpm).isEmpty());
            }
        }
    }

    @Test
    void farLinesArePairedWithNobody() {
        assertTrue(
                alternatorAndPump(withPump(2.0, SearchTolerance.USUAL), capture(20, 800))
                        .isEmpty());
    }

    @Test
    void harmonicsMeetWhereLinesDoNot() {
        DriveModel model = withPump(1.45, EXACT);
        assertTrue(alternatorAndPump(model, capture(20, 800)).isEmpty());
        LinePair pair =
                alternatorAndPump(model, new Separability.Spec(20, 800, 4, 0)).orElseThrow();
        assertEquals("turn", pair.a().label());
        assertEquals("turn x2", pair.b().label());
        // The fourth of the pump on the second of the alternator says nothing new.
        assertEquals(
                1,
                Separability.of(model, new Separability.Spec(20, 800, 4, 0)).pairs().stream()
                        .filter(p -> !p.a().line().part().equals("crank"))
                        .count());
    }

    @Test
    void engineAndCrankHarmonicsCountUpToTheStatedOrder() {
        DriveModel model = withPump(2.5, EXACT);
        Separability below = Separability.of(model, new Separability.Spec(20, 800, 1, 2.4));
        Separability above = Separability.of(model, new Separability.Spec(20, 800, 1, 2.6));
        assertEquals(List.of(), below.pairs());
        assertEquals(1, above.pairs().size());
        assertEquals("cycle x5", above.pairs().get(0).b().label());
        assertEquals(List.of("engine"), above.sharedWith("pump", 2.5));
        assertEquals(List.of(), above.sharedWith("alternator", 2.9));
    }

    @Test
    void engineHarmonicsGoByFiringWhereTheyCan() {
        DriveModel model = withPump(4, EXACT);
        List<String> labels =
                Separability.of(model, new Separability.Spec(20, 800, 1, 5)).pairs().stream()
                        .map(
                                p ->
                                        p.a().line().part()
                                                + " "
                                                + p.a().label()
                                                + ", "
                                                + p.b().line().part()
                                                + " "
                                                + p.b().label())
                        .toList();
        assertEquals(List.of("crank turn x4, pump turn", "pump turn, engine firing x2"), labels);
    }

    @Test
    void crankAndEngineAreOneShaft() {
        DriveModel model =
                DriveModel.of(
                        Drives.vehicle(List.of(), Pulley.named("crank", Role.CRANK, 150).build()));
        Separability s = Separability.of(model, new Separability.Spec(20, 800, 1, 20));
        assertEquals(List.of(), s.pairs());
        assertEquals(List.of(), s.sharedWith("crank", 2));
        assertEquals(List.of("engine", "crank"), sorted(s.sharedWith("pump", 2)));
    }

    private static List<String> sorted(List<String> names) {
        return names.stream().sorted(Comparator.reverseOrder()).toList();
    }

    @Test
    void collisionsAreJudgedAtTheVehiclesOwnIdle() {
        Engine slow = Engine.of(4, 4).withIdleRpm(400);
        Engine fast = Engine.of(4, 4).withIdleRpm(1600);
        Pulley[] pulleys = {
            Pulley.named("crank", Role.CRANK, 150).build(),
            Pulley.named("alternator", Role.ALTERNATOR, 150 / 2.900).build(),
            Pulley.named("pump", Role.WATER_PUMP, 150 / 2.885).build(),
        };
        // 20 s resolve 0.03 at 400 rpm and 0.0075 at 1600 rpm.
        assertEquals(1, collisions(slow, pulleys).size());
        assertEquals(0, collisions(fast, pulleys).size());
    }

    private static List<Collision> collisions(Engine engine, Pulley... pulleys) {
        return DriveModel.of(new Vehicle("ML-07", "", engine, List.of(), List.of(pulleys)))
                .collisions();
    }

    @Test
    void captureOfNoLengthIsRefused() {
        String message =
                assertThrows(IllegalArgumentException.class, () -> capture(0, 800)).getMessage();
        assertTrue(message.contains("captureS=0.0"), message);
        assertThrows(IllegalArgumentException.class, () -> capture(10, Double.NaN));
        assertThrows(IllegalArgumentException.class, () -> new Separability.Spec(10, 800, 0, 12));
    }
}

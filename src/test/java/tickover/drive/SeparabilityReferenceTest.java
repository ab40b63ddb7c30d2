package tickover.drive;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNotEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.Set;
import java.util.stream.Collectors;
import org.junit.jupiter.api.Test;

/**
 * The recomputed collision example: an alternator at 2.5667 and an idler at 1.9643 turns per crank
 * turn, both on 6203 bearings. The idler's outer race stands at 5.997 beside crank order 6, and its
 * balls at 7.833 beside the alternator's outer race at 7.836. The right answer is that order cannot
 * separate them, at any speed.
 */
class SeparabilityReferenceTest {
    private static final double PRINTED_ORDERS = 0.0005;

    private static String name(LineHarmonic m) {
        return m.line().part() + " " + m.line().source() + " " + m.label();
    }

    private static Set<String> inseparable(double captureS, double speedRpm) {
        DriveModel model = DriveModel.of(WorkedExample.vehicle());
        return Separability.of(model, new Separability.Spec(captureS, speedRpm, 1, 12))
                .pairs()
                .stream()
                .filter(p -> p.parting() == Parting.INSEPARABLE)
                .map(p -> name(p.a()) + " | " + name(p.b()))
                .collect(Collectors.toSet());
    }

    @Test
    void collidingBearingsCannotBeSeparatedAtAnySpeed() {
        for (double speedRpm : new double[] {650, 800, 1500, 2000}) {
            Set<String> pairs = inseparable(30, speedRpm);
            assertTrue(
                    pairs.contains(
                            "crank pulley turn x6 | idler bearing 1 (6203) bearing-outer-ring"),
                    pairs.toString());
            assertTrue(
                    pairs.contains(
                            "idler bearing 1 (6203) bearing-outer-ring | engine engine firing x3"),
                    pairs.toString());
            assertTrue(
                    pairs.contains(
                            "alternator bearing 2 (6203) bearing-outer-ring"
                                    + " | idler bearing 1 (6203) rolling-element"),
                    pairs.toString());
        }
    }

    @Test
    void noCaptureHoweverLongPartsThem() {
        DriveModel model = DriveModel.of(WorkedExample.vehicle());
        Separability hour = Separability.of(model, new Separability.Spec(3600, 800, 1, 12));
        List<LinePair> balls =
                hour.pairs().stream()
                        .filter(p -> name(p.a()).contains("alternator bearing 2"))
                        .filter(p -> p.b().label().equals("rolling-element"))
                        .toList();
        assertTrue(balls.stream().anyMatch(p -> p.gapOrders() < 0.005));
        for (LinePair pair : balls) {
            assertNotEquals(Parting.PARTED, pair.parting());
            assertNotEquals(Parting.CAPTURE_TOO_SHORT, pair.parting());
        }
    }

    @Test
    void modelListsTheCollisions() {
        List<Collision> found = DriveModel.of(WorkedExample.vehicle()).collisions();
        Collision balls =
                found.stream()
                        .filter(c -> c.bLine().equals("rolling-element"))
                        .findFirst()
                        .orElseThrow();
        assertEquals("alternator", balls.a());
        assertEquals("bearing-outer-ring", balls.aLine());
        assertEquals("idler", balls.b());
        assertEquals(7.836, balls.orderA(), PRINTED_ORDERS);
        assertEquals(7.833, balls.orderB(), PRINTED_ORDERS);
        Collision firing =
                found.stream()
                        .filter(c -> c.b().equals("engine") && c.a().equals("idler"))
                        .findFirst()
                        .orElseThrow();
        assertEquals("bearing-outer-ring", firing.aLine());
        assertEquals("firing x3", firing.bLine());
        assertEquals(5.997, firing.orderA(), PRINTED_ORDERS);
        assertEquals(6, firing.orderB());
    }

    @Test
    void linesThatStandClearAreNotListed() {
        List<Collision> found = DriveModel.of(WorkedExample.vehicle()).collisions();
        // The idler's inner race at 9.717 and cage at 1.215 have no neighbour within 0.015.
        assertTrue(
                found.stream()
                        .noneMatch(c -> c.aLine().equals("cage") || c.bLine().equals("cage")));
        assertTrue(
                found.stream()
                        .noneMatch(
                                c ->
                                        c.a().equals("idler")
                                                && c.aLine().equals("bearing-inner-ring")));
    }
}

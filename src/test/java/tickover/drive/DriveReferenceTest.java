package tickover.drive;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.List;
import org.junit.jupiter.api.Test;

/** Drive ratios and belt orders against worked examples. */
class DriveReferenceTest {
    private static double turns(double crankMm, double pulleyMm) {
        return DriveModel.of(
                        Drives.vehicle(
                                List.of(),
                                Pulley.named("crank", Role.CRANK, crankMm).build(),
                                Pulley.named("other", Role.OTHER, pulleyMm).build()))
                .part("other")
                .orElseThrow()
                .turnsPerCrankTurn();
    }

    /**
     * Worked example of an enthusiasts' page, seen as an excerpt: a 7 in crank pulley at 1000 rpm
     * turns 5, 6, 2.5 and 6.5 in pulleys at 1400, 1167, 2800 and 1077 rpm.
     */
    @Test
    void pulleySpeedsMatchTheWorkedExample() {
        double inchMm = 25.4;
        double printedRpm = 0.5;
        assertEquals(1400, 1000 * turns(7 * inchMm, 5 * inchMm), printedRpm);
        assertEquals(1167, 1000 * turns(7 * inchMm, 6 * inchMm), printedRpm);
        assertEquals(2800, 1000 * turns(7 * inchMm, 2.5 * inchMm), printedRpm);
        assertEquals(1077, 1000 * turns(7 * inchMm, 6.5 * inchMm), printedRpm);
    }

    /**
     * Effective diameters 150 and 56 mm with a line differential of 2 mm (seen as an excerpt of ISO
     * 9981:2020): pitch diameters 154 and 60 mm; and a flat idler of 76 mm with 1.2 mm from cord to
     * back, 78.4 mm at the pitch line. Recomputed.
     */
    @Test
    void pitchDiametersNotOutsideOnesSetTheRatio() {
        double printed = 0.00005;
        double lineDifferentialMm = 2;
        double cordToBackMm = 1.2;
        double crankMm = 150 + 2 * lineDifferentialMm;
        assertEquals(2.5667, turns(crankMm, 56 + 2 * lineDifferentialMm), printed);
        assertEquals(1.9643, turns(crankMm, 76 + 2 * cordToBackMm), printed);
        assertEquals(2.6786, turns(150, 56), printed);
    }

    /** A 2 m belt on a 154 mm crank pulley: 0.2419 belt turns per crank turn; recomputed. */
    @Test
    void beltOrderMatchesTheWorkedExample() {
        double printed = 0.00005;
        DriveModel model =
                DriveModel.of(
                        Drives.vehicle(
                                List.of(Belt.of("main", 2000, List.of("crank"))),
                                Pulley.named("crank", Role.CRANK, 154).build()));
        double order = model.belts().get(0).order().orElseThrow();
        assertEquals(0.2419, order, printed);
        double printedHz = 0.0005;
        assertEquals(3.225, order * 800 / 60, printedHz);
    }

    /**
     * Alternator at 2.5667 with 6303-like front and 6203 rear bearing, idler at 1.9643 on a 6203
     * whose outer ring turns. Geometry from memory, orders recomputed to three decimals.
     */
    @Test
    void bearingLinesPerCrankTurnMatchTheWorkedExample() {
        DriveModel model = DriveModel.of(WorkedExample.vehicle());
        double printed = 0.0005;
        assertEquals(92.40, Drives.line(model, "alternator", "slots").order(), 0.005);
        List<PartLine> lines = model.part("alternator").orElseThrow().lines();
        // The 6303's ball is printed to 0.01 mm, so its orders are good to half of that in 32 mm.
        double ballRounded = 3.5 * 0.005 / 32 * 2.5667;
        assertEquals(6.532, order(lines, "bearing 1 (6303)", "bearing-outer-ring"), ballRounded);
        assertEquals(11.435, order(lines, "bearing 1 (6303)", "bearing-inner-ring"), ballRounded);
        assertEquals(7.836, order(lines, "bearing 2 (6203)", "bearing-outer-ring"), printed);
        assertEquals(12.697, order(lines, "bearing 2 (6203)", "bearing-inner-ring"), printed);
        assertEquals(5.997, Drives.line(model, "idler", "bearing-outer-ring").order(), printed);
        assertEquals(7.833, Drives.line(model, "idler", "rolling-element").order(), printed);
        assertEquals(9.717, Drives.line(model, "idler", "bearing-inner-ring").order(), printed);
        assertEquals(1.215, Drives.line(model, "idler", "cage").order(), printed);
    }

    private static double order(List<PartLine> lines, String source, String kind) {
        return lines.stream()
                .filter(l -> l.source().equals(source) && l.kind().equals(kind))
                .findFirst()
                .orElseThrow()
                .order();
    }
}

package tickover.diagnose;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;

import java.util.List;
import org.junit.jupiter.api.Test;
import tickover.drive.DriveModel;
import tickover.drive.DrivePart;

class TurnFinderTest {
    /** The tape gives 165/78 less the usual slip, 2.098; the pulley turns 1.1 % faster. */
    private static final double TRUE_TURNS = 2.1213;

    @Test
    void shakeOncePerTurnGivesTheSpeedThatTheTapeMisses() throws UnusableCaptureException {
        double[] own = SteadyCaptures.noise(1, 0.05);
        double[] other = SteadyCaptures.noise(2, 0.05);
        for (int k = 1; k <= 4; k++) {
            SteadyCaptures.tone(own, k * TRUE_TURNS, 0.1 / k);
            SteadyCaptures.tone(other, k * TRUE_TURNS, 0.02 / k);
        }
        DriveModel found =
                TurnFinder.refine(
                        SteadyCaptures.drive(),
                        List.of(
                                SteadyCaptures.at("idler", own),
                                SteadyCaptures.at("alternator", other)));
        // What the finder itself says it leaves open; the tape's figure is off five times that.
        double leftOpen = TurnFinder.LEFT_OPEN_RATIO;
        assertEquals(1, idler(found).turnsPerCrankTurn() / TRUE_TURNS, leftOpen);
    }

    @Test
    void noiseLeavesTheDiameters() throws UnusableCaptureException {
        DriveModel found =
                TurnFinder.refine(
                        SteadyCaptures.drive(),
                        List.of(SteadyCaptures.at("idler", SteadyCaptures.noise(3, 0.05))));
        assertFalse(TurnFinder.isMeasured(idler(found)));
    }

    private static DrivePart idler(DriveModel drive) {
        return drive.parts().stream()
                .filter(p -> p.name().equals("idler"))
                .findFirst()
                .orElseThrow();
    }
}

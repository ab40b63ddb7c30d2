package tickover.sim;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.HashSet;
import java.util.List;
import java.util.Set;
import org.junit.jupiter.api.Test;
import tickover.drive.Condition;
import tickover.drive.Engine;
import tickover.drive.PartLine;

class EngineTroubleTest {
    private static final Trouble TROUBLE =
            new Trouble(PartLine.ENGINE, FaultKind.UNSPECIFIED, 0.7, 0);

    private static Place place(int seed) {
        Engine engine = Engine.of(4, 4).withFiringOrder(List.of(1, 3, 4, 2));
        EngineSound sound = new EngineSound(engine, new Draw(1), TROUBLE);
        return EngineTrouble.place(engine, sound, TROUBLE, new Draw(seed));
    }

    @Test
    void everyKindOfItIsDrawnAndGoesOnWithTheBeltOff() {
        Condition beltOff = Condition.UNLOADED.withBeltOn(false);
        Set<String> names = new HashSet<>();
        int enough = 60; // the rarest kind is drawn in three of twenty
        for (int seed = 0; seed < enough; seed++) {
            Place place = place(seed);
            names.add(place.name());
            assertFalse(place.stands(beltOff), place.name());
        }
        assertEquals(Set.of("gearbox", "balance-shaft", "camshaft", "cylinder"), names);
    }

    @Test
    void itsShaftTurnsWithTheEngineWhateverTheLoad() {
        Condition loaded = Condition.UNLOADED.withAircon(true).withHeadlights(true);
        for (int seed = 0; seed < 20; seed++) {
            Place place = place(seed);
            double turns = place.drive().ratio(Condition.UNLOADED);
            assertTrue(Set.of(0.5, 1.0, 2.0).contains(turns), place.name() + " " + turns);
            assertEquals(turns, place.drive().ratio(loaded), 0, place.name());
        }
    }

    @Test
    void aVisitNamesTheEngineAsWhatIsWrong() {
        SimulatedVisit visit =
                Workshop.visit(
                        7, WorkshopCase.any().withFault(FaultKind.UNSPECIFIED).withSeverity(0.5));
        assertEquals(new Truth("engine", FaultKind.UNSPECIFIED, 0.5), visit.truth());
    }
}

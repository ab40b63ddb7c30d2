package tickover.session;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Optional;
import org.junit.jupiter.api.Test;
import tickover.drive.Vehicle;
import tickover.sim.SimulatedVan;

class KnownPointsTest {
    private final Vehicle vehicle = new SimulatedVan(false).vehicle();

    private String remark(String point) {
        return KnownPoints.remark(vehicle, point).orElseThrow();
    }

    @Test
    void pointsOfTheVehicleNeedNoRemark() {
        for (String point : KnownPoints.of(vehicle)) {
            assertEquals(Optional.empty(), KnownPoints.remark(vehicle, point));
        }
        assertTrue(KnownPoints.of(vehicle).contains("injector-4"));
    }

    @Test
    void slipOfTheKeyboardIsGuessed() {
        assertTrue(remark("altenator").contains("alternator was meant?"));
        assertTrue(remark("Water Pump").contains("water-pump was meant?"));
        assertTrue(remark("injector-5").contains("injector-1 was meant?"));
    }

    @Test
    void otherWordsAreNotGuessedAt() {
        assertFalse(remark("left engine mount").contains("was meant"));
        assertTrue(remark("left engine mount").contains("counts as a note"));
    }
}

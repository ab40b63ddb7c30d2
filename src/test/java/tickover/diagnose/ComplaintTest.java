package tickover.diagnose;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

/** What a driver's words say; which noise goes with which fault is common practice. */
final class ComplaintTest {
    private static final double ROUND_OFF = 1e-12;

    /** Right six times of ten against one of three other kinds: 0.6 / (0.4 / 3). */
    private static final double MOST_FACTOR = 4.5;

    @ParameterizedTest
    @CsvSource({
        "Whine that climbs with engine speed, BEARING_LINE, INJECTOR_TICK",
        "howling from the front, ROUGH, BELT",
        "TICKING AT IDLE, INJECTOR_TICK, BEARING_LINE",
        "tapping noise, VALVE_TICK, ECCENTRIC",
        "it hums, UNKNOWN_BEARING, INJECTOR_TICK",
        "a tap each second, INJECTOR_TICK, BELT",
        "vibrations in the wheel, ECCENTRIC, ROUGH",
        "shaky and it thuds, BELT, ROUGH",
        "it knocks under load, ENGINE_KNOCK, ENGINE_BEARING",
        "rattle when cold, LOOSE, BEARING_LINE",
        "slapping at the front, BELT, INJECTOR_TICK",
        "the wheel wobbles and shakes, ECCENTRIC, ROUGH",
    })
    void aNoiseSpeaksForWhatSoundsLikeIt(String text, FaultGroup likes, FaultGroup other) {
        Complaint c = Complaint.of(text);
        assertTrue(c.nats(likes) > c.nats(other), text);
        assertTrue(c.nats(likes) > c.healthyNats(), text);
        assertTrue(c.reason(likes).text().contains("is how such a fault sounds"), text);
        assertTrue(c.reason(likes).strengthDb() > 0, text);
        assertTrue(c.reason(other).text().contains("is not how such a fault sounds"), text);
    }

    @Test
    void noComplaintMovesOddsByMoreThanItsFactor() {
        for (String text :
                new String[] {
                    "whine", "ticking", "thump, flap, slap", "service", "rumble", "whine and tick"
                }) {
            Complaint c = Complaint.of(text);
            for (FaultGroup a : FaultGroup.values()) {
                assertTrue(Math.abs(c.nats(a) - c.healthyNats()) <= Math.log(MOST_FACTOR) + 1e-9);
                for (FaultGroup b : FaultGroup.values()) {
                    assertTrue(c.nats(a) - c.nats(b) <= Math.log(MOST_FACTOR) + 1e-9);
                }
            }
        }
        Complaint whine = Complaint.of("whine");
        assertEquals(
                Math.log(MOST_FACTOR),
                whine.nats(FaultGroup.ROUGH) - whine.nats(FaultGroup.BELT),
                ROUND_OFF);
    }

    @Test
    void whoComesForAServiceHasHeardNothing() {
        for (String text :
                new String[] {
                    "service visit, no complaint",
                    "Routine inspection",
                    "no rattle, no whine",
                    "after the repair: no longer any whine"
                }) {
            Complaint c = Complaint.of(text);
            assertTrue(c.healthyNats() > c.nats(FaultGroup.BEARING_LINE), text);
            assertEquals("The complaint speaks of no noise.", c.reason(FaultGroup.LOOSE).text());
            assertTrue(c.reason(FaultGroup.LOOSE).strengthDb() < 0, text);
        }
    }

    @Test
    void aNoiseSinceTheServiceIsANoise() {
        Complaint c = Complaint.of("whines since the last service");
        assertTrue(c.nats(FaultGroup.BEARING_LINE) > c.healthyNats());
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                "",
                "   ",
                "driver says it has become louder",
                "asked to check a noise, nothing definite",
                "some noise after the service",
                "job ticket 4711",
                "human error at the pump",
                "pfeift beim Gasgeben",
                "шум спереди",
                "\"\u0000 1234 %s {}"
            })
    void wordsOfNoKindSayNothing(String text) {
        Complaint c = Complaint.of(text);
        assertFalse(c.speaks(), text);
        for (FaultGroup group : FaultGroup.values()) {
            assertEquals(0, c.nats(group), text);
        }
        assertEquals(0, c.healthyNats(), text);
    }

    @Test
    void aWordOfTwoKindsSpeaksForBothAndLessForEach() {
        Complaint rumble = Complaint.of("rumbles at idle");
        Complaint whine = Complaint.of("whines at idle");
        double forBearing = rumble.nats(FaultGroup.ROUGH) - rumble.nats(FaultGroup.INJECTOR_TICK);
        assertTrue(forBearing > 0);
        assertEquals(rumble.nats(FaultGroup.ROUGH), rumble.nats(FaultGroup.BELT), ROUND_OFF);
        assertTrue(
                forBearing < whine.nats(FaultGroup.ROUGH) - whine.nats(FaultGroup.INJECTOR_TICK));
    }
}

package tickover.report;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import org.junit.jupiter.api.Test;

class CautionTest {
    @Test
    void everyTestStartsWithTheEngineStart() {
        assertEquals(List.of(Caution.FIRST_START), Caution.forTest("probe"));
        assertEquals(List.of(Caution.FIRST_START, Caution.BELT_OFF), Caution.forTest("belt-off"));
        assertEquals(List.of(Caution.FIRST_START, Caution.IN_GEAR), Caution.forTest("drive-gear"));
        assertEquals(
                List.of(Caution.FIRST_START, Caution.INJECTOR), Caution.forTest("injector-off"));
        assertEquals(List.of(Caution.FIRST_START, Caution.STEERING), Caution.forTest("steering"));
    }

    @Test
    void cautionsAreWholeSentences() {
        for (Caution caution : Caution.values()) {
            assertTrue(caution.when().startsWith("before "), caution.when());
            assertFalse(caution.sentences().isEmpty());
            for (String sentence : caution.sentences()) {
                assertTrue(sentence.endsWith("."), sentence);
            }
        }
    }

    @Test
    void beltOffNamesItsTimeLimit() {
        assertTrue(String.join(" ", Caution.BELT_OFF.sentences()).contains("2 minutes"));
    }
}

package tickover.report;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import org.junit.jupiter.api.Test;
import tickover.diagnose.Candidate;
import tickover.diagnose.Fault;
import tickover.diagnose.Findings;
import tickover.diagnose.PartChange;
import tickover.diagnose.Verdict;

class WordingTest {
    private static Findings findings(Verdict verdict, Candidate... candidates) {
        return new Findings(verdict, List.of(candidates), List.of(), List.of());
    }

    private static Candidate candidate(String component, Fault fault, double probability) {
        return new Candidate(component, fault, probability, List.of());
    }

    @Test
    void namesComponentsAsPeopleDo() {
        assertEquals("the water pump", Wording.component("water-pump"));
        assertEquals("the main belt", Wording.component("belt:main"));
        assertEquals("injector 2", Wording.component("injector-2"));
        assertEquals("the engine itself", Wording.component("engine"));
        assertEquals("nothing out of the ordinary", Wording.component("none"));
    }

    @Test
    void headlineSaysVerdictInOneSentence() {
        assertEquals(
                "The noise most probably comes from the idler: a damaged spot on the inner ring of"
                        + " its bearing.",
                Wording.headline(
                        findings(
                                Verdict.COMPONENT,
                                candidate("idler", Fault.BEARING_INNER_RING, 0.9),
                                candidate("none", Fault.NONE, 0.1))));
        assertEquals(
                "The evidence does not decide; the first to look at are the idler and the fan.",
                Wording.headline(
                        findings(
                                Verdict.UNCLEAR,
                                candidate("none", Fault.NONE, 0.5),
                                candidate("idler", Fault.LOOSE, 0.3),
                                candidate("fan", Fault.LOOSE, 0.2))));
        assertEquals(
                "Nothing here is out of the ordinary.",
                Wording.headline(findings(Verdict.NONE, candidate("none", Fault.NONE, 1))));
    }

    @Test
    void neverClaimsCertainty() {
        assertEquals(">99 %", Wording.percent(1));
        assertEquals("<1 %", Wording.percent(0));
        assertEquals("93 %", Wording.percent(0.93));
    }

    @Test
    void everyFaultHasAPhrase() {
        for (Fault fault : Fault.values()) {
            assertTrue(Wording.fault(fault).length() > 5, fault.toString());
        }
    }

    @Test
    void changeWithinItsIntervalIsNoChange() {
        assertEquals("no change that can be told from scatter", Wording.change(change(-3, -7, 1)));
        assertEquals("a little quieter", Wording.change(change(-3, -4, -2)));
        assertEquals("clearly louder", Wording.change(change(8, 6, 10)));
        assertEquals("far quieter", Wording.change(change(-31, -40, -23)));
    }

    private static PartChange change(double db, double low, double high) {
        return new PartChange(
                "idler", new PartChange.Interval(db, low, high), 1, true, 0.5, true, 1, 1);
    }
}

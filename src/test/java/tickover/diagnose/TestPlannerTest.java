package tickover.diagnose;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import org.junit.jupiter.api.Test;
import tickover.drive.Belt;
import tickover.drive.Condition;
import tickover.drive.Engine;
import tickover.drive.Pulley;
import tickover.drive.Role;
import tickover.drive.Vehicle;

class TestPlannerTest {
    private static final Vehicle VAN =
            new Vehicle(
                    "ML-07",
                    "",
                    Engine.of(4, 4),
                    List.of(Belt.of("main", List.of())),
                    List.of(
                            Pulley.named("crank", Role.CRANK, 165).build(),
                            Pulley.named("alternator", Role.ALTERNATOR, 60).build(),
                            Pulley.named("idler", Role.IDLER, 78).build()));

    @Test
    void pointOfTheSuspectComesFirstWhileItIsNotRecorded() {
        List<NextTest> tests = TestPlanner.plan(VAN, split(), List.of(at("alternator")));
        assertEquals("point", tests.get(0).kind());
        assertTrue(tests.get(0).text().contains("idler"), tests.get(0).text());
    }

    @Test
    void neverAsksForWhatIsDone() {
        CaptureLabel beltOff =
                new CaptureLabel(
                        "c9",
                        "block",
                        "",
                        Mount.HAND,
                        Regime.IDLE,
                        Condition.UNLOADED.withBeltOn(false));
        List<NextTest> tests =
                TestPlanner.plan(VAN, split(), List.of(at("alternator"), at("idler"), beltOff));
        assertTrue(tests.stream().noneMatch(t -> t.kind().equals("belt-off")));
        assertTrue(tests.stream().noneMatch(t -> t.kind().equals("point")));
    }

    @Test
    void certaintyLeavesNothingToLearn() {
        List<Candidate> sure =
                List.of(
                        new Candidate("idler", Fault.BEARING_OUTER_RING, 1, List.of()),
                        new Candidate(Candidate.NONE, Fault.NONE, 0, List.of()));
        assertEquals(List.of(), TestPlanner.plan(VAN, sure, List.of(at("idler"))));
    }

    @Test
    void namesPlacesAndPartsInWords() {
        List<Candidate> open =
                List.of(
                        new Candidate("valve-train", Fault.TICK, 0.4, List.of()),
                        new Candidate("injector-2", Fault.TICK, 0.4, List.of()),
                        new Candidate("idler", Fault.LOOSE, 0.2, List.of()));
        List<String> texts =
                TestPlanner.plan(VAN, open, List.of(at("injector-2"))).stream()
                        .map(NextTest::text)
                        .toList();
        assertTrue(
                texts.stream()
                        .anyMatch(
                                t ->
                                        t.contains("the probe on the valve cover")
                                                && t.contains("speaks for the valve train;")),
                texts.toString());
        assertTrue(texts.stream().anyMatch(t -> t.startsWith("Unplug injector 2 and")));
    }

    @Test
    void beltOffPartsEngineFromDriveAndWarns() {
        List<Candidate> open =
                List.of(
                        new Candidate("idler", Fault.LOOSE, 0.5, List.of()),
                        new Candidate("valve-train", Fault.TICK, 0.5, List.of()),
                        new Candidate(Candidate.NONE, Fault.NONE, 0, List.of()));
        NextTest test =
                TestPlanner.plan(VAN, open, List.of(at("idler"), at("valve-cover"))).stream()
                        .filter(t -> t.kind().equals("belt-off"))
                        .findFirst()
                        .orElseThrow();
        // Two equal chances and a test that is right 95 times in 100: 1 - H(0.95).
        double expected = 1 + 0.95 * log2(0.95) + 0.05 * log2(0.05);
        double roundOff = 1e-12;
        assertEquals(expected, test.expectedGainBits(), roundOff);
        assertTrue(test.text().contains("no coolant pump"), test.text());
    }

    @Test
    void runWithoutBeltComesAfterWhatTellsAsMuchAtLessRisk() {
        List<Candidate> open =
                List.of(
                        new Candidate("injector-2", Fault.TICK, 0.45, List.of()),
                        new Candidate("idler", Fault.LOOSE, 0.45, List.of()),
                        new Candidate(Candidate.NONE, Fault.NONE, 0.1, List.of()));
        List<NextTest> tests = TestPlanner.plan(VAN, open, List.of(at("idler"), at("injector-2")));
        List<String> kinds = tests.stream().map(NextTest::kind).toList();
        assertTrue(
                kinds.indexOf("injector-off") < kinds.indexOf("belt-off")
                        && kinds.contains("injector-off"),
                kinds.toString());
        assertEquals(TestRisk.HIGH, TestRisk.of("belt-off"));
    }

    private static double log2(double x) {
        return Math.log(x) / Math.log(2);
    }

    private static List<Candidate> split() {
        return List.of(
                new Candidate("idler", Fault.BEARING_OUTER_RING, 0.5, List.of()),
                new Candidate("alternator", Fault.BEARING_INNER_RING, 0.3, List.of()),
                new Candidate(Candidate.NONE, Fault.NONE, 0.2, List.of()));
    }

    private static CaptureLabel at(String point) {
        return new CaptureLabel(
                "c-" + point, point, "radial", Mount.HAND, Regime.IDLE, Condition.UNLOADED);
    }
}

package tickover.diagnose;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;
import tickover.drive.Condition;

class RepairProofTest {
    private static final List<String> POINTS = List.of("idler", "alternator", "block", "bracket");

    /** How a visit is made: what each part is, in dB re 1 m/s², and whom it accuses. */
    private static final class Made {
        private final List<CaptureSummary> captures = new ArrayList<>();
        private final List<PartLevel> levels = new ArrayList<>();
        private Mount mount = Mount.MAGNET;
        private double speedRpm = 800;
        private double touchDb;

        Made by(Mount other) {
            mount = other;
            return this;
        }

        Made at(double rpm) {
            speedRpm = rpm;
            return this;
        }

        /** Each touch moves all levels of a point, in turn up and down. */
        Made touches(double db) {
            touchDb = db;
            return this;
        }

        Made parts(double idlerDb, double alternatorDb) {
            int sign = 1;
            for (String point : POINTS) {
                String id = "c" + captures.size();
                captures.add(
                        new CaptureSummary(
                                new CaptureLabel(
                                        id,
                                        point,
                                        "radial",
                                        mount,
                                        Regime.IDLE,
                                        Condition.UNLOADED),
                                "tach",
                                10,
                                speedRpm,
                                speedRpm,
                                speedRpm,
                                1));
                double moved = sign * touchDb;
                level("engine", id, moved);
                level("idler", id, idlerDb + moved);
                level("alternator", id, alternatorDb + moved);
                sign = -sign;
            }
            return this;
        }

        private void level(String part, String capture, double db) {
            double rms = Math.pow(10, db / 20);
            LineLevel line = new LineLevel("turn", 2, rms, 0.02 * rms, List.of());
            levels.add(new PartLevel(part, capture, rms, 0.02 * rms, List.of(line)));
        }

        VisitResult accusing(String part, double probability) {
            List<Candidate> candidates = new ArrayList<>();
            candidates.add(new Candidate(part, Fault.BEARING_OUTER_RING, probability, List.of()));
            candidates.add(new Candidate(Candidate.NONE, Fault.NONE, 1 - probability, List.of()));
            candidates.sort((a, b) -> Double.compare(b.probability(), a.probability()));
            Findings findings =
                    new Findings(
                            probability > 0.8 ? Verdict.COMPONENT : Verdict.NONE,
                            candidates,
                            List.of(),
                            List.of());
            return new VisitResult(findings, captures, levels, "test", "");
        }
    }

    private static Made made() {
        return new Made().touches(0.5);
    }

    @Test
    void goneMeansSurelyHalfAndNoLongerSuspected() {
        VisitResult before = made().parts(0, -10).accusing("idler", 0.95);
        VisitResult after = made().touches(-0.5).parts(-20, -10).accusing("idler", 0.02);
        RepairProof proof = RepairProof.of(before, after, "idler");
        assertEquals(RepairProof.State.GONE, proof.state(), proof.text());
        // Thousands to one: a 21 dB drop against a touch sigma of 1.2 dB from three degrees of
        // freedom.
        assertTrue(proof.text().matches(".* by luck: 1 in [1-9]\\d{3}\\..*"), proof.text());
        assertTrue(proof.text().contains("95 % before, 2 % after"), proof.text());
        RepairProof still =
                RepairProof.of(
                        before,
                        made().touches(-0.5).parts(-20, -10).accusing("idler", 0.9),
                        "idler");
        assertEquals(RepairProof.State.QUIETER, still.state(), still.text());
    }

    @Test
    void aChangeThatTouchesMakeProvesNothing() {
        VisitResult before = made().touches(3).parts(0, -10).accusing("idler", 0.95);
        VisitResult after = made().touches(-3).parts(-4, -10).accusing("idler", 0.3);
        RepairProof proof = RepairProof.of(before, after, "idler");
        assertEquals(RepairProof.State.UNPROVEN, proof.state(), proof.text());
        PartChange own =
                proof.changes().stream()
                        .filter(c -> c.part().equals("idler"))
                        .findFirst()
                        .orElseThrow();
        // Touches of +-3 on both sides move levels by 6 dB: sigma of one pair's change 6.93 dB at 3
        // degrees of freedom. At its own point alone: t = (6 + 4) / 6.93 = 1.44, chance 0.245.
        double within = 0.01;
        assertEquals(0.245, own.luckRatio(), within, own.toString());
    }

    @Test
    void saysWhatChangeOfTheOthersWouldHaveShown() {
        VisitResult before = made().parts(0, -10).accusing("idler", 0.95);
        VisitResult after = made().touches(-0.5).parts(-20, -10).accusing("idler", 0.02);
        RepairProof proof = RepairProof.of(before, after, "idler");
        RepairProof.Other alternator =
                proof.others().stream()
                        .filter(o -> o.change().part().equals("alternator"))
                        .findFirst()
                        .orElseThrow();
        assertFalse(alternator.changed(), alternator.text());
        assertTrue(
                alternator.text().matches("unchanged; more than \\d+\\.\\d dB would have shown"),
                alternator.text());
        assertEquals(List.of(), proof.newFaults());
    }

    @Test
    void namesANewFault() {
        VisitResult before = made().parts(0, -20).accusing("idler", 0.95);
        VisitResult after = made().touches(-0.5).parts(-20, 0).accusing("alternator", 0.9);
        RepairProof proof = RepairProof.of(before, after, "idler");
        assertEquals(RepairProof.State.GONE, proof.state(), proof.text());
        assertEquals(1, proof.newFaults().size(), proof.newFaults().toString());
        assertTrue(
                proof.newFaults()
                        .get(0)
                        .text()
                        .startsWith("the alternator: bearing outer ring, 90 % sure"),
                proof.newFaults().toString());
        VisitResult unnamed = made().touches(-0.5).parts(-20, 0).accusing("idler", 0.02);
        RepairProof louder = RepairProof.of(before, unnamed, "idler");
        assertTrue(
                louder.newFaults().get(0).text().startsWith("the alternator: louder by "),
                louder.newFaults().toString());
    }

    @Test
    void unlikeCapturesAreSaidAndNotMixed() {
        VisitResult before = made().parts(0, -10).accusing("idler", 0.95);
        RepairProof byHand =
                RepairProof.of(
                        before,
                        made().by(Mount.HAND).parts(-20, -10).accusing("idler", 0.02),
                        "idler");
        assertEquals(RepairProof.State.NOT_COMPARABLE, byHand.state());
        assertEquals(2 * POINTS.size(), byHand.unlike().size());
        assertEquals(
                "Left out: capture c0 before, at the idler; the nearest after differs in mount"
                        + " (magnet here, hand there).",
                byHand.unlike().get(0));
        RepairProof faster =
                RepairProof.of(
                        before, made().at(900).parts(-20, -10).accusing("idler", 0.02), "idler");
        assertEquals(RepairProof.State.NOT_COMPARABLE, faster.state());
        assertTrue(
                faster.unlike().get(0).contains("speed (800 rpm here, 900 there)"),
                faster.unlike().toString());
    }

    @Test
    void withoutThreePairsLuckIsNotClaimed() {
        PartLevel loud =
                new PartLevel(
                        "idler",
                        "c0",
                        1,
                        0.02,
                        List.of(new LineLevel("turn", 2, 1, 0.02, List.of())));
        PartLevel quiet =
                new PartLevel(
                        "idler",
                        "c0",
                        0.1,
                        0.002,
                        List.of(new LineLevel("turn", 2, 0.1, 0.002, List.of())));
        VisitResult whole = made().parts(0, -10).accusing("idler", 0.95);
        VisitResult before = one(whole, loud);
        VisitResult after = one(made().parts(0, 0).accusing("idler", 0.02), quiet);
        RepairProof proof = RepairProof.of(before, after, "idler");
        assertTrue(proof.text().contains("how likely luck is cannot be said"), proof.text());
    }

    private static VisitResult one(VisitResult of, PartLevel level) {
        return new VisitResult(
                of.findings(), of.captures().subList(0, 1), List.of(level), "test", "");
    }

    /** Two-sided chances of Student's t: 0.05 at the printed points; 0.3173 at one normal sigma. */
    @Test
    void tailsAreThoseOfTheTable() {
        double printed = 2e-5;
        assertEquals(0.05, StudentT.twoSidedTail(12.706, 1), printed);
        assertEquals(0.05, StudentT.twoSidedTail(2.228, 10), printed);
        double normal = 0.001;
        assertEquals(0.3173, StudentT.twoSidedTail(1, Double.POSITIVE_INFINITY), normal);
        assertEquals(1, StudentT.twoSidedTail(0, 5), printed);
    }
}

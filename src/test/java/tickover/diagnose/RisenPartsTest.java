package tickover.diagnose;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import org.junit.jupiter.api.Test;
import tickover.drive.Condition;
import tickover.drive.Engine;
import tickover.drive.Vehicle;

class RisenPartsTest {
    private static final double ROUND_OFF = 1e-9;
    private static final Vehicle VEHICLE =
            new Vehicle("ML-07", "", Engine.of(4, 4), List.of(), List.of());
    private static final List<CaptureLabel> DONE = List.of();

    private static Risen of(List<Risen> all, String part) {
        return all.stream().filter(r -> r.part().equals(part)).findFirst().orElseThrow();
    }

    private static List<Risen> after(Histories histories, int visit, RepairMark... marks) {
        return RisenParts.of(histories.levels(), Histories.visit(visit).id(), List.of(marks));
    }

    @Test
    void aPartIsHeldAgainstTheMeanOfItsEarlierVisits() {
        Risen idler = after(new Histories().part("idler", -20, -22, -9), 2).get(0);
        assertEquals(12, idler.riseDb(), ROUND_OFF);
        assertEquals(2, idler.visits());
        assertTrue(idler.nats() > 0, idler.toString());
    }

    @Test
    void laterVisitsDoNotCount() {
        Risen idler = after(new Histories().part("idler", -20, -9, 30), 1).get(0);
        assertEquals(11, idler.riseDb(), ROUND_OFF);
    }

    @Test
    void aFirstVisitSaysNothing() {
        assertEquals(List.of(), after(new Histories().part("idler", -20, -9), 0));
        assertEquals(List.of(), after(new Histories(), 0));
    }

    @Test
    void visitsBeforeARepairOfThePartDoNotCount() {
        Histories histories = new Histories().part("idler", -5, -6, -20).part("fan", 1, 1, 1);
        List<Risen> risen = after(histories, 2, Histories.repair(1, "idler"));
        assertEquals(List.of("fan"), risen.stream().map(Risen::part).toList());
    }

    @Test
    void whatAllPartsHaveRisenAlikeIsAnotherGrip() {
        Histories histories =
                new Histories()
                        .part("idler", -20, -14)
                        .part("fan", -10, -4)
                        .part("water-pump", -30, -24)
                        .part("tensioner", -25, -7);
        List<Risen> risen = after(histories, 1);
        assertEquals(0, of(risen, "idler").riseDb(), ROUND_OFF);
        assertEquals(12, of(risen, "tensioner").riseDb(), ROUND_OFF);
    }

    @Test
    void thePartsOwnPointDecides() {
        CaptureLabel elsewhere =
                new CaptureLabel(
                        "c9", "bracket", "radial", Mount.HAND, Regime.IDLE, Condition.UNLOADED);
        Histories histories = new Histories().part("idler", -20, -10);
        for (int visit = 0; visit < 2; visit++) {
            histories.add(
                    Histories.level(Histories.visit(visit), "idler", elsewhere, 780, 20 * visit));
        }
        List<Risen> risen = after(histories, 1);
        assertEquals(1, risen.size());
        assertEquals(10, risen.get(0).riseDb(), ROUND_OFF);
        assertTrue(risen.get(0).placeWords().startsWith("at the idler"), risen.toString());
    }

    @Test
    void oddsGrowWithTheRiseAndStayBounded() {
        double before = Double.NEGATIVE_INFINITY;
        for (double db = -60; db <= 90; db++) {
            double nats = new Risen("idler", db, 4, 1, "at idler").nats();
            assertTrue(nats >= before - ROUND_OFF, db + " dB");
            before = nats;
        }
        double least = Math.log(0.4); // it may have been there before
        assertTrue(new Risen("idler", 0, 4, 1, "").nats() > least);
        double most = 4;
        assertTrue(new Risen("idler", 200, 0.1, 9, "").nats() <= most);
    }

    @Test
    void oddsDoNotAccuseAPartThatHasNotChanged() {
        // The mean of a likelihood ratio under what it is held against is 1; the bounds move it a
        // little.
        double sum = 0;
        double weights = 0;
        double step = 0.01;
        double error = 4;
        double degrees = 4;
        for (double db = -400; db < 400; db += step) {
            double t = db / error;
            double density = Math.pow(1 + t * t / degrees, -(degrees + 1) / 2);
            sum += density * Math.exp(new Risen("idler", db, error, 1, "").nats());
            weights += density;
        }
        double byBounds = 0.05;
        assertEquals(1, sum / weights, byBounds);
    }

    @Test
    void aRiseMultipliesThePartsOdds() {
        Findings alone =
                new Findings(
                        Verdict.UNCLEAR,
                        List.of(
                                candidate("fan", 0.4),
                                candidate("idler", 0.4),
                                candidate(Candidate.NONE, 0.2)),
                        List.of(),
                        List.of());
        Risen risen = new Risen("idler", 15, 4, 3, "at idler");
        Findings found = Ranking.inLightOf(alone, VEHICLE, DONE, List.of(risen));
        double odds = Math.exp(risen.nats());
        assertEquals("idler", found.first().component());
        assertEquals(0.4 * odds / (0.6 + 0.4 * odds), found.first().probability(), ROUND_OFF);
        assertEquals(Verdict.COMPONENT, found.verdict());
        Evidence reason = found.first().evidence().get(0);
        assertEquals(EvidenceKind.HISTORY, reason.kind());
        assertTrue(
                reason.text().contains("15 dB louder than at the 3 visits before"), reason.text());
        assertEquals(alone, Ranking.inLightOf(alone, VEHICLE, DONE, List.of()));
    }

    private static Candidate candidate(String component, double probability) {
        Evidence pattern = new Evidence(EvidenceKind.PATTERN, "Faint: knocks.", 0.1);
        return new Candidate(component, Fault.UNSPECIFIED, probability, List.of(pattern));
    }
}

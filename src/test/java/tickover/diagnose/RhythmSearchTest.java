package tickover.diagnose;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import org.junit.jupiter.api.Test;

class RhythmSearchTest {
    /** Strikes per crank turn: loud ones in the alternator, fainter ones in the idler. */
    private static final double ALTERNATOR_ORDERS = 5.37;

    private static final double IDLER_ORDERS = 6.83;

    @Test
    void wideRangeTakesItsOwnRhythmRatherThanTheClearerOneOfAnotherPart()
            throws UnusableCaptureException {
        List<CaptureMeasurement> captures =
                List.of(capture("alternator", 1, 3, 0.25), capture("idler", 2, 1, 0.8));
        Suspect idler =
                new Suspect(
                        "idler",
                        Fault.BEARING_OUTER_RING,
                        FaultGroup.UNKNOWN_BEARING,
                        "",
                        "idler",
                        new Suspect.Rhythm(4.2, 9, 6.1, 0.4, List.of()));
        LineMap lines = new LineMap(captures);
        LinePlaces places =
                new LinePlaces(captures, new PlaceOdds(SteadyCaptures.drive().vehicle()));
        RhythmSearch byLines = RhythmSearch.of(idler, lines.combs("idler", LineMap.Comb.STRIKES));
        assertEquals(ALTERNATOR_ORDERS, RhythmScan.orderAt(byLines.at()), 0.02);
        RhythmSearch byPlace = RhythmSearch.ofStrikes(idler, lines, places);
        assertEquals(IDLER_ORDERS, RhythmScan.orderAt(byPlace.at()), 0.02);
        // A mechanic is told how clear this rhythm is, not the clearer one.
        assertTrue(
                byPlace.heardNats() < byLines.heardNats() - 1,
                byPlace.heardNats() + " of " + byLines.heardNats());
    }

    @Test
    void placeOfARhythmIsWhereItIsStrongest() throws UnusableCaptureException {
        List<CaptureMeasurement> captures =
                List.of(capture("alternator", 1, 3, 0.25), capture("idler", 2, 1, 0.8));
        LinePlaces places =
                new LinePlaces(captures, new PlaceOdds(SteadyCaptures.drive().vehicle()));
        int at = RhythmScan.indexOf(ALTERNATOR_ORDERS);
        double clear = 1;
        assertTrue(places.nats("alternator")[at] > places.nats("idler")[at] + clear);
        int other = RhythmScan.indexOf(IDLER_ORDERS);
        assertTrue(places.nats("idler")[other] > places.nats("alternator")[other] + clear);
    }

    private static CaptureMeasurement capture(
            String point, long seed, double alternatorMps2, double idlerMps2)
            throws UnusableCaptureException {
        double[] x = SteadyCaptures.noise(seed, 0.2);
        SteadyCaptures.bursts(x, 0.1, 1 / ALTERNATOR_ORDERS, alternatorMps2);
        SteadyCaptures.bursts(x, 0.17, 1 / IDLER_ORDERS, idlerMps2);
        return SteadyCaptures.at(point, x);
    }
}

package tickover.diagnose;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;
import tickover.drive.Engine;
import tickover.drive.Position;
import tickover.drive.Pulley;
import tickover.drive.Role;
import tickover.drive.Vehicle;

class PlaceOddsTest {
    private static final PlaceOdds PLACES = new PlaceOdds(vehicle());
    private static final double ROUND_OFF = 1e-9;

    @Test
    void strongestAtItsOwnPointSpeaksForAPart() {
        Map<String, PlaceOdds.Heard> levels =
                Map.of("idler", heard(0), "alternator", heard(-14), "water-pump", heard(-16));
        assertTrue(PLACES.nats("idler", levels) > 0.5);
        assertTrue(PLACES.nats("alternator", levels) < -2);
    }

    @Test
    void nearnessTellsAPartThatWasNotRecorded() {
        // The tensioner sits 60 mm from the idler and far from the others.
        Map<String, PlaceOdds.Heard> levels =
                Map.of("idler", heard(0), "alternator", heard(-8), "water-pump", heard(-8));
        assertTrue(PLACES.nats("tensioner", levels) > PLACES.nats("alternator", levels));
    }

    @Test
    void alikeAtAllPulleysSpeaksForWhatIsBehindTheEngine() {
        Map<String, PlaceOdds.Heard> alike =
                Map.of(
                        "idler", heard(0),
                        "tensioner", heard(1),
                        "alternator", heard(-1),
                        "block", heard(2));
        // From the block itself the pulleys would hear 13 dB less.
        for (String pulley : List.of("idler", "tensioner", "alternator")) {
            assertTrue(PLACES.nats("block", alike) > PLACES.nats(pulley, alike) + 1, pulley);
        }
    }

    @Test
    void allPlacesAtOnceAreWhatOneAtATimeSays() {
        List<String> points = List.of("idler", "block", "injector-3");
        double[] levelDb = {-3, -9, -20};
        boolean[] heard = {true, true, false};
        double[] nats = PLACES.at(points).nats(levelDb, heard);
        Map<String, PlaceOdds.Heard> same =
                Map.of(
                        "idler", new PlaceOdds.Heard(-3, true),
                        "block", new PlaceOdds.Heard(-9, true),
                        "injector-3", new PlaceOdds.Heard(-20, false));
        List<String> places = PLACES.places();
        for (int i = 0; i < nats.length; i++) {
            assertEquals(PLACES.nats(places.get(i), same), nats[i], ROUND_OFF);
        }
    }

    @Test
    void onePointAloneSaysNothing() {
        assertEquals(0, PLACES.nats("idler", Map.of("idler", heard(0))), ROUND_OFF);
    }

    @Test
    void gainOfTheProbeDoesNotMatter() {
        Map<String, PlaceOdds.Heard> quiet = Map.of("idler", heard(-60), "alternator", heard(-70));
        Map<String, PlaceOdds.Heard> loud = Map.of("idler", heard(20), "alternator", heard(10));
        assertEquals(PLACES.nats("idler", quiet), PLACES.nats("idler", loud), ROUND_OFF);
    }

    private static PlaceOdds.Heard heard(double levelDb) {
        return new PlaceOdds.Heard(levelDb, true);
    }

    private static Vehicle vehicle() {
        return new Vehicle(
                "T-1",
                "",
                Engine.of(4, 4),
                List.of(),
                List.of(
                        Pulley.named("crank", Role.CRANK, 160).at(new Position(0, 0)).build(),
                        Pulley.named("idler", Role.IDLER, 70).at(new Position(200, 100)).build(),
                        Pulley.named("tensioner", Role.TENSIONER, 70)
                                .at(new Position(200, 160))
                                .build(),
                        Pulley.named("alternator", Role.ALTERNATOR, 60)
                                .at(new Position(-250, 250))
                                .build(),
                        Pulley.named("water-pump", Role.WATER_PUMP, 120)
                                .at(new Position(0, 450))
                                .build()));
    }
}

package tickover.session;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Path;
import java.time.Clock;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import tickover.diagnose.Candidate;
import tickover.diagnose.Mount;
import tickover.diagnose.Regime;
import tickover.drive.Condition;
import tickover.sim.SimulatedVan;
import tickover.store.Log;
import tickover.store.LogPlace;
import tickover.store.Visit;

/** A walk round a simulated van, in real time. */
class RoundTest {
    private static final double PATIENCE_S = 60;
    private static final double LENGTH_S = 5;

    @TempDir private Path folder;

    private static PlannedCapture at(String point) {
        return new PlannedCapture(point, "radial", Mount.MAGNET, Regime.IDLE, Condition.UNLOADED);
    }

    private interface Wanted {
        boolean holds();
    }

    private static void await(Wanted wanted) throws InterruptedException {
        long until = System.nanoTime() + Math.round(1e9 * PATIENCE_S);
        while (!wanted.holds()) {
            assertTrue(System.nanoTime() < until, "it does not happen");
            Thread.sleep(20);
        }
    }

    @Test
    void capturesGoWhereTheyAreAimedAndAreUnderstoodAsTheyCome() throws InterruptedException {
        SimulatedVan van = new SimulatedVan(false);
        Path data = folder.resolve("data");
        try (SimulatedLine line = SimulatedLine.van(van, SimulatedLine.Spec.GOOD)) {
            Round.Spec spec =
                    new Round.Spec(
                            folder.resolve("raw/round.tkr"),
                            van.vehicle(),
                            "whine",
                            LENGTH_S,
                            1,
                            "crank");
            Round round = Round.begin(spec, line.lines(), Clock.systemUTC(), b -> {});
            round.press();
            van.hold("idler", Condition.UNLOADED);
            await(() -> round.status().latest().isPresent());
            assertFalse(round.status().capturing(), "nothing was aimed at");
            // The compressor can have a line where the worn idler has its own, and so can the
            // engine, as the idler turns nearly twice as fast as the crank: they have to be heard.
            for (String point : new String[] {"idler", "alternator", "compressor", "block"}) {
                van.hold(point, Condition.UNLOADED);
                round.aim(at(point));
                await(() -> round.status().point().equals(point));
                int before = round.status().capture();
                round.press();
                await(() -> round.status().capturing());
                await(() -> round.status().capture() == before + 1);
                await(() -> round.analysed() == before);
                assertEquals("", round.problem());
                assertEquals(before, round.soFar().orElseThrow().captures());
            }
            Round.SoFar last = round.soFar().orElseThrow();
            Visit kept = round.keep(LogPlace.folder(data)).orElseThrow();
            assertEquals(4, kept.captures().size());
            assertEquals("alternator", kept.captures().get(1).label().point());
            assertEquals(last.visit().id(), kept.id());
            Candidate said = last.result().findings().first();
            Candidate logged;
            try (Log log = Log.open(data)) {
                logged = log.latestResult(kept.id()).orElseThrow().findings().first();
                assertEquals("whine", log.visits().get(0).complaint());
            }
            assertEquals("idler", logged.component());
            assertEquals(said.component(), logged.component());
            // At the end of the recording the clocks are known a little better. What that does is a
            // step in the evidence, the same wherever the probability stands.
            double littleNats = 0.3;
            assertEquals(nats(said), nats(logged), littleNats);
        }
    }

    private static double nats(Candidate candidate) {
        return Math.log(candidate.probability() / (1 - candidate.probability()));
    }

    @Test
    void roundWithoutACaptureKeepsItsRecordingAndMakesNoVisit() throws InterruptedException {
        SimulatedVan van = new SimulatedVan(false);
        Path data = folder.resolve("data");
        try (SimulatedLine line = SimulatedLine.van(van, SimulatedLine.Spec.GOOD)) {
            Path file = folder.resolve("raw/empty.tkr");
            Round round =
                    Round.begin(
                            new Round.Spec(file, van.vehicle(), "", LENGTH_S, 1, "crank"),
                            line.lines(),
                            Clock.systemUTC(),
                            b -> {});
            await(() -> round.status().latest().isPresent());
            assertTrue(round.keep(LogPlace.folder(data)).isEmpty());
            assertTrue(RecordingContent.of(file).closed());
            try (Log log = Log.open(data)) {
                assertEquals(0, log.visits().size());
            }
        }
    }
}

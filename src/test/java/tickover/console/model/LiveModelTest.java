package tickover.console.model;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import tickover.session.LiveFeed;
import tickover.session.LivePipeline;
import tickover.sim.SimulatedVan;

/** What is told of a live stream, without a screen. */
class LiveModelTest {
    /** Where the water pump's vanes stand on the simulated van. */
    private static final double VANES_ORDERS = 8.421875;

    @TempDir Path temp;
    private LiveModel live;
    private final LivePipeline pipeline = new LivePipeline();
    private LiveFeed feed;

    @BeforeEach
    void listen() {
        ConsoleModel console =
                new ConsoleModel(
                        new ConsoleOptions(temp.resolve("data"), true), new DirectErrands());
        live = console.live();
        SimulatedVan van = new SimulatedVan(false);
        live.attach(pipeline, van.vehicle());
        feed = new LiveFeed(pipeline, van.vehicle(), VANES_ORDERS);
    }

    private LiveState state() {
        return live.state().get();
    }

    private void play(double lengthS, double rms, boolean edges) {
        // A pulse per tenth of a second: a slow screen.
        for (double t = 0; t < lengthS - 0.05; t += 0.1) {
            feed.play(0.1, rms, edges);
            live.pulse();
        }
    }

    @Test
    void nothingIsToldBeforeThereIsAnything() {
        assertFalse(live.pulse());
        assertFalse(state().running());
        live.chooseNext(1);
        live.pointNextLine(true);
        assertEquals("", state().chosen());
    }

    @Test
    void withoutSpeedItSaysSoAndWhatToDo() {
        play(1, 1, false);
        assertEquals("no speed", state().speed());
        assertTrue(state().speedNote().contains("tach"), state().speedNote());
        assertEquals(0, live.fall().rows());
        assertEquals("–", state().bars().get(0).words());
    }

    @Test
    void levelsFormAsBarsWithNumbersAndUnits() {
        play(3, 1, true);
        assertEquals("900 rpm", state().speed());
        assertTrue(state().forming().startsWith("In m/s² rms, forming"), state().forming());
        play(8, 1, true);
        LiveState.Bar pump =
                state().bars().stream()
                        .filter(b -> b.part().equals("water-pump"))
                        .findFirst()
                        .orElseThrow();
        assertEquals("1.00 ± <0.01", pump.words());
        assertEquals(1, pump.lengthRatio(), 0.01);
        assertEquals(List.of("The signal is sound."), state().quality().subList(0, 1));
        assertTrue(state().sound());
    }

    @Test
    void whatNoSampleTellsIsNotCalledSound() {
        play(3, 1, true);
        assertTrue(state().sound());
        live.silent("The port is gone.");
        assertFalse(state().sound());
        assertEquals("The port is gone.", state().quality().get(0));
        assertEquals("no samples", state().speed());
        assertEquals("", state().level());
        live.silent("");
        assertTrue(state().sound());
        assertEquals("900 rpm", state().speed());
    }

    @Test
    void theChosenPartsLinesAreLaidOver() {
        play(4, 1, true);
        live.choose("water-pump");
        assertEquals("water-pump", state().chosen());
        assertTrue(
                state().marks().stream()
                        .anyMatch(
                                m ->
                                        m.words().equals("vanes")
                                                && !m.shared()
                                                && m.here()
                                                && m.fromOrders() < VANES_ORDERS
                                                && m.toOrders() > VANES_ORDERS));
        live.swap();
        assertTrue(state().marks().stream().anyMatch(m -> m.words().equals("cage") && m.here()));
        live.choose("water-pump");
        assertEquals("", state().chosen());
        live.chooseNext(1);
        assertEquals("crank", state().chosen());
        live.chooseNext(-1);
        assertEquals("", state().chosen());
    }

    @Test
    void pointingSaysWhoseLineItIsAndWhoSharesIt() {
        play(4, 1, true);
        live.point(VANES_ORDERS);
        String said = String.join(" ", state().pointed());
        // A quarter of a bin beside a bin, where Hann's window reads 0.4 dB low.
        assertTrue(said.startsWith("Order 8.42, 126.3 Hz: 0.96"), said);
        assertTrue(said.contains("Water pump, vanes: expected 8.30 to 8.55"), said);
        live.point(1.964);
        said = String.join(" ", state().pointed());
        assertTrue(said.contains("Idler, its turn"), said);
        assertTrue(said.contains("shared with the crank and the engine"), said);
        assertTrue(said.contains("Order alone cannot say"), said);
        live.point(0.2);
        assertEquals("No part of this drive has a line here.", state().pointed().get(1));
        live.point(0);
        assertTrue(state().pointed().isEmpty());
    }

    @Test
    void theKeyboardStepsFromLineToLine() {
        play(4, 1, true);
        live.choose("water-pump");
        live.pointNextLine(true);
        double first = state().pointedOrders();
        live.pointNextLine(true);
        assertTrue(state().pointedOrders() > first);
        live.pointNextLine(false);
        assertEquals(first, state().pointedOrders());
        live.pointAside(1);
        // Whole bins of a sixteenth order.
        assertEquals(0, state().pointedOrders() * 16 % 1, 1e-9);
    }

    @Test
    void troubleIsToldInSentences() {
        play(6, 1, true);
        play(0.5, 0.001, true);
        assertTrue(state().quality().get(0).contains("press the probe on"), "" + state());
        assertFalse(state().sound());
        play(1, 100, true);
        assertTrue(state().quality().get(0).contains("Clipped"), "" + state().quality());
    }

    @Test
    void theWaterfallReachesNearAndFar() {
        live.reach(-9);
        double nearest = live.reachOrders().get();
        live.reach(9);
        assertTrue(live.reachOrders().get() > 10 * nearest);
    }

    @Test
    void theHandsLimitStandsWhereTheSpeedPutsIt() {
        play(3, 1, true);
        assertEquals(1000 * 60 / LiveFeed.RPM, state().limitOrders(), 0.1);
    }

    @Test
    void whenTheRoundEndsNothingIsToldAnyMore() {
        play(3, 1, true);
        live.detach();
        assertFalse(state().running());
        assertEquals(0, live.fall().rows());
        assertFalse(live.pulse());
    }
}

package tickover.diagnose;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.List;
import java.util.function.DoubleUnaryOperator;
import org.junit.jupiter.api.Test;
import tickover.drive.DriveModel;
import tickover.dsp.AllocationMeter;
import tickover.sim.EndlessScene;
import tickover.sim.SimulatedVan;

/** One part's lines as a sound, against the closed form of what was put in. */
class LivePartSoundTest {
    private static final double RATE_HZ = 6400;
    private static final DriveModel DRIVE = DriveModel.of(new SimulatedVan(false).vehicle());
    private static final int STEPS = AngleGrid.STEPS_PER_TURN;
    private static final double TURNS_PER_S = 13;

    /** Lines are found after 32 turns; two low-passes of 3 turns are settled 28 turns later. */
    private static final int SETTLED_TURNS = 60;

    private static final int TURNS = 80;

    /** Lines are found in so many bins an order; beside one they are heard with a phase. */
    private static final double BINS_PER_ORDER = 128;

    private static double order(String part, String kind) {
        return LivePartLine.of(DRIVE, true, 100).stream()
                .filter(l -> l.part().equals(part) && l.kind().equals(kind))
                .findFirst()
                .map(l -> Math.rint(l.nominalOrders() * BINS_PER_ORDER) / BINS_PER_ORDER)
                .orElseThrow();
    }

    /** When a turn was, s: the speed swings by 6 % within 20 turns. */
    private static double timeS(double turns) {
        return (turns + 0.2 * Math.sin(2 * Math.PI * turns / 20)) / TURNS_PER_S;
    }

    private static double turnsAt(double timeS) {
        double lo = 0;
        double hi = 2 * TURNS;
        for (int i = 0; i < 60; i++) {
            double middle = (lo + hi) / 2;
            if (timeS(middle) < timeS) {
                lo = middle;
            } else {
                hi = middle;
            }
        }
        return hi;
    }

    /** Largest difference from what should be heard, once it has settled. */
    private static double worst(
            String part,
            DoubleUnaryOperator motion,
            DoubleUnaryOperator squares,
            DoubleUnaryOperator expected) {
        LiveParts parts = new LiveParts(DRIVE, 1, 1);
        List<Double> heard = new ArrayList<>();
        LivePartSound sound =
                new LivePartSound(parts, parts.parts().indexOf(part), RATE_HZ, heard::add);
        for (int i = 0; i <= TURNS * STEPS; i++) {
            double turns = (double) i / STEPS;
            double[] x = {motion.applyAsDouble(turns)};
            double[] e = {squares.applyAsDouble(turns)};
            if (parts.step(x, e)) {
                sound.retune();
            }
            sound.step(timeS(turns) * RATE_HZ, x, e);
        }
        assertEquals(timeS(TURNS) * LivePartSound.RATE_HZ, heard.size(), 1, "one value each");
        double worst = 0;
        for (int k = 0; k < heard.size(); k++) {
            // Value 0 stands one step of the sound's own clock after the first step's time, 0.
            double turns = turnsAt((k + 1.0) / LivePartSound.RATE_HZ);
            if (turns > SETTLED_TURNS) {
                worst = Math.max(worst, Math.abs(heard.get(k) - expected.applyAsDouble(turns)));
            }
        }
        return worst;
    }

    private static DoubleUnaryOperator tone(double order, double amplitude) {
        return turns -> amplitude * Math.cos(2 * Math.PI * order * turns + 0.4);
    }

    @Test
    void aLineIsHeardAsItIsFeltWhateverTheSpeedDoes() {
        double vanes = order("water-pump", "vanes");
        DoubleUnaryOperator own = tone(vanes, 1);
        // The twin of the line at twice its order is 100 dB down; the pump's turn, 2.4 orders and
        // more away, 60 dB.
        assertEquals(0, worst("water-pump", own, t -> 0, own), 0.005);
    }

    @Test
    void whatIsNotThePartsOwnIsGone() {
        double vanes = order("water-pump", "vanes");
        DoubleUnaryOperator own = tone(vanes, 1);
        DoubleUnaryOperator engine = tone(9, 1);
        DoubleUnaryOperator other = tone(order("alternator", "2xturn"), 1);
        // Where nothing stands, a line is looked for up to 0.45 from the engine's: 37 dB down.
        double beside = worst("water-pump", engine, t -> 0, t -> 0);
        assertEquals(0, beside, 0.0145, "half an order beside");
        // 1.5 orders from the nearest of the pump's: 58 dB.
        assertEquals(0, worst("water-pump", other, t -> 0, t -> 0), 0.005, "another part");
        assertTrue(worst("alternator", own, t -> 0, t -> 0) < 0.02);
    }

    @Test
    void aBearingIsHeardInItsRhythm() {
        double ring = order("idler", "bearing-inner-ring");
        double depth = 0.4;
        DoubleUnaryOperator knocks = t -> Math.pow(1 + tone(ring, depth).applyAsDouble(t), 2);
        // The envelope's mean is no rhythm; neighbours of the idler's other lines are 26 dB down.
        assertEquals(0, worst("idler", t -> 0, knocks, tone(ring, depth)), 0.05 * depth, "rhythm");
    }

    private static List<Double> heard(LiveScene scene, int longest, long seed) {
        List<Double> out = new ArrayList<>();
        LiveAnalysis analysis =
                new LiveAnalysis(
                        new LiveAnalysis.Spec(DRIVE, scene.axes, scene.rateHz, 1, 1),
                        (f, e, s, r) -> {},
                        (f, e, s, r) -> {});
        analysis.listenTo("water-pump", out::add);
        scene.feed(analysis, longest, seed);
        return out;
    }

    @Test
    void blocksOfAnySizeAndLateEdgesGiveTheSameToTheLastBit() {
        EndlessScene.Turning idle = new EndlessScene.Turning(800, 0.03, 3);
        LiveScene scene = new LiveScene(RATE_HZ, 2, 5, idle, 0.3, 2, 1, 8.42, 0.5);
        List<Double> whole = heard(scene, scene.count(), 1);
        assertTrue(whole.size() > 4 * LivePartSound.RATE_HZ, "size=" + whole.size());
        for (int longest : new int[] {23, 5000}) {
            assertEquals(whole, heard(scene, longest, longest), "blocks up to " + longest);
        }
    }

    @Test
    void nothingIsAllocatedWhenWarm() {
        LiveParts parts = new LiveParts(DRIVE, 3, 2);
        double[] sum = {0};
        LivePartSound sound =
                new LivePartSound(parts, parts.parts().indexOf("idler"), 25_600, v -> sum[0] += v);
        double[] x = {1, 2, 3};
        double[] e = {4, 5};
        double[] at = {0};
        long bytes =
                AllocationMeter.bytesOf(
                        () -> {
                            for (int i = 0; i < 256; i++) {
                                sound.step(at[0] += 7.3, x, e);
                            }
                            sound.retune();
                        });
        assertEquals(0, bytes);
    }

    @Test
    void aPartThatIsNotThereIsRefused() {
        LiveParts parts = new LiveParts(DRIVE, 1, 1);
        assertThrows(
                IllegalArgumentException.class,
                () -> new LivePartSound(parts, -1, RATE_HZ, v -> {}));
    }
}

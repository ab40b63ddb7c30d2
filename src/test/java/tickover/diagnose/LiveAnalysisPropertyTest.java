package tickover.diagnose;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import org.junit.jupiter.api.Test;
import tickover.drive.DriveModel;
import tickover.dsp.AllocationMeter;
import tickover.sim.EndlessScene;
import tickover.sim.SimulatedVan;

/** What is said live, whatever the blocks; and that it is what the whole record says. */
class LiveAnalysisPropertyTest {
    private static final double RATE_HZ = 6400;
    private static final EndlessScene.Turning IDLE = new EndlessScene.Turning(800, 0.03, 3);
    private static final DriveModel DRIVE = DriveModel.of(new SimulatedVan(false).vehicle());

    private static LivePartLine line(String part, String kind) {
        return LivePartLine.of(DRIVE, true, 100).stream()
                .filter(l -> l.part().equals(part) && l.kind().equals(kind))
                .findFirst()
                .orElseThrow();
    }

    /** All that an analysis says, in rows of numbers. */
    private static List<double[]> said(LiveScene scene, int longest, long seed) {
        List<double[]> out = new ArrayList<>();
        List<double[]> rhythms = new ArrayList<>();
        LiveAnalysis analysis =
                new LiveAnalysis(
                        new LiveAnalysis.Spec(DRIVE, scene.axes, scene.rateHz, 1, 1),
                        (fresh, end, speed, rms) -> {
                            out.add(new double[] {fresh ? 1 : 0, end, speed});
                            out.add(rms.clone());
                        },
                        (fresh, end, speed, rms) -> rhythms.add(rms.clone()));
        scene.feed(analysis, longest, seed);
        // The bands' filters come later than the motion, so when a row comes is another matter.
        out.addAll(rhythms);
        LiveParts parts = analysis.parts();
        LivePartLevels levels = new LivePartLevels(parts.parts().size(), parts.lines().size());
        parts.write(levels);
        for (int p = 0; p < parts.parts().size(); p++) {
            out.add(new double[] {levels.levelMps2(p), levels.errorMps2(p)});
        }
        for (int i = 0; i < parts.lines().size(); i++) {
            out.add(new double[] {levels.orders(i), levels.lineMps2(i), levels.lineErrorMps2(i)});
        }
        for (int b = 0; b < analysis.bands(); b++) {
            out.add(new double[] {analysis.bandRmsMps2(b, 0.5)});
        }
        out.add(new double[] {levels.segments(), analysis.angle().speedHz()});
        return out;
    }

    @Test
    void blocksOfAnySizeAndLateEdgesGiveTheSameToTheLastBit() {
        LiveScene scene = new LiveScene(RATE_HZ, 2, 6, IDLE, 0.3, 2, 1, 9.717, 0.5, 2.5667, 0.2);
        List<double[]> whole = said(scene, scene.count(), 1);
        assertTrue(whole.size() > 2 * 25 * 4, "size=" + whole.size());
        for (int longest : new int[] {23, 5000}) {
            List<double[]> cut = said(scene, longest, longest);
            assertEquals(whole.size(), cut.size(), "blocks up to " + longest);
            for (int i = 0; i < cut.size(); i++) {
                assertArrayEquals(whole.get(i), cut.get(i), "blocks up to " + longest + ", " + i);
            }
        }
    }

    @Test
    void aLineReadsItsHeightAndItsBackgroundIsTakenOff() {
        LivePartLine vanes = line("water-pump", "vanes");
        double order = vanes.nominalOrders() * 0.997;
        double rms = 0.4;
        LiveScene scene = new LiveScene(RATE_HZ, 2, 16, IDLE, 0.2, 2, 1, order, rms);
        LiveAnalysis analysis =
                new LiveAnalysis(
                        new LiveAnalysis.Spec(DRIVE, 2, RATE_HZ, 1, 1),
                        (f, e, s, r) -> {},
                        (f, e, s, r) -> {});
        scene.feed(analysis, 512, 3);
        LiveParts parts = analysis.parts();
        LivePartLevels levels = new LivePartLevels(parts.parts().size(), parts.lines().size());
        parts.write(levels);
        assertEquals(LiveParts.SEGMENTS, levels.segments());
        int at = parts.lines().indexOf(vanes);
        // Half a bin of the spectrum it is looked for in.
        assertEquals(order, levels.orders(at), 0.5 / 128 + 1e-9);
        // Both axes: sqrt 2 as much. A first segment at the nominal place reads a little low.
        double both = Math.sqrt(2) * rms;
        assertEquals(both, levels.lineMps2(at), 0.03 * both);
        int pump = parts.parts().indexOf("water-pump");
        assertEquals(both, levels.levelMps2(pump), 0.03 * both);
        // A part without anything but noise, 0.2 m/s² of it over 128 orders.
        int tensioner = parts.parts().indexOf("tensioner");
        assertTrue(levels.levelMps2(tensioner) < 0.1 * both, "" + levels.levelMps2(tensioner));
        // The idler turns so close to the second order that the two cannot be told apart.
        int idlerTurn = parts.lines().indexOf(line("idler", "turn"));
        assertTrue(levels.isShared(idlerTurn, parts.parts().indexOf("engine")));
    }

    /** Bursts of a carrier, f per turn: their rhythm stands at f, and their height. */
    @Test
    void theRhythmOfKnocksStandsAtItsOrder() {
        double order = 6.5;
        double[] x = new double[(int) (6 * RATE_HZ)];
        double turnsPerS = 800.0 / 60;
        double meanSquare = 0;
        for (int i = 0; i < x.length; i++) {
            double t = i / RATE_HZ;
            double phase = order * turnsPerS * t - Math.rint(order * turnsPerS * t);
            double burst = Math.exp(-0.5 * Math.pow(phase / 0.12, 2));
            x[i] = 3 * burst * Math.cos(2 * Math.PI * 900 * t);
            meanSquare += x[i] * x[i] / x.length;
        }
        List<double[]> rows = new ArrayList<>();
        LiveAnalysis analysis =
                new LiveAnalysis(
                        new LiveAnalysis.Spec(DRIVE, 1, RATE_HZ, 1, 1),
                        (f, e, s, r) -> {},
                        (f, e, s, r) -> rows.add(r.clone()));
        for (int k = 0; k < 6 * turnsPerS; k++) {
            analysis.edge(k / turnsPerS * RATE_HZ, 0);
        }
        analysis.samples(0, x, 0, x.length);
        double[] last = rows.get(rows.size() - 1);
        int bin = (int) (order * LiveAnalysis.TURNS_PER_FRAME);
        for (int k = 40; k < 200; k++) {
            assertTrue(Math.abs(k - bin) < 2 || last[k] < 0.5 * last[bin], "bin " + k);
        }
        // The square of Gauss' bursts is 0.085 of a period wide, and its first harmonic
        // exp(-(2 pi 0.085)²/2) = 0.867 of a short one's; 0.3 dB for the filter and the band.
        assertEquals(Math.sqrt(0.867 * meanSquare), last[bin], 0.035 * Math.sqrt(meanSquare));
    }

    @Test
    void segmentsAreMeasuredAsACaptureMeasuresThem() {
        LiveParts parts = new LiveParts(DRIVE, 1, 1);
        int length = LiveParts.SEGMENT_TURNS * AngleGrid.STEPS_PER_TURN;
        double[] motion = new double[length];
        double[] envelope = new double[length];
        java.util.Random random = new java.util.Random(4);
        for (int i = 0; i < length; i++) {
            double turns = (double) i / AngleGrid.STEPS_PER_TURN;
            motion[i] = random.nextGaussian() + 2 * Math.cos(2 * Math.PI * 2.6 * turns);
            envelope[i] = 3 + Math.cos(2 * Math.PI * 6.1 * turns) + random.nextDouble();
            parts.step(new double[] {motion[i]}, new double[] {envelope[i]});
        }
        LivePartLevels levels = new LivePartLevels(parts.parts().size(), parts.lines().size());
        parts.write(levels);
        boolean[] usable = new boolean[4 * length];
        Arrays.fill(usable, true);
        SegmentPlan plan = SegmentPlan.of(usable, AngleGrid.STEPS_PER_TURN);
        assertEquals(length, plan.length());
        LineMeter moved = meter(motion, plan);
        KnockMeter knocked =
                new KnockMeter(
                        List.of(Arrays.copyOf(envelope, 4 * length)),
                        List.of(),
                        AngleGrid.STEPS_PER_TURN,
                        plan,
                        0);
        for (int i = 0; i < parts.lines().size(); i++) {
            LivePartLine line = parts.lines().get(i);
            double[] powers =
                    line.byKnocks()
                            ? knocked.segmentPowers(line.nominalOrders())
                            : moved.segmentPowers(line.nominalOrders());
            double expected = Math.sqrt(Math.max(0, powers[0]));
            // Sums of 8192 products in another order, of values up to a few.
            assertEquals(expected, levels.lineMps2(i), 1e-6, line.toString());
        }
    }

    private static LineMeter meter(double[] motion, SegmentPlan plan) {
        return new LineMeter(
                new double[][] {Arrays.copyOf(motion, 4 * motion.length)},
                AngleGrid.STEPS_PER_TURN,
                plan,
                0);
    }

    @Test
    void levelsAndErrorsAreThoseOfACapture() {
        double[] powers = {1, 2, 1.5, 0.7, 3, -0.2, 1.1};
        assertEquals(LineMeter.levelRmsMps2(powers), LiveParts.level(powers, 7));
        assertEquals(LineMeter.standardErrorMps2(powers), LiveParts.error(powers, 7));
    }

    @Test
    void nothingIsAllocatedWhenWarm() {
        LiveScene scene = new LiveScene(RATE_HZ, 3, 4, new EndlessScene.Turning(900, 0, 1), 1);
        LiveAnalysis analysis =
                new LiveAnalysis(
                        new LiveAnalysis.Spec(DRIVE, 3, RATE_HZ, 1, 1),
                        (f, e, s, r) -> {},
                        (f, e, s, r) -> {});
        long[] block = {0};
        int size = 256;
        double turn = RATE_HZ / 15;
        double[] edge = {0};
        long bytes =
                AllocationMeter.bytesOf(
                        () -> {
                            long first = block[0]++ * size;
                            while (edge[0] < first + size) {
                                analysis.edge(edge[0], 0);
                                edge[0] += turn;
                            }
                            analysis.samples(first, scene.x, (int) (first % 16384), size);
                        });
        assertEquals(0, bytes);
    }

    @Test
    void levelsAreMeasuredWhileNothingIsAllocated() {
        LiveParts parts = new LiveParts(DRIVE, 3, 2);
        LivePartLevels levels = new LivePartLevels(parts.parts().size(), parts.lines().size());
        double[] axes = {1, 2, 3};
        double[] bands = {1, 2};
        int hop = LiveParts.HOP_TURNS * AngleGrid.STEPS_PER_TURN;
        Runnable segment =
                () -> {
                    for (int i = 0; i < hop; i++) {
                        axes[0] = i % 7;
                        parts.step(axes, bands);
                    }
                    parts.write(levels);
                };
        var bean =
                (com.sun.management.ThreadMXBean)
                        java.lang.management.ManagementFactory.getThreadMXBean();
        for (int i = 0; i < 12; i++) {
            segment.run();
        }
        long least = Long.MAX_VALUE;
        for (int i = 0; i < 3; i++) {
            long before = bean.getCurrentThreadAllocatedBytes();
            segment.run();
            least = Math.min(least, bean.getCurrentThreadAllocatedBytes() - before);
        }
        assertEquals(0, least);
    }
}

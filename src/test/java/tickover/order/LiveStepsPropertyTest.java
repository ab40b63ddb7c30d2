package tickover.order;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Test;
import tickover.dsp.Window;

/** Steps and rows from blocks, against a plain working-out over the whole record. */
class LiveStepsPropertyTest {
    private static final double RATE_HZ = 3200;
    private static final int PER_TURN = 64;
    private static final int TURNS = 4;
    private static final double ROW_SAMPLES = 128;

    private final Random random = new Random(3);
    private final double[] x = new double[20_000];
    private final double[] edges;

    LiveStepsPropertyTest() {
        for (int i = 0; i < x.length; i++) {
            x[i] = random.nextGaussian();
        }
        List<Double> at = new ArrayList<>();
        for (double e = 40; e < x.length; e += 190 + 20 * Math.sin(e / 3000)) {
            at.add(e);
        }
        edges = at.stream().mapToDouble(Double::doubleValue).toArray();
    }

    private record Piece(double start, double end, double turns, double slope, double bend) {}

    /** What a stream gives: steps, and rows with their ends. */
    private static final class Heard implements LiveSteps.Sink {
        private final List<double[]> steps = new ArrayList<>();
        private final List<double[]> rows = new ArrayList<>();
        private int begins;
        private final LiveRows laid =
                new LiveRows(
                        new LiveRows.Spec(1, PER_TURN, TURNS, ROW_SAMPLES),
                        (fresh, end, speed, rms) -> {
                            double[] row = Arrays.copyOf(rms, rms.length + 1);
                            row[rms.length] = end;
                            rows.add(row);
                        });

        @Override
        public void begin() {
            begins++;
            laid.begin();
        }

        @Override
        public void step(long step, double at, double turnsPerSample, double[] values) {
            steps.add(new double[] {step, at, turnsPerSample, values[0]});
            laid.step(step, at, turnsPerSample, values);
        }
    }

    private Heard hear(int longest, long skipFrom, long skipTo) {
        Heard heard = new Heard();
        LiveSteps live = new LiveSteps(new LiveSteps.Spec(1, RATE_HZ, PER_TURN, 16384), heard);
        LiveAngle angle = new LiveAngle(new LiveAngle.Spec(RATE_HZ, 1, 1), live);
        Random cuts = new Random(longest);
        int edge = 0;
        for (int from = 0; from < x.length; ) {
            int block = Math.min(1 + cuts.nextInt(longest), x.length - from);
            while (edge < edges.length && edges[edge] < from - cuts.nextInt(400)) {
                angle.edge(edges[edge++], 0);
            }
            int to = from + block;
            int a = (int) Math.min(to, skipFrom);
            int b = (int) Math.max(from, skipTo);
            if (from < a) {
                live.samples(from, x, from, a - from);
            }
            if (b < to) {
                live.samples(b, x, b, to - b);
            }
            from = to;
        }
        while (edge < edges.length) {
            angle.edge(edges[edge++], 0);
        }
        return heard;
    }

    @Test
    void stepsAreThoseOfTheWholeRecordToTheLastBit() {
        List<Piece> pieces = new ArrayList<>();
        LiveAngle angle =
                new LiveAngle(
                        new LiveAngle.Spec(RATE_HZ, 1, 1),
                        (fresh, start, end, turns, slope, bend) ->
                                pieces.add(new Piece(start, end, turns, slope, bend)));
        for (double edge : edges) {
            angle.edge(edge, 0);
        }
        ResamplingKernel kernel = ResamplingKernel.of(18, 106);
        List<double[]> expected = new ArrayList<>();
        long step = (long) (pieces.get(0).turns * PER_TURN);
        for (Piece p : pieces) {
            double length = p.end - p.start;
            double turns = (p.slope + p.bend * length) * length;
            for (; step / (double) PER_TURN - p.turns <= turns; step++) {
                double c = step / (double) PER_TURN - p.turns;
                double speed = Math.sqrt(p.slope * p.slope + 4 * p.bend * c);
                double place = p.start + 2 * c / (p.slope + speed);
                double stretch = Math.max(1, 1 / (PER_TURN * speed));
                double reach = 18 * stretch;
                if (place - reach >= 0 && place + reach <= x.length - 1) {
                    double value = kernel.at(x, 0, x.length, place, stretch);
                    expected.add(new double[] {step, place, speed, value});
                }
            }
        }
        for (int longest : new int[] {3, 700, 20_000}) {
            Heard heard = hear(longest, x.length, x.length);
            assertEquals(expected.size(), heard.steps.size());
            for (int i = 0; i < expected.size(); i++) {
                assertArrayEquals(expected.get(i), heard.steps.get(i), longest + ", step " + i);
            }
            assertEquals(1, heard.begins);
        }
    }

    @Test
    void rowsAreTheSpectraOfTheFramesThatEndThere() {
        Heard heard = hear(900, x.length, x.length);
        int size = PER_TURN * TURNS;
        OrderSpectrum.AngularFrames frames =
                new OrderSpectrum.AngularFrames(PER_TURN, TURNS, Window.HANN);
        double[] values = heard.steps.stream().mapToDouble(s -> s[3]).toArray();
        double[] rms = new double[frames.bins()];
        int row = 0;
        long next = Long.MIN_VALUE;
        for (int i = size - 1; i < values.length; i++) {
            long tick = (long) Math.floor(heard.steps.get(i)[1] / ROW_SAMPLES);
            if (tick >= next) {
                next = tick + 1;
                frames.rms(values, i + 1 - size, rms);
                double[] got = heard.rows.get(row++);
                assertArrayEquals(rms, Arrays.copyOf(got, rms.length), "row " + row);
                assertEquals(heard.steps.get(i)[1], got[rms.length]);
            }
        }
        assertEquals(row, heard.rows.size());
        assertTrue(row > 100, "rows=" + row);
    }

    @Test
    void nothingIsMadeOfMissingSamples() {
        Heard heard = hear(500, 9000, 9300);
        assertEquals(2, heard.begins);
        Heard whole = hear(500, x.length, x.length);
        int inside = 0;
        for (double[] step : whole.steps) {
            double reach = 18 * Math.max(1, 1 / (PER_TURN * step[2]));
            inside += step[1] + reach > 8999 && step[1] - reach < 9300 ? 1 : 0;
        }
        assertEquals(whole.steps.size() - inside, heard.steps.size());
        for (double[] step : heard.steps) {
            assertTrue(
                    whole.steps.stream().anyMatch(s -> Arrays.equals(s, step)),
                    "step " + step[0] + " is not that of the whole record");
        }
    }

    @Test
    void aToneOnTheShaftReadsItsHeight() {
        double order = 7.25;
        double rms = 0.8;
        double[] tone = new double[x.length];
        double hz = 14;
        for (int i = 0; i < tone.length; i++) {
            tone[i] = Math.sqrt(2) * rms * Math.cos(2 * Math.PI * order * hz * i / RATE_HZ);
        }
        double[] highest = {0, 0};
        LiveRows rows =
                new LiveRows(
                        new LiveRows.Spec(1, PER_TURN, TURNS, ROW_SAMPLES),
                        (fresh, end, speed, row) -> {
                            highest[0] = row[(int) (order * TURNS)];
                            highest[1]++;
                        });
        LiveSteps live = new LiveSteps(LiveSteps.Spec.of(1, RATE_HZ, PER_TURN), rows);
        LiveAngle angle = new LiveAngle(new LiveAngle.Spec(RATE_HZ, 1, 1), live);
        for (int k = 0; k < 60; k++) {
            angle.edge(k * RATE_HZ / hz, 0);
        }
        live.samples(0, tone, 0, tone.length);
        assertTrue(highest[1] > 50);
        // The kernel's amplitude error in its pass band, and round-off.
        assertEquals(rms, highest[0], 2e-5 * rms);
    }
}

package tickover.order;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import tickover.dsp.AllocationMeter;
import tickover.dsp.Window;

/** Samples to columns in blocks: the whole record at once, whatever the blocks. */
class OrderColumnsPropertyTest {
    private static final int PER_TURN = 256;
    private static final int TURNS = 4;
    private static final int HOP_TURNS = 1;
    private static final OrderColumns.Spec SPEC =
            new OrderColumns.Spec(PER_TURN, TURNS, HOP_TURNS * PER_TURN, Window.HANN);

    @ParameterizedTest
    @ValueSource(longs = {1, 2, 3})
    void blocksOfAnySizeGiveTheWaterfallOfTheWholeRecord(long seed) {
        SweptRecord record = record(2);
        AngularRecord whole =
                AngularResampler.resample(record.x, record.rateHz, record.angle, PER_TURN);
        Waterfall.Spec rowSpec =
                new Waterfall.Spec(TURNS, Waterfall.Axis.TURNS, HOP_TURNS, Window.HANN);
        List<Waterfall.Row> rows = Waterfall.of(whole, record.angle, rowSpec).rows();

        List<double[]> columns = new ArrayList<>();
        List<Long> starts = new ArrayList<>();
        OrderColumns live =
                new OrderColumns(
                        SPEC,
                        (start, rms) -> {
                            starts.add(start);
                            columns.add(rms.clone());
                        });
        push(record, live, new Random(seed));

        assertTrue(rows.size() > 20, "rows=" + rows.size());
        assertEquals(rows.size(), columns.size(), "seed " + seed);
        for (int i = 0; i < rows.size(); i++) {
            assertEquals((long) i * HOP_TURNS * PER_TURN, starts.get(i));
            assertArrayEquals(rows.get(i).rms(), columns.get(i), "seed " + seed + ", row " + i);
        }
    }

    @Test
    void aResetStreamIsANewOne() {
        SweptRecord record = record(2);
        List<double[]> columns = new ArrayList<>();
        OrderColumns live = new OrderColumns(SPEC, (start, rms) -> columns.add(rms.clone()));
        push(record, live, new Random(4));
        int once = columns.size();
        live.reset();
        push(record, live, new Random(5));
        assertEquals(2 * once, columns.size());
        assertArrayEquals(columns.get(0), columns.get(once));
    }

    @Test
    void samplesToColumnsAllocateNothing() {
        // Short, for the meter runs it some hundred times.
        SweptRecord record = record(0.5);
        AngularResampler resampler =
                new AngularResampler(
                        AngularResampler.Spec.of(PER_TURN), record.rateHz, record.angle);
        double[] sum = new double[1];
        OrderColumns live = new OrderColumns(SPEC, (start, rms) -> sum[0] += rms[1]);
        double[] out = new double[resampler.maxOutput(record.x.length)];
        long bytes =
                AllocationMeter.bytesOf(
                        () -> {
                            resampler.reset();
                            live.reset();
                            int count = resampler.process(record.x, 0, record.x.length, out, 0);
                            live.accept(out, 0, count);
                        });
        assertEquals(0, bytes);
        assertTrue(sum[0] > 0);
    }

    /** A run-up from 15 to 30 turns a second. */
    private static SweptRecord record(double lengthS) {
        return new SweptRecord(6400, 900, 1800, lengthS).add(2, 0, 0.3, 1).addNoise(0.2, 1);
    }

    /** Blocks of 1 to 700 samples, every third of them a single one. */
    private static void push(SweptRecord record, OrderColumns live, Random random) {
        AngularResampler resampler =
                new AngularResampler(
                        AngularResampler.Spec.of(PER_TURN), record.rateHz, record.angle);
        for (int at = 0; at < record.x.length; ) {
            int wanted = random.nextInt(3) == 0 ? 1 : 1 + random.nextInt(700);
            int block = Math.min(record.x.length - at, wanted);
            double[] out = new double[resampler.maxOutput(block)];
            int count = resampler.process(record.x, at, block, out, 0);
            for (int done = 0; done < count; ) {
                int part = Math.min(count - done, 1 + random.nextInt(300));
                live.accept(out, done, part);
                done += part;
            }
            at += block;
        }
    }
}

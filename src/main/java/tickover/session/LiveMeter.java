package tickover.session;

import java.util.HashMap;
import java.util.Map;
import java.util.function.Consumer;
import tickover.align.AlignedBlock;
import tickover.align.EdgeRun;
import tickover.align.ProbeStart;
import tickover.align.SampleRun;
import tickover.align.SpeedReading;

/**
 * Level and speed second by second, from the aligned stream alone: the same blocks give the same
 * readings, live or replayed. One thread.
 */
final class LiveMeter {
    /** A reading of an adapter older than this says nothing about now, s. */
    private static final double STALE_S = 2;

    /** Fewer edges than this in a second give no speed worth showing. */
    private static final int FEWEST_EDGES = 3;

    private final Consumer<LiveReading> sink;
    private int pulsesPerTurn = 1;
    private final Map<Integer, Second> probes = new HashMap<>();
    private final Map<Integer, Edges> tachs = new HashMap<>();
    private SpeedReading lastReading;
    private double edgeTurns;
    private double readingTurns;
    private boolean sawEdges;

    /** One probe's second in the making. */
    private static final class Second {
        private final ProbeStart start;
        private long firstTick;
        private boolean begun;
        private long index;
        private int count;
        private double sum;
        private double sumSquares;
        private double low = Double.POSITIVE_INFINITY;
        private double high = Double.NEGATIVE_INFINITY;
        private boolean atLimit;

        Second(ProbeStart start) {
            this.start = start;
        }
    }

    /** The edges of one board: what the last second's are, and how far they have counted. */
    private static final class Edges {
        private final double tickHz;
        private final long[] ring = new long[4096];
        private long count;

        Edges(double tickHz) {
            this.tickHz = tickHz;
        }
    }

    /**
     * @param sink takes each reading as it is complete
     */
    LiveMeter(Consumer<LiveReading> sink) {
        this.sink = sink;
    }

    /** Says how many tach edges make a turn of the crank, before the first of them. */
    void marks(int value) {
        pulsesPerTurn = value;
    }

    void accept(AlignedBlock block) {
        switch (block.kind()) {
            case START -> start((ProbeStart) block);
            case SAMPLES -> samples((SampleRun) block);
            case EDGES -> edges((EdgeRun) block);
            case SPEED -> reading((SpeedReading) block);
            case BUTTON, GAP, HEALTH -> {}
        }
    }

    private void start(ProbeStart start) {
        tachs.put(start.source(), new Edges(start.tickHz()));
        probes.put(start.source(), new Second(start));
    }

    private void samples(SampleRun run) {
        Second s = probes.get(run.source());
        if (s == null || s.start.segment() != run.segment()) {
            return;
        }
        if (!s.begun) {
            s.begun = true;
            s.firstTick = run.firstTick().value();
        }
        double[] x = run.accelMps2();
        double ticks = run.firstTick().value() - s.firstTick;
        for (int i = 0; i < run.count(); i++) {
            long index = (long) ((ticks + i * s.start.ticksPerSample()) / s.start.tickHz());
            if (index != s.index) {
                finish(s);
                s.index = index;
            }
            double v = x[i * run.axes()];
            s.count++;
            s.sum += v;
            s.sumSquares += v * v;
            s.low = Math.min(s.low, v);
            s.high = Math.max(s.high, v);
            s.atLimit |= run.atLimit();
        }
    }

    private void finish(Second s) {
        if (s.count > 0) {
            double mean = s.sum / s.count;
            double rms = Math.sqrt(Math.max(0, s.sumSquares / s.count - mean * mean));
            double peak = Math.max(s.high - mean, mean - s.low);
            double rateHz = s.start.nominalRateHz();
            int expected =
                    rateHz > 0
                            ? (int)
                                    (Math.ceil((s.index + 1) * rateHz)
                                            - Math.ceil(s.index * rateHz))
                            : s.count;
            sink.accept(
                    new LiveReading(
                            s.start.source(),
                            s.start.segment(),
                            s.index + 1.0,
                            rms,
                            peak,
                            s.count,
                            expected,
                            speedRpm(),
                            s.atLimit));
        }
        s.count = 0;
        s.sum = 0;
        s.sumSquares = 0;
        s.low = Double.POSITIVE_INFINITY;
        s.high = Double.NEGATIVE_INFINITY;
        s.atLimit = false;
    }

    private void edges(EdgeRun run) {
        Edges e = tachs.get(run.source());
        if (e == null) {
            return;
        }
        sawEdges = true;
        edgeTurns += (double) (run.ticks().length + run.missedBefore()) / pulsesPerTurn;
        for (long tick : run.ticks()) {
            e.ring[(int) (e.count % e.ring.length)] = tick;
            e.count++;
        }
    }

    private void reading(SpeedReading reading) {
        if (lastReading != null) {
            double sinceS = reading.answered().secondsAfter(lastReading.answered());
            if (sinceS > 0 && sinceS < STALE_S) {
                readingTurns += sinceS * reading.speedRpm() / 60;
            }
        }
        lastReading = reading;
    }

    /** Speed over the last second of edges; without edges the last reading. */
    double speedRpm() {
        for (Edges e : tachs.values()) {
            int held = (int) Math.min(e.count, e.ring.length);
            if (held < FEWEST_EDGES) {
                continue;
            }
            long last = e.ring[(int) ((e.count - 1) % e.ring.length)];
            int n = 1;
            long first = last;
            while (n < held) {
                long tick = e.ring[(int) ((e.count - 1 - n) % e.ring.length)];
                if (last - tick > e.tickHz) {
                    break;
                }
                first = tick;
                n++;
            }
            if (n >= FEWEST_EDGES && last > first) {
                return 60 * e.tickHz * (n - 1) / (last - first) / pulsesPerTurn;
            }
        }
        return lastReading == null ? Double.NaN : lastReading.speedRpm();
    }

    /** Crank turns so far, by the edges if there are any, else by the readings. */
    double turns() {
        return sawEdges ? edgeTurns : readingTurns;
    }
}

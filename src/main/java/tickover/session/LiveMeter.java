package tickover.session;

import java.util.HashMap;
import java.util.Map;
import java.util.OptionalDouble;
import java.util.function.Consumer;
import tickover.align.AlignedBlock;
import tickover.align.EdgeRun;
import tickover.align.ProbeStart;
import tickover.align.SampleRun;
import tickover.align.SpeedReading;
import tickover.link.Chunk;
import tickover.unit.HostNanos;

/**
 * Level and speed second by second, from the chunks of a recording and what is derived from them:
 * the same ones give the same readings, live or replayed. One tach counts: a board of its own,
 * which somebody has named, before the probe's. One thread.
 */
final class LiveMeter {
    /** Edges and readings older than this say nothing about now, s; slow adapters take two. */
    private static final double STALE_S = 3;

    /** Fewer edges than this in a second give no speed worth showing. */
    private static final int FEWEST_EDGES = 3;

    private final Consumer<LiveReading> sink;
    private final TachMark mark = new TachMark();
    private final Map<Integer, Second> probes = new HashMap<>();
    private Edges tach;
    private HostNanos latest = new HostNanos(Long.MIN_VALUE / 2);
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

    /** The tach's edges since one was last missing: the latest of them, and how many. */
    private static final class Edges {
        private final double tickHz;
        private final long[] ring = new long[4096];
        private long count;
        private HostNanos arrival = new HostNanos(Long.MIN_VALUE / 2);

        Edges(double tickHz) {
            this.tickHz = tickHz;
        }

        void take(EdgeRun run) {
            if (run.missedBefore() > 0) {
                count = 0;
            }
            for (long tick : run.ticks()) {
                ring[(int) (count % ring.length)] = tick;
                count++;
            }
            arrival = run.arrival();
        }

        private long back(int n) {
            return ring[(int) ((count - 1 - n) % ring.length)];
        }

        /** Over the last second of them; NaN if that holds too few. */
        double perS() {
            int held = (int) Math.min(count, ring.length);
            int intervals = 0;
            while (intervals + 1 < held && back(0) - back(intervals + 1) <= tickHz) {
                intervals++;
            }
            boolean enough = intervals + 1 >= FEWEST_EDGES && back(0) > back(intervals);
            return enough ? tickHz * intervals / (back(0) - back(intervals)) : Double.NaN;
        }
    }

    /**
     * @param sink takes each reading as it is complete
     */
    LiveMeter(Consumer<LiveReading> sink) {
        this.sink = sink;
    }

    /** Takes what a chunk says of tach, vehicle and devices, before what is derived from it. */
    void told(Chunk chunk) {
        switch (chunk.kind()) {
            case SOURCE -> mark.source(chunk);
            case NOTE -> mark.note(chunk);
            case IN, OUT, EVENT, WALL_TIME, END -> {}
        }
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
        if (start.source() == mark.source()) {
            tach = new Edges(start.tickHz());
        }
        probes.put(start.source(), new Second(start));
    }

    private void heard(HostNanos arrival) {
        if (arrival.compareTo(latest) > 0) {
            latest = arrival;
        }
    }

    private void samples(SampleRun run) {
        heard(run.arrival());
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
        heard(run.arrival());
        OptionalDouble pulses = mark.pulsesPerCrankTurn();
        if (tach == null || run.source() != mark.source() || pulses.isEmpty()) {
            return;
        }
        sawEdges = true;
        edgeTurns += (run.ticks().length + run.missedBefore()) / pulses.getAsDouble();
        tach.take(run);
    }

    private void reading(SpeedReading reading) {
        heard(reading.answered());
        if (lastReading != null) {
            double sinceS = reading.answered().secondsAfter(lastReading.answered());
            if (sinceS > 0 && sinceS < STALE_S) {
                readingTurns += sinceS * reading.speedRpm() / 60;
            }
        }
        lastReading = reading;
    }

    /** Crank speed by the latest edges, else by the latest reading; NaN if both are old. */
    private double speedRpm() {
        if (tach != null && latest.secondsAfter(tach.arrival) <= STALE_S) {
            double edgesPerS = tach.perS();
            if (!Double.isNaN(edgesPerS)) {
                return 60 * edgesPerS / mark.pulsesPerCrankTurn().orElse(Double.NaN);
            }
        }
        boolean fresh =
                lastReading != null && latest.secondsAfter(lastReading.answered()) <= STALE_S;
        return fresh ? lastReading.speedRpm() : Double.NaN;
    }

    /** Crank turns so far, by the edges if there are any, else by the readings. */
    double turns() {
        return sawEdges ? edgeTurns : readingTurns;
    }
}

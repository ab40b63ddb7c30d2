package tickover.session;

import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.concurrent.atomic.AtomicReference;
import java.util.stream.IntStream;
import tickover.align.AlignedBlock;
import tickover.align.EdgeRun;
import tickover.align.ProbeStart;
import tickover.align.SampleRun;
import tickover.align.SpeedReading;
import tickover.align.StreamGap;
import tickover.diagnose.LiveAnalysis;
import tickover.diagnose.LiveQuality;
import tickover.drive.DriveModel;
import tickover.dsp.LiveTrace;
import tickover.link.Chunk;
import tickover.unit.HostNanos;

/**
 * Makes a live picture of a stream: of the first probe in it, with the tach or the adapter that
 * tells the speed.
 *
 * <p>In: chunks and aligned blocks, from a recorder or a replay; the same ones give the same
 * picture. Out: snapshots, each of which overwrites the one before. The thread that records writes
 * them, one other thread reads them by {@link #latest}; neither ever waits for the other.
 */
public final class LivePipeline implements StreamListener {
    private static final double TRACE_S = 1.0;
    private static final double LEVEL_S = 0.5;
    private static final double BAND_S = 0.25;

    /**
     * A snapshot is made after so many seconds of samples: half a screen frame of a slow screen.
     */
    private static final double EVERY_S = 0.02;

    /** Trouble is told for so long after it happened, s. */
    private static final double TOLD_S = 3;

    /** Without an edge for so long the speed is lost, s. */
    private static final double EDGES_STALE_S = 1.5;

    /** Without a reading for so long the speed is lost, s. */
    private static final double READINGS_STALE_S = 3;

    /** Control units answer with a speed of 50 to 300 ms ago; near the middle of that, s. */
    private static final double READING_LAG_S = 0.15;

    private final AtomicReference<LiveFrame> waiting = new AtomicReference<>();
    private final TachMark mark = new TachMark();
    private final Map<Integer, ProbeClock.LeastDelay> boards = new HashMap<>();
    private final Map<Integer, Double> tickHz = new HashMap<>();
    private LiveFrame shown;
    private LiveFrame back;
    private ProbeStart start;
    private ProbeClock clock;
    private LiveSetup setup;
    private LiveAnalysis analysis;
    private LiveTrace trace;
    private LiveQuality quality;

    /** Where rows wait to be copied into snapshots. */
    private LiveFrame kept;

    /** What the screen wants to hear, and what is being made. */
    private final AtomicReference<LiveSound> wanted = new AtomicReference<>();

    private LiveSound making;

    private int streams;
    private long frames;
    private long firstSample;
    private long endSample;
    private long publishedAt;
    private double arrivalS;
    private double lastEdgeAt = Double.NEGATIVE_INFINITY;
    private double lastReadingAt = Double.NEGATIVE_INFINITY;
    private double troubleEdgesAt = Double.NEGATIVE_INFINITY;
    private double troubleSamplesAt = Double.NEGATIVE_INFINITY;
    private long missedBefore;
    private boolean speedLost;

    /** Waits for a probe. */
    public LivePipeline() {}

    /**
     * Returns the latest snapshot. Called by one thread, the same each time.
     *
     * @return null before the first; the same object again where there is nothing new
     */
    LiveFrame latestOrNull() {
        LiveFrame next = waiting.get();
        if (next != null && (shown == null || next.number > shown.number)) {
            shown = waiting.getAndSet(shown);
        }
        return shown;
    }

    /**
     * Returns the latest snapshot. Called by one thread, the same each time; it may read what it
     * got until it calls again.
     *
     * @return empty before there is one; the same object again where there is nothing new
     */
    public Optional<LiveFrame> latest() {
        return Optional.ofNullable(latestOrNull());
    }

    @Override
    public void told(Chunk chunk) {
        switch (chunk.kind()) {
            case SOURCE -> mark.source(chunk);
            case NOTE -> {
                mark.note(chunk);
                boolean begins =
                        RecordingNote.parse(chunk.bytes())
                                .filter(n -> n.kind() == RecordingNote.Kind.BEGIN)
                                .isPresent();
                if (begins && analysis != null) {
                    analysis.restartLevels();
                }
            }
            case IN, OUT, EVENT, WALL_TIME, END -> {}
        }
    }

    @Override
    public void block(AlignedBlock block) {
        switch (block.kind()) {
            case START -> start((ProbeStart) block);
            case SAMPLES -> samples((SampleRun) block);
            case EDGES -> edges((EdgeRun) block);
            case SPEED -> reading((SpeedReading) block);
            case GAP -> gap((StreamGap) block);
            case BUTTON, HEALTH -> {}
        }
    }

    private void start(ProbeStart begun) {
        tickHz.put(begun.source(), begun.tickHz());
        if (start == null || start.source() == begun.source()) {
            start = begun;
            clock = new ProbeClock(begun);
            setup = null;
            analysis = null;
        }
    }

    private void gap(StreamGap gap) {
        if (start != null && gap.source() == start.source()) {
            troubleSamplesAt = endSample;
        }
    }

    private void samples(SampleRun run) {
        if (start == null || run.source() != start.source() || run.segment() != start.segment()) {
            return;
        }
        clock.heard(run);
        if (!clock.isReady()) {
            return;
        }
        if (setup == null) {
            prepare(run);
        }
        endSample = run.firstSample() + run.count();
        arrivalS = run.arrival().secondsAfter(new HostNanos(0));
        int axes = run.axes();
        trace.accept(run.accelMps2(), axes, 0, 0, run.count());
        quality.accept(run.accelMps2(), 0, run.count(), run.atLimit());
        if (analysis != null) {
            if (making != wanted.get()) {
                listen();
            }
            analysis.samples(run.firstSample(), run.accelMps2(), 0, run.count());
            checkSpeed();
        }
        if (endSample - publishedAt >= EVERY_S * setup.sampleRateHz()) {
            publishedAt = endSample;
            publish();
        }
    }

    /**
     * Makes one part be heard from now on, while the probe is held. Called by any thread.
     *
     * @param part its name; empty for none
     * @return its sound, as it comes
     */
    public LiveSound listenTo(String part) {
        LiveSound sound = new LiveSound(part);
        wanted.set(sound);
        return sound;
    }

    /** Nothing is to be heard any more. Called by any thread. */
    public void listenToNone() {
        wanted.set(null);
    }

    private void listen() {
        LiveSound next = wanted.get();
        making = next;
        if (next == null) {
            analysis.listenToNone();
        } else {
            analysis.listenTo(next.part(), next::add);
        }
    }

    private void prepare(SampleRun run) {
        double rate = clock.rateHz();
        int stretch = Math.max(1, (int) Math.round(TRACE_S * rate / LiveFrame.TRACE));
        trace =
                new LiveTrace(
                        stretch, LiveFrame.TRACE, Math.max(1, (int) Math.round(LEVEL_S * rate)));
        quality = new LiveQuality(run.axes(), rate, start.fullScaleMps2());
        analysis = mark.drive().map(d -> analysis(d, run.axes(), rate)).orElse(null);
        List<String> parts = analysis == null ? List.of() : analysis.parts().parts();
        setup =
                new LiveSetup(
                        ++streams,
                        run.axes(),
                        rate,
                        stretch / rate,
                        LiveAnalysis.ROWS_PER_S,
                        LiveAnalysis.TURNS_PER_FRAME,
                        (int) (LiveAnalysis.TOP_ORDERS * LiveAnalysis.TURNS_PER_FRAME) + 1,
                        parts,
                        analysis == null ? List.of() : analysis.parts().lines(),
                        analysis == null
                                ? List.of()
                                : IntStream.range(0, analysis.bands())
                                        .mapToObj(analysis::bandLoHz)
                                        .toList());
        making = null;
        kept = new LiveFrame(setup);
        firstSample = run.firstSample();
        publishedAt = firstSample;
        missedBefore = 0;
        lastEdgeAt = Double.NEGATIVE_INFINITY;
        lastReadingAt = Double.NEGATIVE_INFINITY;
        troubleEdgesAt = Double.NEGATIVE_INFINITY;
        troubleSamplesAt = Double.NEGATIVE_INFINITY;
    }

    private LiveAnalysis analysis(DriveModel drive, int axes, double rateHz) {
        double edgesPerTurn = mark.pulsesPerCrankTurn().orElse(1);
        return new LiveAnalysis(
                new LiveAnalysis.Spec(drive, axes, rateHz, edgesPerTurn, mark.pulsesPerTurn()),
                (fresh, end, speed, rms) -> row(kept.motion, fresh, end, speed, rms),
                (fresh, end, speed, rms) -> row(kept.knocks, fresh, end, speed, rms));
    }

    private void row(LiveFall to, boolean fresh, double end, double perSample, double[] rms) {
        double rate = setup.sampleRateHz();
        to.add(fresh, (end - firstSample) / rate, 60 * perSample * rate, rms);
    }

    private void edges(EdgeRun run) {
        int source = run.source();
        Double hz = tickHz.get(source);
        if (hz == null || source != mark.source() || mark.pulsesPerCrankTurn().isEmpty()) {
            return;
        }
        boolean own = start != null && source == start.source();
        if (!own && run.ticks().length > 0) {
            long last = run.ticks()[run.ticks().length - 1];
            boards.computeIfAbsent(source, s -> new ProbeClock.LeastDelay())
                    .heard((double) last / hz, run.arrival());
        }
        if (analysis == null || (own && run.segment() != start.segment())) {
            return;
        }
        long missed = run.missedBefore();
        for (long tick : run.ticks()) {
            double at =
                    own
                            ? clock.sampleAtTick((double) tick)
                            : clock.sampleAt(boards.get(source).hostS((double) tick / hz));
            analysis.edge(at, missed);
            lastEdgeAt = at;
            missed = 0;
        }
        speedLost = false;
        long now = analysis.angle().missed() + analysis.angle().breaks();
        if (now > missedBefore) {
            missedBefore = now;
            troubleEdgesAt = endSample;
        }
    }

    private void reading(SpeedReading reading) {
        if (analysis == null || !clock.isReady()) {
            return;
        }
        double hostS = reading.answered().secondsAfter(new HostNanos(0)) - READING_LAG_S;
        double at = clock.sampleAt(hostS);
        lastReadingAt = at;
        boolean edgesCome = at - lastEdgeAt < READINGS_STALE_S * setup.sampleRateHz();
        if (!edgesCome) {
            analysis.reading(at, reading.speedRpm());
            speedLost = false;
        }
    }

    private void checkSpeed() {
        double rate = setup.sampleRateHz();
        boolean edges = endSample - lastEdgeAt < EDGES_STALE_S * rate;
        boolean readings = endSample - lastReadingAt < READINGS_STALE_S * rate;
        if (!edges && !readings && !speedLost) {
            speedLost = true;
            analysis.loseSpeed();
        }
    }

    private void publish() {
        LiveFrame into =
                back != null && back.setup().stream() == streams ? back : new LiveFrame(setup);
        into.number = ++frames;
        into.timeS = (endSample - firstSample) / setup.sampleRateHz();
        into.arrivalS = arrivalS;
        long from = Math.max(into.stretches, trace.stretches() - LiveFrame.TRACE);
        for (long i = from; i < trace.stretches(); i++) {
            int place = (int) (i % LiveFrame.TRACE);
            into.low[place] = trace.low(i);
            into.high[place] = trace.high(i);
        }
        into.stretches = trace.stretches();
        into.motion.follow(kept.motion);
        into.knocks.follow(kept.knocks);
        into.meanMps2 = trace.meanMps2();
        into.rmsMps2 = trace.rmsMps2();
        into.clipped = quality.isClipped();
        into.lifted = quality.isLifted();
        into.flat = quality.isFlat();
        double told = TOLD_S * setup.sampleRateHz();
        into.missedEdges = endSample - troubleEdgesAt < told;
        into.lostSamples = endSample - troubleSamplesAt < told;
        if (analysis != null) {
            speed(into);
            analysis.parts().write(into.levels);
            for (int b = 0; b < into.bandRms.length; b++) {
                into.bandRms[b] = analysis.bandRmsMps2(b, BAND_S);
            }
        }
        back = waiting.getAndSet(into);
    }

    private void speed(LiveFrame into) {
        double rate = setup.sampleRateHz();
        boolean edges = endSample - lastEdgeAt < EDGES_STALE_S * rate;
        if (!analysis.angle().hasSpeed()) {
            into.speed = edges ? LiveFrame.Speed.FORMING : LiveFrame.Speed.NONE;
            into.sharpOrders = 0;
            return;
        }
        into.speed = edges ? LiveFrame.Speed.EDGES : LiveFrame.Speed.READINGS;
        into.speedRpm = 60 * analysis.angle().speedHz();
        into.sharpOrders = analysis.angle().sharpOrders(LiveAnalysis.TURNS_PER_FRAME).orElse(0);
    }
}

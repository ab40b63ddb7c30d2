package tickover.session;

import java.time.Clock;
import java.util.List;
import java.util.Objects;
import java.util.UUID;
import java.util.concurrent.atomic.AtomicReference;
import tickover.align.AlignedBlock;
import tickover.align.SampleRun;
import tickover.link.Chunk;
import tickover.link.LinkException;
import tickover.link.RecordingHeader;
import tickover.link.RecordingWriter;
import tickover.unit.HostNanos;

/**
 * Records from one or more lines: one thread a line reads bytes, and one thread, the keeper, writes
 * them down, derives the aligned stream from what it wrote, talks to the devices, and decides when
 * captures begin and end.
 *
 * <p>Bytes are written before anything is made of them. A lost line is marked, tried again twice a
 * second, and goes on as a new segment; the recording itself ends only when it is told to, when its
 * plan is done, or when the disk refuses.
 */
public final class Recorder implements StreamRun {
    /** The longest wait between two looks at lengths, lines and devices, s. */
    private static final double IDLE_S = 0.01;

    /** A second of the probe is shown no longer than this, s; it may wait 2 s behind a gap. */
    private static final double STALE_S = 4;

    /** Chunks taken in one go before the rest has its turn. */
    private static final int AT_ONCE = 256;

    /** An adapter may take two seconds for a reading, a tach a quarter for its edges. */
    private static final double TAIL_S = 1.5;

    private static final long FAREWELL_NS = 250_000_000;
    private static final double STATUS_EVERY_S = 0.1;
    private static final double WALL_TIME_EVERY_S = 60;
    private static final long JOIN_MS = 5000;

    private final RecordPlan plan;
    private final Clock wallClock;
    private final StreamListener listener;
    private final AtomicReference<RecordStatus> status = new AtomicReference<>();
    private final RecordedLines lines;
    private final CaptureScript script;
    private final StreamPipeline pipeline;
    private final LiveMeter meter;
    private final RecordingWriter writer;
    private final Thread keeper;
    private final long originNanos = System.nanoTime();
    private final AtomicReference<PlannedCapture> aimed = new AtomicReference<>();
    private volatile boolean stopping;
    private final KeyPresses keys = new KeyPresses();
    private final DiskForcer forcer;
    private LiveReading latest;
    private HostNanos latestAt = new HostNanos(0);
    private boolean flowing;
    private String fault = "";
    private double finishedS = -1;
    private double nextStatusS;
    private double nextWallTimeS;

    /** Opens the lines first: a wrong port is then an error that leaves no file behind. */
    private Recorder(
            RecordPlan plan, List<RecordLine> from, Clock wallClock, StreamListener listener) {
        this.plan = Objects.requireNonNull(plan, "plan");
        this.wallClock = Objects.requireNonNull(wallClock, "wallClock");
        this.listener = Objects.requireNonNull(listener, "listener");
        this.script =
                new CaptureScript(
                        plan.captures(),
                        new CaptureScript.Rule(
                                plan.byPress(),
                                plan.openEnd(),
                                plan.captureLengthS(),
                                plan.captureTurns()));
        this.meter =
                new LiveMeter(
                        r -> {
                            latest = r;
                            latestAt = now();
                        });
        this.pipeline = new StreamPipeline(this::derived);
        this.keeper = new Thread(this::keep, "tickover-keeper");
        this.lines = new RecordedLines(from, pipeline, this::now);
        try {
            lines.openFirst();
            this.writer =
                    RecordingWriter.create(
                            plan.file(),
                            new RecordingHeader(UUID.randomUUID(), now(), wallClock.instant()));
        } catch (LinkException e) {
            lines.stop();
            throw e;
        }
        this.forcer = new DiskForcer(() -> writer.forceIfDue(now()));
    }

    /**
     * Starts recording.
     *
     * @param plan what to record
     * @param lines from where, at least one
     * @param wallClock the time of day
     * @param listener hears all of it, on the keeper's thread; must be quick
     * @return the running recorder
     * @throws AcquisitionException if a line cannot be opened or the file cannot be made; nothing
     *     is left behind then
     */
    public static Recorder start(
            RecordPlan plan, List<RecordLine> lines, Clock wallClock, StreamListener listener) {
        if (lines.isEmpty()) {
            throw new IllegalArgumentException("lines is empty, need at least one");
        }
        return AcquisitionException.guard(
                () -> {
                    Recorder recorder = new Recorder(plan, lines, wallClock, listener);
                    recorder.begin();
                    return recorder;
                });
    }

    private void begin() {
        try {
            lines.descriptions().forEach(this::keep);
            note(RecordingNote.tach(plan.tachPulley(), plan.pulsesPerTurn()));
            if (!plan.vehicleToml().isEmpty()) {
                note(RecordingNote.vehicle(plan.vehicleToml()));
            }
        } catch (LinkException e) {
            lines.stop();
            writer.close();
            throw e;
        }
        publish(now(), false, "");
        lines.start();
        forcer.start();
        keeper.start();
    }

    private HostNanos now() {
        return new HostNanos(System.nanoTime() - originNanos);
    }

    private static double seconds(HostNanos at) {
        return at.secondsAfter(new HostNanos(0));
    }

    /** The keeper's life. */
    private void keep() {
        String failure = "";
        try {
            while (!stopping && !done(now())) {
                step();
            }
            script.stop();
            writeNotes();
            hearAnswers();
            lines.sayFarewell(this::keep);
            listenOn();
            if (fault.isEmpty()) {
                pipeline.end();
            }
        } catch (LinkException e) {
            failure = e.getMessage();
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
            failure = "the recording was interrupted";
        } catch (RuntimeException | Error e) {
            // The outermost loop of this thread: what it does not tell, nobody hears of.
            failure = "the recording ended by a mistake of this program (" + e + ")";
        } finally {
            lines.stop();
            forcer.stop();
            failure = closeFile(failure);
            publish(now(), true, failure);
        }
    }

    private String closeFile(String failure) {
        try {
            writer.close();
            return failure;
        } catch (LinkException e) {
            return failure.isEmpty() ? e.getMessage() : failure;
        }
    }

    /** Edges and readings of the last capture are still on their way when it ends. */
    private boolean done(HostNanos now) {
        if (finishedS < 0 && script.finished()) {
            finishedS = seconds(now);
        }
        boolean longEnough = plan.totalS() > 0 && seconds(now) >= plan.totalS();
        return longEnough || (finishedS >= 0 && seconds(now) >= finishedS + TAIL_S);
    }

    private void step() throws InterruptedException {
        Chunk chunk = lines.next(IDLE_S);
        // Bounded, so that a line that is faster than this thread cannot keep it from the rest.
        for (int taken = 0; chunk != null; taken++) {
            take(chunk);
            chunk = taken < AT_ONCE ? lines.next() : null;
        }
        // Before the aim is read: who aims and then presses means that aim.
        boolean anyPress = keys.take();
        HostNanos now = now();
        double turns = meter.turns();
        PlannedCapture next = aimed.getAndSet(null);
        if (next != null) {
            script.aim(next);
        }
        if (flowing) {
            script.flowing(seconds(now), turns);
        }
        if (anyPress) {
            pressed(now);
        }
        script.reached(seconds(now), turns);
        writeNotes();
        lines.talk(this::keep);
        if (seconds(now) >= nextWallTimeS) {
            nextWallTimeS = seconds(now) + WALL_TIME_EVERY_S;
            keep(new Chunk(Chunk.Kind.WALL_TIME, 0, now(), wallTime()));
        }
        forcer.requireSound();
        if (seconds(now) >= nextStatusS) {
            nextStatusS = seconds(now) + STATUS_EVERY_S;
            publish(now, false, "");
        }
    }

    /** Presses are acted on where they stand among the bytes, however many came at once. */
    private void take(Chunk chunk) {
        keep(chunk);
        lines.heard(chunk);
        while (lines.pressed(chunk)) {
            pressed(now());
        }
    }

    private void pressed(HostNanos now) {
        script.pressed(seconds(now), meter.turns());
        writeNotes();
    }

    private byte[] wallTime() {
        return WallTime.of(wallClock).json();
    }

    /** Writes a chunk down, then makes of it what a replay will. */
    private void keep(Chunk chunk) {
        writer.append(chunk);
        if (!fault.isEmpty()) {
            return;
        }
        try {
            meter.told(chunk);
            listener.told(chunk);
            pipeline.accept(chunk);
        } catch (RuntimeException e) {
            // Bytes are worth more than what is made of them here: recording goes on.
            fault =
                    "level and speed cannot be shown any more, a mistake of this program ("
                            + e
                            + "); the recording goes on";
            lines.derivedNoMore();
        }
    }

    private void derived(AlignedBlock block) {
        meter.accept(block);
        flowing |= block instanceof SampleRun;
        listener.block(block);
    }

    private void note(RecordingNote note) {
        keep(new Chunk(Chunk.Kind.NOTE, 0, now(), note.json()));
    }

    private void writeNotes() {
        script.takeDue().forEach(this::note);
    }

    /** Commands go out one at a time, the last ones too. */
    private void hearAnswers() throws InterruptedException {
        while (lines.awaitAnswer()) {
            keepIfAny(lines.next(IDLE_S));
        }
    }

    private void keepIfAny(Chunk chunk) {
        if (chunk != null) {
            keep(chunk);
        }
    }

    /** Takes what the readers had already read, and what answers the farewell. */
    private void listenOn() throws InterruptedException {
        long until = System.nanoTime() + FAREWELL_NS;
        for (long left = FAREWELL_NS; left > 0; left = until - System.nanoTime()) {
            keepIfAny(lines.next(left / 1e9));
        }
    }

    private void publish(HostNanos now, boolean finished, String failure) {
        int current = script.current();
        status.set(
                new RecordStatus(
                        seconds(now),
                        writer.fileBytes(),
                        now.secondsAfter(latestAt) > STALE_S ? null : latest,
                        lines.status(now, fault),
                        current,
                        plan.captures().size(),
                        script.running(),
                        script.lengthSoFarS(seconds(now)),
                        script.point(),
                        meter.turns(),
                        finished,
                        failure));
    }

    /**
     * Returns how the recording stands. Any thread.
     *
     * @return the latest snapshot
     */
    @Override
    public RecordStatus status() {
        return status.get();
    }

    /**
     * Says what the next press captures, in a recording whose plan is open; what was aimed at
     * before counts no more. Any thread.
     *
     * @param next what and where
     */
    @Override
    public void aim(PlannedCapture next) {
        if (!plan.openEnd()) {
            throw new IllegalStateException(
                    "openEnd=false, need a plan without captures, by press");
        }
        aimed.set(Objects.requireNonNull(next, "next"));
    }

    /** Presses the button that begins and ends captures. Any thread. */
    @Override
    public void press() {
        keys.press(now());
    }

    /** Asks for the end. Returns at once; {@link #close} waits. Any thread. */
    public void stop() {
        stopping = true;
    }

    /**
     * Waits for the end.
     *
     * @param waitS longest wait, s
     * @return true if the recording has ended
     * @throws InterruptedException if the waiting thread is interrupted; recording goes on
     */
    public boolean await(double waitS) throws InterruptedException {
        keeper.join(Math.max(1, Math.round(1000 * waitS)));
        return !keeper.isAlive();
    }

    /** Ends the recording and closes its file. */
    @Override
    public void close() {
        stop();
        boolean interrupted = Thread.interrupted();
        try {
            keeper.join(JOIN_MS);
            lines.join(JOIN_MS);
            if (keeper.isAlive()) {
                status.set(status.get().failed("the recording does not end; its file may be cut"));
            }
        } catch (InterruptedException e) {
            interrupted = true;
        }
        if (interrupted) {
            Thread.currentThread().interrupt();
        }
    }
}

package tickover.session;

import com.google.gson.JsonObject;
import java.nio.charset.StandardCharsets;
import java.time.Clock;
import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import java.util.UUID;
import java.util.concurrent.ArrayBlockingQueue;
import java.util.concurrent.BlockingQueue;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.atomic.AtomicReference;
import java.util.function.Consumer;
import tickover.align.AlignedBlock;
import tickover.align.ButtonPress;
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
public final class Recorder implements AutoCloseable {
    /** Chunks that wait for the keeper; a reader that finds it full waits, and nothing is lost. */
    private static final int WAITING = 4096;

    private static final long IDLE_MS = 10;

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
    private final Consumer<AlignedBlock> listener;
    private final BlockingQueue<Chunk> arrived = new ArrayBlockingQueue<>(WAITING);
    private final AtomicReference<RecordStatus> status = new AtomicReference<>();
    private final List<LineReader> readers = new ArrayList<>();
    private final List<LineKeeper> lines = new ArrayList<>();
    private final CaptureScript script;
    private final StreamPipeline pipeline;
    private final LiveMeter meter;
    private final RecordingWriter writer;
    private final Thread keeper;
    private final long originNanos = System.nanoTime();
    private volatile boolean stopping;
    private volatile boolean keyPressed;
    private LiveReading latest;
    private boolean buttonPressed;
    private boolean flowing;
    private String fault = "";
    private double finishedS = -1;
    private double nextStatusS;
    private double nextWallTimeS;

    /** Opens the lines first: a wrong port is then an error that leaves no file behind. */
    private Recorder(
            RecordPlan plan,
            List<RecordLine> from,
            Clock wallClock,
            Consumer<AlignedBlock> listener) {
        this.plan = Objects.requireNonNull(plan, "plan");
        this.wallClock = Objects.requireNonNull(wallClock, "wallClock");
        this.listener = Objects.requireNonNull(listener, "listener");
        this.script =
                new CaptureScript(
                        plan.captures(),
                        new CaptureScript.Rule(
                                plan.byPress(), plan.captureLengthS(), plan.captureTurns()));
        this.meter = new LiveMeter(r -> latest = r);
        this.meter.marks(plan.pulsesPerTurn());
        this.pipeline = new StreamPipeline(this::derived);
        this.keeper = new Thread(this::keep, "tickover-keeper");
        for (int i = 0; i < from.size(); i++) {
            RecordLine line = from.get(i);
            lines.add(new LineKeeper(i, line.info(), pipeline));
            readers.add(new LineReader(i, line, arrived, this::now));
        }
        try {
            readers.forEach(LineReader::openFirst);
            this.writer =
                    RecordingWriter.create(
                            plan.file(),
                            new RecordingHeader(UUID.randomUUID(), now(), wallClock.instant()));
        } catch (LinkException e) {
            readers.forEach(LineReader::stop);
            throw e;
        }
    }

    /**
     * Starts recording.
     *
     * @param plan what to record
     * @param lines from where, at least one
     * @param wallClock the time of day
     * @param listener hears every aligned block, on the keeper's thread; must be quick
     * @return the running recorder
     * @throws AcquisitionException if a line cannot be opened or the file cannot be made; nothing
     *     is left behind then
     */
    public static Recorder start(
            RecordPlan plan,
            List<RecordLine> lines,
            Clock wallClock,
            Consumer<AlignedBlock> listener) {
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
            for (LineKeeper line : lines) {
                keep(new Chunk(Chunk.Kind.SOURCE, line.source(), now(), line.info().json()));
            }
            note(RecordingNote.tach(plan.tachPulley(), plan.pulsesPerTurn()));
            if (!plan.vehicleToml().isEmpty()) {
                note(RecordingNote.vehicle(plan.vehicleToml()));
            }
        } catch (LinkException e) {
            readers.forEach(LineReader::stop);
            writer.close();
            throw e;
        }
        lines.forEach(line -> line.opened(now()));
        publish(now(), false, "");
        readers.forEach(LineReader::start);
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
            sayFarewell();
            listenOn();
            if (fault.isEmpty()) {
                pipeline.end();
            }
        } catch (LinkException e) {
            failure = e.getMessage();
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
            failure = "the recording was interrupted";
        } catch (RuntimeException | OutOfMemoryError e) {
            // The outermost loop of this thread: what it does not tell, nobody hears of.
            failure = "the recording ended by a mistake of this program (" + e + ")";
        } finally {
            readers.forEach(LineReader::stop);
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
        Chunk chunk = arrived.poll(IDLE_MS, TimeUnit.MILLISECONDS);
        // Bounded, so that a line that is faster than this thread cannot keep it from the rest.
        for (int taken = 0; chunk != null; taken++) {
            take(chunk);
            chunk = taken < AT_ONCE ? arrived.poll() : null;
        }
        HostNanos now = now();
        double turns = meter.turns();
        if (flowing) {
            script.flowing(seconds(now), turns);
        }
        if (keyPressed || buttonPressed) {
            keyPressed = false;
            buttonPressed = false;
            script.pressed(seconds(now), turns);
        }
        script.reached(seconds(now), turns);
        writeNotes();
        talk();
        if (seconds(now) >= nextWallTimeS) {
            nextWallTimeS = seconds(now) + WALL_TIME_EVERY_S;
            keep(new Chunk(Chunk.Kind.WALL_TIME, 0, now(), wallTime()));
        }
        writer.forceIfDue(now);
        if (seconds(now) >= nextStatusS) {
            nextStatusS = seconds(now) + STATUS_EVERY_S;
            publish(now, false, "");
        }
    }

    private void take(Chunk chunk) {
        keep(chunk);
        lines.get(chunk.source()).heard(chunk);
    }

    private byte[] wallTime() {
        JsonObject o = new JsonObject();
        o.addProperty("utc", wallClock.instant().toString());
        return o.toString().getBytes(StandardCharsets.UTF_8);
    }

    /** Writes a chunk down, then makes of it what a replay will. */
    private void keep(Chunk chunk) {
        writer.append(chunk);
        if (!fault.isEmpty()) {
            return;
        }
        try {
            pipeline.accept(chunk);
        } catch (RuntimeException e) {
            // Bytes are worth more than what is made of them here: recording goes on.
            fault =
                    "level and speed cannot be shown any more, a mistake of this program ("
                            + e
                            + "); the recording goes on";
        }
    }

    private void derived(AlignedBlock block) {
        meter.accept(block);
        flowing |= block instanceof SampleRun;
        buttonPressed |= block instanceof ButtonPress;
        listener.accept(block);
    }

    private void note(RecordingNote note) {
        keep(new Chunk(Chunk.Kind.NOTE, 0, now(), note.json()));
    }

    private void writeNotes() {
        script.takeDue().forEach(this::note);
    }

    private void talk() {
        for (LineReader reader : readers) {
            if (reader.connected()) {
                send(reader, lines.get(reader.source()).due(now()));
            }
        }
    }

    private void sayFarewell() {
        for (LineReader reader : readers) {
            if (reader.connected()) {
                send(reader, lines.get(reader.source()).farewell());
            }
        }
    }

    private void send(LineReader reader, List<byte[]> messages) {
        for (byte[] bytes : messages) {
            if (!reader.takesMessages()) {
                return;
            }
            // Written down first: the time has to be before the bytes can arrive.
            keep(new Chunk(Chunk.Kind.OUT, reader.source(), now(), bytes));
            reader.send(bytes);
        }
    }

    /** Takes what the readers had already read, and what answers the farewell. */
    private void listenOn() throws InterruptedException {
        long until = System.nanoTime() + FAREWELL_NS;
        for (long left = FAREWELL_NS; left > 0; left = until - System.nanoTime()) {
            Chunk chunk = arrived.poll(left, TimeUnit.NANOSECONDS);
            if (chunk != null) {
                keep(chunk);
            }
        }
    }

    private void publish(HostNanos now, boolean finished, String failure) {
        List<RecordStatus.LineStatus> of = new ArrayList<>();
        for (LineReader reader : readers) {
            of.add(lines.get(reader.source()).status(reader.connected(), now, fault));
        }
        int current = script.current();
        boolean more = current <= plan.captures().size();
        status.set(
                new RecordStatus(
                        seconds(now),
                        writer.fileBytes(),
                        latest,
                        of,
                        current,
                        plan.captures().size(),
                        script.running(),
                        script.lengthSoFarS(seconds(now)),
                        more ? plan.captures().get(current - 1).point() : "",
                        meter.turns(),
                        finished,
                        failure));
    }

    /**
     * Returns how the recording stands. Any thread.
     *
     * @return the latest snapshot
     */
    public RecordStatus status() {
        return status.get();
    }

    /** Presses the button that begins and ends captures. Any thread. */
    public void press() {
        keyPressed = true;
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
            for (LineReader reader : readers) {
                reader.join(JOIN_MS);
            }
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

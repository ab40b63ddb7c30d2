package tickover.session;

import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import java.util.concurrent.atomic.AtomicReference;
import tickover.align.AlignedBlock;
import tickover.drive.Vehicle;
import tickover.link.Chunk;
import tickover.link.ChunkSink;
import tickover.link.LinkException;
import tickover.link.RecordingHeader;
import tickover.link.RecordingReader;
import tickover.link.RecordingWriter;
import tickover.store.VisitFolder;
import tickover.store.VisitFolderException;
import tickover.unit.HostNanos;

/**
 * A recording that runs again: its chunks come at the pace at which they came, or at a multiple of
 * it, and the same things are derived from them in the same way. Its captures begin and end where
 * they did.
 *
 * <p>What has run so far is written down beside it as it goes, so that captures can be looked at as
 * soon as they are over, as while recording. The recording itself is only read.
 */
final class Replay implements StreamRun {
    private static final double STATUS_EVERY_S = 0.1;
    private static final double RATE_OVER_S = 1;
    private static final long STEP_NS = 5_000_000;
    private static final long JOIN_MS = 5000;
    private static final double STALE_S = 4;

    private final Facts facts;
    private final StreamListener listener;
    private final StreamPipeline pipeline = new StreamPipeline(this::derived);
    private final LiveMeter meter;
    private final RecordingWriter writer;
    private final Thread player;
    private final AtomicReference<RecordStatus> status = new AtomicReference<>();
    private volatile double pace;
    private volatile boolean stopping;
    private HostNanos begun;
    private HostNanos chunkAt;
    private double dueNs;
    private LiveReading latest;
    private HostNanos latestAt;
    private int captures;
    private boolean capturing;
    private HostNanos capturingSince;
    private long bytes;
    private long bytesAtRate;
    private double rateAtS;
    private double bytesPerS;
    private double nextStatusS;
    private long damagedBytes;

    /**
     * What a recording is of.
     *
     * @param vehicle whose engine; none for a bench, or where it is not said
     * @param captures what was captured, in order
     */
    record Facts(List<Vehicle> vehicle, List<PlannedCapture> captures) {
        Facts {
            vehicle = List.copyOf(vehicle);
            captures = List.copyOf(captures);
        }

        /**
         * Reads a recording through once.
         *
         * @throws AcquisitionException if it is no recording
         */
        static Facts of(Path recording) {
            return AcquisitionException.guard(
                    () -> {
                        List<Vehicle> vehicle = new ArrayList<>();
                        List<PlannedCapture> captures = new ArrayList<>();
                        RecordingReader.open(recording).forEach(new Notes(vehicle, captures));
                        return new Facts(vehicle, captures);
                    });
        }
    }

    private record Notes(List<Vehicle> vehicle, List<PlannedCapture> captures)
            implements ChunkSink {
        @Override
        public void chunk(Chunk chunk) {
            if (chunk.kind() == Chunk.Kind.NOTE) {
                RecordingNote.parse(chunk.bytes()).ifPresent(this::note);
            }
        }

        private void note(RecordingNote note) {
            if (note.kind() == RecordingNote.Kind.BEGIN) {
                captures.add(note.capture());
            } else if (note.kind() == RecordingNote.Kind.VEHICLE) {
                try {
                    vehicle.clear();
                    vehicle.add(VisitFolder.vehicleOf(note.vehicleToml()));
                } catch (VisitFolderException e) {
                    // A description that cannot be read is none: the signal can be shown all the
                    // same.
                    vehicle.clear();
                }
            }
        }

        @Override
        public void damaged(long offset, long bytes, HostNanos lastGood) {}
    }

    /** Somebody does not want to hear the rest. */
    private static final class Stopped extends RuntimeException {
        private static final long serialVersionUID = 1L;
    }

    private Replay(Path recording, Facts facts, Path soFar, double pace, StreamListener listener) {
        this.facts = facts;
        this.pace = pace;
        this.listener = Objects.requireNonNull(listener, "listener");
        this.meter = new LiveMeter(this::read);
        RecordingReader reader = RecordingReader.open(recording);
        RecordingStart start = RecordingStart.of(recording, reader);
        this.begun = start.at();
        this.chunkAt = begun;
        this.latestAt = begun;
        this.writer =
                RecordingWriter.create(
                        soFar, new RecordingHeader(start.id(), start.at(), start.wall()));
        this.player = new Thread(() -> play(reader), "tickover-replay");
        this.player.setDaemon(true);
    }

    /**
     * Lets a recording run.
     *
     * @param recording the recording
     * @param soFar where what has run so far is written; must not exist
     * @param pace how many times as fast as it was
     * @param listener hears all of the stream; must be quick
     * @return the running recording
     * @throws AcquisitionException if it is no recording
     */
    static Replay begin(Path recording, Path soFar, double pace, StreamListener listener) {
        requirePace(pace);
        Facts facts = Facts.of(recording);
        return AcquisitionException.guard(
                () -> {
                    Replay replay = new Replay(recording, facts, soFar, pace, listener);
                    replay.dueNs = System.nanoTime();
                    replay.publish(false, "");
                    replay.player.start();
                    return replay;
                });
    }

    private static void requirePace(double pace) {
        if (!(pace > 0 && Double.isFinite(pace))) {
            throw new IllegalArgumentException("pace=" + pace + ", need > 0");
        }
    }

    /** Goes on faster or slower. Any thread. */
    void pace(double times) {
        requirePace(times);
        pace = times;
    }

    /** What was captured, in order. */
    List<PlannedCapture> captures() {
        return facts.captures();
    }

    private void play(RecordingReader reader) {
        String failure = "";
        try {
            reader.forEach(
                    new ChunkSink() {
                        @Override
                        public void chunk(Chunk chunk) {
                            awaitTurn(chunk.at());
                            take(chunk);
                        }

                        @Override
                        public void damaged(long offset, long count, HostNanos lastGood) {
                            damagedBytes += count;
                            broken(lastGood);
                        }
                    });
            pipeline.end();
        } catch (Stopped e) {
            failure = "";
        } catch (LinkException e) {
            failure = e.getMessage();
        } catch (RuntimeException | OutOfMemoryError e) {
            // The outermost loop of this thread: what it does not tell, nobody hears of.
            failure = "the recording cannot be run on, a mistake of this program (" + e + ")";
        } finally {
            try {
                writer.close();
            } catch (LinkException e) {
                failure = failure.isEmpty() ? e.getMessage() : failure;
            }
            capturing = false;
            publish(true, failure);
        }
    }

    /** Sleeps until it is a chunk's turn; a pace that changes meanwhile counts at once. */
    private void awaitTurn(HostNanos at) {
        double leftS = Math.max(0, at.secondsAfter(chunkAt));
        while (leftS > 0 && !stopping) {
            double now = pace;
            double stepS = Math.min(leftS, now * STEP_NS / 1e9);
            dueNs += 1e9 * stepS / now;
            leftS -= stepS;
            long waitNs = (long) dueNs - System.nanoTime();
            if (waitNs > 0) {
                try {
                    Thread.sleep(waitNs / 1_000_000, (int) (waitNs % 1_000_000));
                } catch (InterruptedException e) {
                    Thread.currentThread().interrupt();
                    throw new Stopped();
                }
            }
        }
        if (stopping) {
            throw new Stopped();
        }
    }

    private void take(Chunk chunk) {
        if (chunk.at().compareTo(chunkAt) > 0) {
            chunkAt = chunk.at();
        }
        if (chunk.kind() != Chunk.Kind.END) {
            writer.append(chunk);
        }
        if (chunk.kind() == Chunk.Kind.IN) {
            bytes += chunk.bytes().length;
        }
        meter.told(chunk);
        listener.told(chunk);
        pipeline.accept(chunk);
        if (chunk.kind() == Chunk.Kind.NOTE) {
            RecordingNote.parse(chunk.bytes()).ifPresent(this::note);
        } else if (elapsedS() >= nextStatusS) {
            nextStatusS = elapsedS() + STATUS_EVERY_S;
            publish(false, "");
        }
    }

    private void note(RecordingNote note) {
        if (note.kind() == RecordingNote.Kind.BEGIN) {
            captures = note.number();
            capturing = true;
            capturingSince = chunkAt;
            publish(false, "");
        } else if (note.kind() == RecordingNote.Kind.END) {
            capturing = false;
            publish(false, "");
        }
    }

    /** Nothing may be joined across what is damaged, in what is written down either. */
    private void broken(HostNanos lastGood) {
        pipeline.damaged(lastGood);
        for (int source = 0; source < pipeline.states().size(); source++) {
            byte[] lost =
                    ("{\"event\":\"" + LineReader.LOST + "\"}").getBytes(StandardCharsets.UTF_8);
            writer.append(new Chunk(Chunk.Kind.EVENT, source, lastGood, lost));
        }
    }

    private void derived(AlignedBlock block) {
        meter.accept(block);
        listener.block(block);
    }

    private void read(LiveReading reading) {
        latest = reading;
        latestAt = chunkAt;
    }

    private double elapsedS() {
        return chunkAt.secondsAfter(begun);
    }

    private void publish(boolean finished, String failure) {
        double sinceS = elapsedS() - rateAtS;
        if (sinceS >= RATE_OVER_S) {
            bytesPerS = (bytes - bytesAtRate) / sinceS;
            bytesAtRate = bytes;
            rateAtS = elapsedS();
        }
        int current = capturing ? captures : captures + 1;
        int at = current - 1;
        status.set(
                new RecordStatus(
                        elapsedS(),
                        writer.fileBytes(),
                        chunkAt.secondsAfter(latestAt) > STALE_S ? null : latest,
                        lines(finished),
                        current,
                        facts.captures().size(),
                        capturing,
                        capturing ? chunkAt.secondsAfter(capturingSince) : 0,
                        at < facts.captures().size() ? facts.captures().get(at).point() : "",
                        meter.turns(),
                        finished,
                        failure));
    }

    private List<RecordStatus.LineStatus> lines(boolean finished) {
        String damage =
                damagedBytes > 0 ? damagedBytes + " bytes of the recording are damaged." : "";
        List<RecordStatus.LineStatus> all = new ArrayList<>();
        for (SourceState state : pipeline.states()) {
            all.add(
                    new RecordStatus.LineStatus(
                            state.info(),
                            state.name(),
                            !finished,
                            bytes,
                            bytesPerS,
                            state.rejectedBytes(),
                            state.lostSamples(),
                            state.frames(),
                            state.problem().isEmpty() ? damage : state.problem()));
        }
        return all;
    }

    @Override
    public RecordStatus status() {
        return status.get();
    }

    /** What is captured was decided when it was recorded. */
    @Override
    public void aim(PlannedCapture next) {
        Objects.requireNonNull(next, "next");
    }

    /** A recording presses by itself. */
    @Override
    public void press() {}

    @Override
    public void close() {
        stopping = true;
        boolean interrupted = Thread.interrupted();
        try {
            player.join(JOIN_MS);
        } catch (InterruptedException e) {
            interrupted = true;
        }
        if (interrupted) {
            Thread.currentThread().interrupt();
        }
    }
}

package tickover.session;

import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.ArrayBlockingQueue;
import java.util.concurrent.BlockingQueue;
import java.util.concurrent.TimeUnit;
import java.util.function.Consumer;
import java.util.function.Supplier;
import tickover.link.Chunk;
import tickover.unit.HostNanos;

/**
 * The lines of one recording: a reader for each, what arrived from all of them in one queue, and
 * the talk with the devices. Used by one thread, the readers' own apart.
 */
final class RecordedLines {
    /** Chunks that wait for the keeper; a reader that finds it full waits, and nothing is lost. */
    private static final int WAITING = 4096;

    private final BlockingQueue<Chunk> arrived = new ArrayBlockingQueue<>(WAITING);
    private final List<LineReader> readers = new ArrayList<>();
    private final List<LineKeeper> keepers = new ArrayList<>();
    private final Supplier<HostNanos> clock;

    RecordedLines(List<RecordLine> from, StreamPipeline pipeline, Supplier<HostNanos> clock) {
        this.clock = clock;
        for (int i = 0; i < from.size(); i++) {
            RecordLine line = from.get(i);
            keepers.add(new LineKeeper(i, line.info(), pipeline));
            readers.add(new LineReader(i, line, arrived, clock));
        }
    }

    /**
     * @throws tickover.link.LinkException if one cannot be opened
     */
    void openFirst() {
        readers.forEach(LineReader::openFirst);
    }

    /** What stands in the recording before the first byte. */
    List<Chunk> descriptions() {
        return keepers.stream()
                .map(k -> new Chunk(Chunk.Kind.SOURCE, k.source(), clock.get(), k.info().json()))
                .toList();
    }

    void start() {
        keepers.forEach(k -> k.opened(clock.get()));
        readers.forEach(LineReader::start);
    }

    void stop() {
        readers.forEach(LineReader::stop);
    }

    void join(long waitMs) throws InterruptedException {
        for (LineReader reader : readers) {
            reader.join(waitMs);
        }
    }

    /** The next chunk; null if none comes within so many s, or before a device is due a command. */
    Chunk next(double atMostS) throws InterruptedException {
        double waitS = atMostS;
        for (LineReader reader : readers) {
            if (reader.takesMessages()) {
                waitS = Math.min(waitS, keeper(reader).untilDueS(clock.get()));
            }
        }
        return arrived.poll(Math.round(1e9 * waitS), TimeUnit.NANOSECONDS);
    }

    /** The next chunk, if one has arrived; else null. */
    Chunk next() {
        return arrived.poll();
    }

    private LineKeeper keeper(LineReader reader) {
        return keepers.get(reader.source());
    }

    void heard(Chunk chunk) {
        keepers.get(chunk.source()).heard(chunk);
    }

    /** Takes one press of the button of the device that was heard, if one waits. */
    boolean pressed(Chunk heard) {
        return keepers.get(heard.source()).pressed();
    }

    /** Nothing is made of the bytes any more. */
    void derivedNoMore() {
        keepers.forEach(LineKeeper::derivedNoMore);
    }

    /** Says to each device what is due; {@code keep} writes it down. */
    void talk(Consumer<Chunk> keep) {
        for (LineReader reader : readers) {
            if (reader.connected()) {
                send(reader, keeper(reader).due(clock.get()), keep);
            }
        }
    }

    /** Whether a device owes an answer before it may be told the next thing. */
    boolean awaitAnswer() {
        return readers.stream().anyMatch(r -> r.connected() && keeper(r).awaits(clock.get()));
    }

    void sayFarewell(Consumer<Chunk> keep) {
        for (LineReader reader : readers) {
            if (reader.connected()) {
                send(reader, keeper(reader).farewell(), keep);
            }
        }
    }

    private void send(LineReader reader, List<byte[]> messages, Consumer<Chunk> keep) {
        for (byte[] bytes : messages) {
            if (!reader.takesMessages()) {
                return;
            }
            // Written down first: the time has to be before the bytes can arrive.
            keep.accept(new Chunk(Chunk.Kind.OUT, reader.source(), clock.get(), bytes));
            reader.send(bytes);
        }
    }

    List<RecordStatus.LineStatus> status(HostNanos now, String fault) {
        return readers.stream().map(r -> keeper(r).status(r.connected(), now, fault)).toList();
    }
}

package tickover.session;

import com.google.gson.JsonObject;
import java.nio.charset.StandardCharsets;
import java.util.Arrays;
import java.util.concurrent.ArrayBlockingQueue;
import java.util.concurrent.BlockingQueue;
import java.util.concurrent.CountDownLatch;
import java.util.concurrent.TimeUnit;
import java.util.function.Supplier;
import tickover.link.ByteLink;
import tickover.link.Chunk;
import tickover.unit.HostNanos;

/** Reads one line on a thread of its own, and opens it again whenever it was lost. */
final class LineReader {
    /** What stands in a recording when a line was lost, and when it came back. */
    static final String LOST = "lost";

    static final String BACK = "back";

    private static final int BUFFER_BYTES = 65_536;
    private static final long RETRY_MS = 500;

    /** Commands and pings that may wait to be sent. */
    private static final int MESSAGES = 16;

    private final int source;
    private final RecordLine line;
    private final BlockingQueue<Chunk> arrived;
    private final Supplier<HostNanos> clock;
    private final CountDownLatch stopped = new CountDownLatch(1);
    private final Thread thread;
    private final Thread sender;
    private final BlockingQueue<byte[]> toSend = new ArrayBlockingQueue<>(MESSAGES);
    private volatile ByteLink link;

    LineReader(
            int source, RecordLine line, BlockingQueue<Chunk> arrived, Supplier<HostNanos> clock) {
        this.source = source;
        this.line = line;
        this.arrived = arrived;
        this.clock = clock;
        this.thread = new Thread(this::run, "tickover-line-" + source);
        this.thread.setDaemon(true);
        this.sender = new Thread(this::sendAll, "tickover-send-" + source);
        this.sender.setDaemon(true);
    }

    int source() {
        return source;
    }

    boolean connected() {
        return link != null;
    }

    void openFirst() {
        link = line.open().get();
    }

    void start() {
        thread.start();
        sender.start();
    }

    private boolean running() {
        return stopped.getCount() > 0;
    }

    private void run() {
        byte[] buffer = new byte[BUFFER_BYTES];
        try {
            while (running()) {
                ByteLink open = link;
                if (open == null) {
                    reopen();
                } else {
                    read(open, buffer);
                }
            }
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
        } finally {
            closeLink();
        }
    }

    private void read(ByteLink open, byte[] buffer) throws InterruptedException {
        int count;
        try {
            count = open.read(buffer);
        } catch (RuntimeException e) {
            // Whatever the port's library throws, the line is lost and will be tried again.
            closeLink();
            if (running()) {
                hand(event(LOST, String.valueOf(e.getMessage())));
            }
            return;
        }
        if (count > 0) {
            // The time is taken after the read: the last byte was there by then.
            HostNanos at = clock.get();
            hand(new Chunk(Chunk.Kind.IN, source, at, Arrays.copyOf(buffer, count)));
        }
    }

    /** Waits while the keeper is behind, but not for one that is gone. */
    private void hand(Chunk chunk) throws InterruptedException {
        while (!arrived.offer(chunk, RETRY_MS, TimeUnit.MILLISECONDS)) {
            if (!running()) {
                return;
            }
        }
    }

    private void reopen() throws InterruptedException {
        if (stopped.await(RETRY_MS, TimeUnit.MILLISECONDS)) {
            return;
        }
        try {
            ByteLink again = line.open().get();
            hand(event(BACK, again.name()));
            // What the lost one did not take is not meant for a device that has just begun.
            toSend.clear();
            link = again;
        } catch (RuntimeException stillGone) {
            // Tried again until it is back or the recording ends; the status says that it is gone.
        }
    }

    private Chunk event(String word, String text) {
        JsonObject o = new JsonObject();
        o.addProperty("event", word);
        o.addProperty("text", text);
        return new Chunk(
                Chunk.Kind.EVENT,
                source,
                clock.get(),
                o.toString().getBytes(StandardCharsets.UTF_8));
    }

    /**
     * Hands bytes to the thread that sends them. A device that takes none must not hold up the
     * recording: beyond a few messages the rest is dropped, as it would be on the device's side.
     */
    void send(byte[] bytes) {
        if (takesMessages()) {
            toSend.add(bytes);
        }
    }

    /** Whether a message handed over now would be sent. Asked by the thread that sends. */
    boolean takesMessages() {
        return connected() && toSend.remainingCapacity() > 0;
    }

    private void sendAll() {
        try {
            while (running()) {
                byte[] bytes = toSend.poll(RETRY_MS, TimeUnit.MILLISECONDS);
                ByteLink open = link;
                if (bytes != null && open != null) {
                    sendTo(open, bytes);
                }
            }
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
        }
    }

    private static void sendTo(ByteLink open, byte[] bytes) {
        try {
            open.write(bytes);
        } catch (RuntimeException e) {
            // Reading fails as well, and that is where a loss is marked and mended.
        }
    }

    private void closeLink() {
        ByteLink open = link;
        link = null;
        if (open != null) {
            open.close();
        }
    }

    void stop() {
        stopped.countDown();
        if (!thread.isAlive()) {
            closeLink();
        }
    }

    void join(long waitMs) throws InterruptedException {
        if (thread.isAlive()) {
            thread.join(waitMs);
        }
    }
}

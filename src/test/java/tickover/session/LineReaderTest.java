package tickover.session;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.charset.StandardCharsets;
import java.util.ArrayDeque;
import java.util.Deque;
import java.util.List;
import java.util.concurrent.ArrayBlockingQueue;
import java.util.concurrent.BlockingQueue;
import java.util.concurrent.CountDownLatch;
import java.util.concurrent.LinkedBlockingQueue;
import java.util.concurrent.TimeUnit;
import org.junit.jupiter.api.Test;
import tickover.link.ByteLink;
import tickover.link.Chunk;
import tickover.link.LinkException;
import tickover.session.SourceInfo.Language;
import tickover.session.SourceInfo.Role;
import tickover.unit.HostNanos;

class LineReaderTest {
    private static final long PATIENCE_S = 20;

    /** A device that is there until it is unplugged. */
    private static final class Device implements ByteLink {
        private final boolean takesBytes;
        private final CountDownLatch unplugged = new CountDownLatch(1);
        final CountDownLatch written = new CountDownLatch(1);
        final CountDownLatch released = new CountDownLatch(1);
        final BlockingQueue<String> heard = new LinkedBlockingQueue<>();

        Device(boolean takesBytes) {
            this.takesBytes = takesBytes;
        }

        @Override
        public String name() {
            return "device";
        }

        @Override
        public int read(byte[] into) {
            try {
                if (!unplugged.await(20, TimeUnit.MILLISECONDS)) {
                    return 0;
                }
            } catch (InterruptedException e) {
                Thread.currentThread().interrupt();
            }
            throw new LinkException(LinkException.Reason.GONE, "device is gone", null);
        }

        @Override
        public void write(byte[] bytes) {
            written.countDown();
            if (takesBytes) {
                heard.add(new String(bytes, StandardCharsets.US_ASCII));
                return;
            }
            try {
                released.await();
            } catch (InterruptedException e) {
                Thread.currentThread().interrupt();
            }
            throw new LinkException(LinkException.Reason.GONE, "device was closed", null);
        }

        /** Some drivers let a write hang even then. */
        @Override
        public void close() {}
    }

    private static byte[] message(String text) {
        return text.getBytes(StandardCharsets.US_ASCII);
    }

    @Test
    void whatALostDeviceDidNotTakeIsNotSentToTheOneThatComesBack() throws InterruptedException {
        Device hangs = new Device(false);
        Device back = new Device(true);
        Deque<ByteLink> devices = new ArrayDeque<>(List.of(hangs, back));
        BlockingQueue<Chunk> arrived = new ArrayBlockingQueue<>(16);
        LineReader reader =
                new LineReader(
                        0,
                        new RecordLine(
                                SourceInfo.of(Role.PROBE, Language.FRAMES, "device", 9600, ""),
                                devices::remove),
                        arrived,
                        () -> new HostNanos(System.nanoTime()));
        reader.openFirst();
        reader.start();
        reader.send(message("first"));
        assertTrue(hangs.written.await(PATIENCE_S, TimeUnit.SECONDS), "the first is being sent");
        for (int i = 0; i < 15; i++) {
            reader.send(message("old " + i));
        }
        hangs.unplugged.countDown();
        assertEquals(Chunk.Kind.EVENT, arrived.poll(PATIENCE_S, TimeUnit.SECONDS).kind());
        assertEquals(Chunk.Kind.EVENT, arrived.poll(PATIENCE_S, TimeUnit.SECONDS).kind());
        while (!reader.connected()) {
            Thread.sleep(1);
        }
        hangs.released.countDown();
        reader.send(message("new"));
        assertEquals("new", back.heard.poll(PATIENCE_S, TimeUnit.SECONDS));
        reader.stop();
        reader.join(1000 * PATIENCE_S);
    }
}

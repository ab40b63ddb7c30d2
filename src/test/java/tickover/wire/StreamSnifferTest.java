package tickover.wire;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.nio.charset.StandardCharsets;
import java.util.SplittableRandom;
import org.junit.jupiter.api.Test;
import tickover.wire.StreamSniffer.Verdict;

class StreamSnifferTest {
    private static Verdict of(byte[] bytes) {
        return new StreamSniffer().feed(bytes, 0, bytes.length);
    }

    private static Verdict of(String text) {
        return of(text.getBytes(StandardCharsets.UTF_8));
    }

    @Test
    void knowsAProbeByOneSoundFrameEvenAfterRubbish() {
        assertEquals(Verdict.PROBE, of(WireStreams.probe(1, 1)));
        byte[] hello = new FrameWriter().hello(WireStreams.HELLO).take();
        byte[] late = new byte[300 + hello.length];
        new SplittableRandom(41).nextBytes(late);
        late[299] = 0;
        System.arraycopy(hello, 0, late, 300, hello.length);
        assertEquals(Verdict.PROBE, of(late));
    }

    @Test
    void doesNotTakeItsOwnEchoForAProbe() {
        assertEquals(Verdict.UNKNOWN, of(new FrameWriter().separator().identify().take()));
    }

    @Test
    void knowsTextWithAndWithoutAHeader() {
        assertEquals(Verdict.UNKNOWN, of("t_us,ax\n"));
        assertEquals(Verdict.TEXT_PROBE, of("t_us,ax\n1,2\n"));
        assertEquals(Verdict.TEXT_WITHOUT_HEADER, of("3,4\n12,3,4\n13,3,4\n14,3,4\n"));
        assertEquals(Verdict.UNKNOWN, of("3,4\n12,3,4\n13,3\n14,3,4\n"));
    }

    @Test
    void knowsAnAdapterByItsPrompt() {
        assertEquals(Verdict.ADAPTER, of("\r>"));
        assertEquals(Verdict.ADAPTER, of("?\r\n\r\n>"));
        assertEquals(Verdict.UNKNOWN, of("a > b\r"));
        assertEquals(Verdict.UNKNOWN, of("<html>\r\n"));
    }

    @Test
    void noiseStaysUnknown() {
        byte[] noise = new byte[20_000];
        for (int seed = 0; seed < 200; seed++) {
            new SplittableRandom(seed).nextBytes(noise);
            assertEquals(Verdict.UNKNOWN, of(noise));
        }
    }
}

package tickover.wire;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import org.junit.jupiter.api.Test;

class FrameDecoderTest {
    private final FrameDecoder decoder = new FrameDecoder();
    private final HeardFrames heard = new HeardFrames();

    private void feed(byte[] bytes) {
        decoder.feed(bytes, 0, bytes.length, heard);
    }

    @Test
    void readsEveryKindOfFrameAsItWasWritten() {
        feed(WireStreams.everyKind());
        assertEquals(
                List.of(
                        WireStreams.HELLO.toString(),
                        "samples 0 @0 16 limit 0,-1,32767 -32768,256,1",
                        "samples 4294967295 @4294967294 24 0,-1 8388607,-8388608 65536,256",
                        "samples 0 @0 24 -1 8388607 -8388608 65536 256",
                        "tach 65535 missed 255 0 1 4294967295",
                        "ButtonEvent[tick=77, button=0, down=true, presses=9]",
                        new ProbeStatus(5, 6, 7, -32768, 65535).toString(),
                        "Pong[id=4294967295, receivedTick=2, sentTick=3]",
                        "CommandAnswer[command=67, result=0]",
                        "unknown 51 3"),
                heard.lines);
        long all = WireStreams.everyKind().length;
        assertEquals(new ByteTally(all, all, 0, 0), decoder.tally());
    }

    @Test
    void stuffsAsTheProtocolSays() {
        // IDENTIFY holds no zero byte but perhaps in its checksum; the body's checksum stands
        // after.
        int crc = Crc16.of(new byte[] {0x42}, 0, 1);
        assertArrayEquals(
                new byte[] {4, 0x42, (byte) crc, (byte) (crc >> 8), 0},
                new FrameWriter().identify().take());
        byte[] zeros = new FrameWriter().frame(0, new byte[] {0, 0}).take();
        assertArrayEquals(new byte[] {1, 1, 1}, Arrays.copyOf(zeros, 3));
    }

    @Test
    void longestFrameIs254BytesAndOneMoreIsRefused() {
        byte[] payload = new byte[249];
        Arrays.fill(payload, (byte) 7);
        byte[] wire = new FrameWriter().frame(0x70, payload).take();
        assertEquals(254, wire.length);
        feed(wire);
        assertEquals(List.of("unknown 112 249"), heard.lines);
        assertThrows(
                IllegalArgumentException.class, () -> new FrameWriter().frame(0x70, new byte[250]));
    }

    @Test
    void countsWhatItDoesNotTakeWithTheReason() {
        feed(new byte[] {0, 0}); // empty frames are no error
        feed(new byte[] {9, 1, 1, 0}); // points past the end
        feed(new byte[] {3, 1, 1, 0}); // a checksum without a body
        byte[] damaged = new FrameWriter().ping(1).take();
        damaged[2] ^= 0x10;
        feed(damaged);
        feed(new FrameWriter().frame(FrameTypes.PONG, new byte[3]).take());
        assertEquals(
                List.of(
                        "rejected BAD_STUFFING 4",
                        "rejected TOO_SHORT 4",
                        "rejected BAD_CHECKSUM " + damaged.length,
                        "rejected BAD_FIELDS 8"),
                heard.lines);
        assertEquals(new ByteTally(27, 2, 25, 0), decoder.tally());
    }

    @Test
    void givesUpEndlessBytesPieceByPieceAndResumesAtTheNextDelimiter() {
        byte[] endless = new byte[600];
        Arrays.fill(endless, (byte) 0x55);
        feed(endless);
        assertEquals(new ByteTally(600, 0, 508, 92), decoder.tally());
        feed(new byte[] {0});
        feed(new FrameWriter().ping(3).take());
        assertEquals(
                List.of(
                        "rejected TOO_LONG 254",
                        "rejected TOO_LONG 254",
                        "rejected TOO_LONG 93",
                        "unknown 65 4"),
                heard.lines);
    }

    @Test
    void unplugCountsWhatWasPendingAsRejected() {
        byte[] wire = new FrameWriter().ping(3).take();
        decoder.feed(wire, 0, 4, heard);
        assertEquals(new ByteTally(4, 0, 0, 4), decoder.tally());
        decoder.reset();
        assertEquals(new ByteTally(4, 0, 4, 0), decoder.tally());
        feed(wire);
        assertEquals(List.of("unknown 65 4"), heard.lines);
    }

    @Test
    void tallyIsRightInsideTheSinkToo() {
        byte[] wire = new FrameWriter().ping(1).identify().take();
        List<ByteTally> tallies = new ArrayList<>();
        HeardFrames asking =
                new HeardFrames() {
                    @Override
                    public void unknown(int type, int payloadBytes) {
                        tallies.add(decoder.tally());
                    }
                };
        decoder.feed(wire, 0, wire.length, asking);
        int first = wire.length - 5;
        assertEquals(
                List.of(
                        new ByteTally(first, first, 0, 0),
                        new ByteTally(wire.length, wire.length, 0, 0)),
                tallies);
    }

    @Test
    void refusesBlocksWhoseCountDoesNotFit() {
        byte[] head = new byte[16];
        head[8] = 3;
        head[9] = 2; // two samples of three 16-bit axes need 12 bytes, here are 6
        feed(new FrameWriter().frame(FrameTypes.SAMPLES, head).take());
        head[8] = 0; // no axis
        feed(new FrameWriter().frame(FrameTypes.SAMPLES, head).take());
        head[8] = 3;
        head[9] = 0; // no sample
        feed(new FrameWriter().frame(FrameTypes.SAMPLES, head).take());
        feed(new FrameWriter().frame(FrameTypes.TACH, new byte[] {0, 0, 0, 0}).take());
        feed(new FrameWriter().frame(FrameTypes.TACH, new byte[] {0, 0, 0, 2, 1, 2, 3, 4}).take());
        assertEquals(5, heard.lines.size());
        heard.lines.forEach(l -> assertEquals("rejected BAD_FIELDS", l.replaceAll(" \\d+$", "")));
    }

    @Test
    void ignoresFieldsAndBitsThatALaterMinorVersionAdds() {
        byte[] block = new byte[10 + 2 + 5];
        block[8] = 0b0111_1001; // one 16-bit axis, unknown bits set
        block[9] = 1;
        block[10] = 5;
        feed(new FrameWriter().frame(FrameTypes.SAMPLES, block).take());
        assertEquals(List.of("samples 0 @0 16 5"), heard.lines);
    }

    @Test
    void anotherMajorVersionIsSaidAndNothingElseIsRead() {
        feed(new FrameWriter().frame(FrameTypes.HELLO, new byte[] {2, 7}).take());
        assertEquals(List.of("otherVersion 2.7"), heard.lines);
    }

    @Test
    void nameCannotSteerATerminal() {
        Hello h = WireStreams.HELLO;
        Hello rude =
                new Hello(
                        1,
                        0,
                        1,
                        1,
                        h.sensor(),
                        1,
                        16,
                        16,
                        1,
                        1,
                        1,
                        1,
                        0,
                        false,
                        false,
                        false,
                        "a\u001b[2Jb\n");
        feed(new FrameWriter().hello(rude).take());
        assertEquals(true, heard.lines.get(0).endsWith("name=a [2Jb]"));
    }

    @Test
    void probeSideHearsCommands() {
        List<String> said = new ArrayList<>();
        CommandSink sink =
                new CommandSink() {
                    @Override
                    public void ping(long id) {
                        said.add("ping " + id);
                    }

                    @Override
                    public void identify() {
                        said.add("identify");
                    }

                    @Override
                    public void start() {
                        said.add("start");
                    }

                    @Override
                    public void stop() {
                        said.add("stop");
                    }

                    @Override
                    public void rate(long num, long den) {
                        said.add("rate " + num + "/" + den);
                    }

                    @Override
                    public void unknown(int type) {
                        said.add("unknown " + type);
                    }

                    @Override
                    public void rejected(Rejection reason, int bytes) {
                        said.add(reason + " " + bytes);
                    }
                };
        byte[] wire =
                new FrameWriter()
                        .ping(0xFFFFFFFFL)
                        .identify()
                        .start()
                        .stop()
                        .rate(25_600, 3)
                        .frame(0x50, new byte[0])
                        .frame(FrameTypes.RATE, new byte[7])
                        .take();
        CommandDecoder commands = new CommandDecoder();
        commands.feed(wire, 0, wire.length, sink);
        assertEquals(
                List.of(
                        "ping 4294967295",
                        "identify",
                        "start",
                        "stop",
                        "rate 25600/3",
                        "unknown 80",
                        "BAD_FIELDS 12"),
                said);
        assertEquals(new ByteTally(wire.length, wire.length - 12, 12, 0), commands.tally());
    }

    @Test
    void writerRefusesWhatDoesNotFit() {
        FrameWriter w = new FrameWriter();
        int[] v = {40_000, 0, 0};
        assertThrows(IllegalArgumentException.class, () -> w.samples(0, 0, 1, 16, false, v, 0, 1));
        assertThrows(IllegalArgumentException.class, () -> w.samples(0, 0, 4, 16, false, v, 1, 1));
        assertThrows(IllegalArgumentException.class, () -> w.samples(0, 0, 1, 12, false, v, 1, 1));
        assertThrows(IllegalArgumentException.class, () -> w.rate(0, 1));
        assertThrows(IllegalArgumentException.class, () -> w.tach(0, 0, new long[1], 0, 0));
        assertEquals(0, w.size());
    }
}

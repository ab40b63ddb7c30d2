package tickover.session;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;
import tickover.align.AlignedBlock;
import tickover.link.Chunk;
import tickover.session.SourceInfo.Language;
import tickover.session.SourceInfo.Role;
import tickover.unit.HostNanos;
import tickover.wire.ButtonEvent;
import tickover.wire.FrameWriter;
import tickover.wire.Hello;
import tickover.wire.SensorKind;

/** Presses are heard at once, each of them, and a bounce is none. */
class ProbeButtonTest {
    private static final long TICK_HZ = 1_000_000;

    private static Hello hello(int boot) {
        return new Hello(
                1,
                0,
                7,
                boot,
                SensorKind.UNKNOWN,
                1,
                16,
                16,
                40,
                8000,
                1,
                TICK_HZ,
                0,
                true,
                true,
                true,
                "p");
    }

    private static HostNanos at(double timeS) {
        return new HostNanos(Math.round(timeS * 1e9));
    }

    private static ButtonEvent event(double tickS, boolean down, int presses) {
        return new ButtonEvent(Math.round(tickS * TICK_HZ), 0, down, presses);
    }

    private static int taken(ProbeButton button) {
        int count = 0;
        while (button.take()) {
            count++;
        }
        return count;
    }

    @Test
    void twoPressesInOneChunkAreTwo() {
        ProbeButton button = new ProbeButton();
        button.hello(hello(1));
        button.heard(event(10, true, 1), at(20));
        button.heard(event(10.1, false, 1), at(20));
        button.heard(event(10.9, true, 2), at(20));
        button.heard(event(11, false, 2), at(20));
        assertEquals(2, taken(button));
    }

    @Test
    void aPressWithinAThirdOfASecondIsTheSameFinger() {
        ProbeButton button = new ProbeButton();
        button.hello(hello(1));
        button.heard(event(10, true, 1), at(20));
        button.heard(event(10.2, true, 2), at(20.2));
        assertEquals(1, taken(button));
    }

    @Test
    void aReleaseTellsOfAPressWhoseFrameWasLost() {
        ProbeButton button = new ProbeButton();
        button.hello(hello(1));
        button.heard(event(10, true, 1), at(20));
        button.heard(event(15, false, 2), at(25));
        assertEquals(2, taken(button));
    }

    @Test
    void anotherLifeOfTheBoardCountsFromTheStart() {
        ProbeButton button = new ProbeButton();
        button.hello(hello(1));
        button.heard(event(10, true, 1), at(20));
        button.hello(hello(2));
        button.heard(event(10.1, true, 1), at(60));
        assertEquals(2, taken(button));
    }

    @Test
    void ticksThatCameRoundAreNoBounce() {
        ProbeButton button = new ProbeButton();
        button.hello(hello(1));
        double roundS = Math.pow(2, 32) / TICK_HZ;
        button.heard(event(10, true, 1), at(20));
        button.heard(event(10.1, true, 2), at(20.1 + roundS));
        assertEquals(2, taken(button));
    }

    /** Without the status that tells dropped from lost, the aligned stream waits 2 s. */
    @Test
    void aPressIsHeardAheadOfAGapThatHoldsTheStreamBack() {
        List<AlignedBlock> blocks = new ArrayList<>();
        StreamPipeline pipeline = new StreamPipeline(blocks::add);
        SourceInfo info = SourceInfo.of(Role.PROBE, Language.FRAMES, "p", 500_000, "");
        pipeline.accept(new Chunk(Chunk.Kind.SOURCE, 0, at(0), info.json()));
        FrameWriter writer = new FrameWriter().separator().hello(hello(1));
        int[] counts = new int[100];
        for (int block = 0; block < 20; block++) {
            if (block != 10) {
                long number = 100L * block;
                writer.samples(number, 125 * number, 1, 16, false, counts, 0, 100);
            }
        }
        writer.button(event(0.25, true, 1));
        pipeline.accept(new Chunk(Chunk.Kind.IN, 0, at(0.26), writer.take()));
        assertEquals(
                List.of(),
                blocks.stream().filter(b -> b.kind() == AlignedBlock.Kind.BUTTON).toList(),
                "the stream holds it back");
        assertEquals(1, taken(pipeline.state(0).button()));
    }

    @Test
    void aKeyThatIsHeldDownWasPressedOnce() {
        KeyPresses keys = new KeyPresses();
        for (int i = 0; i < 30; i++) {
            keys.press(at(10 + 0.033 * i));
        }
        keys.press(at(12));
        int count = 0;
        while (keys.take()) {
            count++;
        }
        assertEquals(2, count);
    }
}

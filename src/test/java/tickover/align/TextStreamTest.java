package tickover.align;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import tickover.unit.HostNanos;
import tickover.wire.TextDecoder;
import tickover.wire.TextUnit;

/** Plain-text probes: lines lost, time starting over, units, pulses. */
class TextStreamTest {
    private static final long STEP_US = 1000;
    private static final long ROUND_US = 1L << 32;

    private final List<AlignedBlock> blocks = new ArrayList<>();
    private final TextDecoder decoder = new TextDecoder();
    private Aligner aligner = new Aligner(0, TextScale.AS_PRINTED, blocks::add);
    private long us = 50_000;
    private double hostS = 10;

    private void line(String text) {
        byte[] bytes = (text + "\n").getBytes(StandardCharsets.US_ASCII);
        aligner.at(new HostNanos(Math.round(hostS * 1e9)));
        decoder.feed(bytes, 0, bytes.length, aligner);
    }

    private void lines(int count) {
        for (int i = 0; i < count; i++) {
            line(us % ROUND_US + ",0.5");
            pass(1);
        }
    }

    private void pass(int steps) {
        us += steps * STEP_US;
        hostS += steps * STEP_US / 1e6;
    }

    private <T> List<T> all(Class<T> type) {
        return blocks.stream().filter(type::isInstance).map(type::cast).toList();
    }

    private long samples() {
        return all(SampleRun.class).stream().mapToLong(SampleRun::count).sum();
    }

    @Test
    void lostLinesAreToldFromTheTimeStep() {
        line("t_us,az_g");
        lines(40);
        pass(3);
        lines(40);
        aligner.finish();
        StreamGap gap = all(StreamGap.class).get(0);
        assertEquals(StreamGap.Cause.LOST_ON_LINE, gap.cause());
        assertEquals(40, gap.firstMissing());
        assertEquals(3, gap.missing().orElseThrow());
        assertEquals(80, samples());
        assertEquals(0.5 * 9.80665, all(SampleRun.class).get(0).accelMps2()[0], 1e-12);
    }

    /** How far lines are apart is not known before there are some. */
    @Test
    void linesThatAreLostAmongTheFirstAreToldToo() {
        line("t_us,az_g");
        lines(4);
        pass(2);
        lines(40);
        aligner.finish();
        StreamGap gap = all(StreamGap.class).get(0);
        assertEquals(4, gap.firstMissing());
        assertEquals(2, gap.missing().orElseThrow());
        assertEquals(44, samples());
    }

    @Test
    void aFewLinesAreNotKeptBackAtTheEnd() {
        line("t_us,az_g");
        lines(3);
        assertEquals(0, samples());
        aligner.finish();
        assertEquals(3, samples());
    }

    /** 2.5 ms come out as 2 and 3 in turn, 0.7 ms as 0 and 1: neither is a lost line. */
    @ParameterizedTest
    @CsvSource({"2500, 5", "3333, 5", "1429, 0", "1000, 3", "700, 0"})
    void wholeMillisecondsAreNoGaps(int stepUs, int lost) {
        line("millis,az_g");
        for (int i = 0; i < 2000; i++) {
            hostS = 10 + i * stepUs / 1e6;
            if (i < 1000 || i >= 1000 + lost) {
                line((i * (long) stepUs / 1000) + ",0.5");
            }
        }
        aligner.finish();
        assertEquals(2000 - lost, samples());
        assertEquals(lost == 0 ? 0 : 1, all(StreamGap.class).size());
        for (StreamGap gap : all(StreamGap.class)) {
            assertEquals(1000, gap.firstMissing());
            assertEquals(lost, gap.missing().orElseThrow());
        }
        assertEquals(0, aligner.tally().implausible());
    }

    @Test
    void timeThatStartsOverIsNoReset() {
        us = ROUND_US - 20 * STEP_US - 300;
        line("t_us,az_g");
        lines(60);
        aligner.finish();
        assertTrue(all(StreamGap.class).isEmpty());
        assertEquals(60, samples());
        SampleRun last = all(SampleRun.class).get(all(SampleRun.class).size() - 1);
        assertTrue(last.firstTick().value() > ROUND_US);
    }

    @Test
    void oneLineWithAWrongTimeIsLeftOutAndARestartIsBelieved() {
        line("t_us,az_g");
        lines(30);
        line((us + 700_000) + ",0.5");
        pass(1);
        lines(30);
        assertEquals(1, aligner.tally().implausible());
        assertEquals(1, all(StreamGap.class).get(0).missing().orElseThrow());
        us = 1000;
        hostS += 2;
        lines(30);
        aligner.finish();
        assertEquals(StreamGap.Cause.RESET, all(StreamGap.class).get(1).cause());
        assertEquals(90, samples());
    }

    @Test
    void withoutAUnitNothingComesAndItSaysSo() {
        line("t_us,az");
        lines(10);
        aligner.finish();
        assertTrue(blocks.isEmpty());
        assertTrue(aligner.waitsForUnit());
        assertEquals(10, aligner.tally().linesWithoutUnit());
        aligner = new Aligner(0, new TextScale(TextUnit.COUNTS, 0.01), blocks::add);
        line("t_us,az");
        lines(10);
        aligner.finish();
        assertEquals(0.005, all(SampleRun.class).get(0).accelMps2()[0], 1e-12);
    }

    /** The board's counter started over before: that is the same clock, and no step of it. */
    @Test
    void aNewHeaderAfterTheCountStartedOverIsTheSameClock() {
        us = ROUND_US - 20_000 * STEP_US - 300;
        line("t_us,az_g");
        lines(25_000);
        line("t_us,ay_g");
        lines(15_000);
        aligner.finish();
        assertEquals(
                List.of(StreamGap.Cause.RESTARTED),
                all(StreamGap.class).stream().map(StreamGap::cause).toList());
        SampleRun last = all(SampleRun.class).get(all(SampleRun.class).size() - 1);
        assertTrue(last.firstTick().value() > ROUND_US, "ticks go on");
        assertTrue(aligner.clock().isPresent());
    }
}

package tickover.session;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;
import tickover.align.EdgeRun;
import tickover.align.ProbeStart;
import tickover.align.SampleRun;
import tickover.align.SpeedReading;
import tickover.link.Chunk;
import tickover.session.SourceInfo.Language;
import tickover.session.SourceInfo.Role;
import tickover.unit.DeviceTicks;
import tickover.unit.HostNanos;

/** Speed and turns as they are shown while a recording runs. */
class LiveMeterTest {
    private static final long TICK_HZ = 1_000_000;
    private static final int RATE_HZ = 1000;

    /** Edges are at whole ticks. */
    private static final double RPM_STEP = 0.01;

    private static final String VEHICLE =
            """
            [vehicle]
            unit = "ML-07"
            [engine]
            cylinders = 4
            [[pulleys]]
            name = "crank"
            role = "crank"
            diameter_mm = 165.0
            face = "grooved"
            [[pulleys]]
            name = "alternator"
            role = "alternator"
            diameter_mm = 55.0
            face = "grooved"
            """;

    private final List<LiveReading> readings = new ArrayList<>();
    private final LiveMeter meter = new LiveMeter(readings::add);

    private static HostNanos at(double timeS) {
        return new HostNanos(Math.round(timeS * 1e9));
    }

    private void device(int source, Role role) {
        Language language = role == Role.ADAPTER ? Language.COMMANDS : Language.FRAMES;
        SourceInfo info = SourceInfo.of(role, language, "p" + source, 0, "");
        meter.told(new Chunk(Chunk.Kind.SOURCE, source, at(0), info.json()));
        if (role != Role.ADAPTER) {
            meter.accept(
                    new ProbeStart(
                            source,
                            0,
                            at(0),
                            "p",
                            "",
                            1,
                            RATE_HZ,
                            TICK_HZ,
                            TICK_HZ / RATE_HZ,
                            true,
                            40,
                            0));
        }
    }

    private void note(RecordingNote note) {
        meter.told(new Chunk(Chunk.Kind.NOTE, 0, at(0), note.json()));
    }

    /** A second of samples and of edges, the edges first. */
    private void second(int number, int probe, double... edgesHz) {
        for (int source = 0; source < edgesHz.length; source++) {
            int count = (int) edgesHz[source];
            long[] ticks = new long[count];
            for (int i = 0; i < count; i++) {
                ticks[i] = Math.round(TICK_HZ * (number + (double) i / count));
            }
            if (count > 0) {
                meter.accept(new EdgeRun(source, 0, 0, at(number + 1), ticks));
            }
        }
        meter.accept(
                new SampleRun(
                        probe,
                        0,
                        (long) number * RATE_HZ,
                        new DeviceTicks(number * TICK_HZ),
                        at(number + 1),
                        1,
                        new double[RATE_HZ],
                        false));
    }

    private LiveReading last() {
        return readings.get(readings.size() - 1);
    }

    @Test
    void theMarkedPulleysRatioTurnsItsEdgesIntoCrankTurns() {
        device(0, Role.PROBE);
        note(RecordingNote.tach("alternator", 2));
        note(RecordingNote.vehicle(VEHICLE));
        for (int i = 0; i < 10; i++) {
            second(i, 0, 78);
        }
        // 78 edges a second, two a turn, three turns of the alternator a turn of the crank.
        assertEquals(60 * 78 / 6.0, last().speedRpm().orElseThrow(), RPM_STEP);
        assertEquals(10 * 78 / 6.0, meter.turns(), 1e-9);
    }

    @Test
    void withoutTheRatioThereIsNoSpeed() {
        device(0, Role.PROBE);
        note(RecordingNote.tach("alternator", 2));
        second(0, 0, 78);
        second(1, 0, 78);
        assertTrue(last().speedRpm().isEmpty(), last().toString());
        assertEquals(0, meter.turns());
    }

    @Test
    void ofTwoTachsTheBoardOfItsOwnCountsAlone() {
        device(0, Role.PROBE);
        device(1, Role.TACH);
        note(RecordingNote.tach("crank", 1));
        for (int i = 0; i < 3; i++) {
            second(i, 0, 26, 13);
        }
        assertEquals(60 * 13, last().speedRpm().orElseThrow(), RPM_STEP);
        assertEquals(3 * 13, meter.turns());
    }

    @Test
    void aSpeedThatIsSecondsOldIsNone() {
        device(0, Role.PROBE);
        device(1, Role.ADAPTER);
        note(RecordingNote.tach("crank", 1));
        second(0, 0, 13);
        meter.accept(new SpeedReading(1, at(0.9), at(1), 790));
        for (int i = 1; i < 4; i++) {
            second(i, 0, 0);
        }
        assertEquals(780, last().speedRpm().orElseThrow(), RPM_STEP);
        for (int i = 4; i < 8; i++) {
            second(i, 0, 0);
        }
        assertTrue(last().speedRpm().isEmpty(), last().toString());
    }

    @Test
    void aFreshReadingStandsInForATachThatStopped() {
        device(0, Role.PROBE);
        device(1, Role.ADAPTER);
        note(RecordingNote.tach("crank", 1));
        second(0, 0, 13);
        for (int i = 1; i < 8; i++) {
            meter.accept(new SpeedReading(1, at(i + 0.7), at(i + 0.8), 790));
            second(i, 0, 0);
        }
        assertEquals(790, last().speedRpm().orElseThrow());
    }
}

package tickover.session;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import java.util.TreeSet;
import org.junit.jupiter.api.Test;
import tickover.session.SourceInfo.Language;
import tickover.session.SourceInfo.Role;
import tickover.unit.HostNanos;
import tickover.wire.CommandDecoder;
import tickover.wire.CommandSink;
import tickover.wire.Hello;
import tickover.wire.Rejection;
import tickover.wire.SensorKind;

/** What is said to a probe and when, in told time. */
class ProbeDriverTest {
    private static final double PASS_S = 0.01;

    /** Passes fall on a grid of this, and times are rounded to ns. */
    private static final double GRID_S = 1e-6;

    private final SourceState state =
            new SourceState(SourceInfo.of(Role.PROBE, Language.FRAMES, "p", 500_000, ""));
    private final ProbeDriver driver = new ProbeDriver(() -> state);
    private final List<String> said = new ArrayList<>();
    private final List<Double> pingedS = new ArrayList<>();
    private double nowS;

    /** What the played probe does. */
    private final Set<Does> does = new TreeSet<>(Set.of(Does.SAMPLE, Does.PONG, Does.HELLO));

    private enum Does {
        SAMPLE,
        PONG,
        HELLO
    }

    private static HostNanos at(double timeS) {
        return new HostNanos(Math.round(timeS * 1e9));
    }

    private static Hello hello() {
        return new Hello(
                1,
                0,
                7,
                3,
                SensorKind.UNKNOWN,
                1,
                16,
                16,
                40,
                8000,
                1,
                1_000_000,
                0,
                true,
                true,
                true,
                "p");
    }

    /** Passes as the keeper makes them: each 10 ms, and when the driver says that it is due. */
    private void passUntil(double untilS) {
        while (nowS < untilS) {
            pass();
            nowS += Math.max(1e-4, Math.min(PASS_S, driver.untilDueS(at(nowS))));
        }
    }

    private void pass() {
        if (does.contains(Does.SAMPLE)) {
            state.flow();
        }
        for (byte[] message : driver.due(at(nowS))) {
            new CommandDecoder().feed(message, 0, message.length, new Ears());
        }
    }

    private final class Ears implements CommandSink {
        @Override
        public void ping(long id) {
            pingedS.add(nowS);
            if (does.contains(Does.PONG)) {
                state.pong();
            }
        }

        @Override
        public void identify() {
            said.add("IDENTIFY");
            if (does.contains(Does.HELLO)) {
                state.hello(hello());
            }
        }

        @Override
        public void start() {
            said.add("START");
        }

        @Override
        public void stop() {
            said.add("STOP");
        }

        @Override
        public void rate(long num, long den) {
            said.add("RATE");
        }

        @Override
        public void unknown(int type) {
            said.add("unknown " + type);
        }

        @Override
        public void rejected(Rejection reason, int bytes) {
            said.add("rejected " + reason);
        }
    }

    @Test
    void oneCommandGoesOutAtATimeAndTheNextAfterWhatItBrings() {
        does.clear();
        driver.opened(at(0));
        passUntil(0.2);
        assertEquals(List.of("IDENTIFY"), said, "HELLO is waited for");
        state.hello(hello());
        passUntil(0.22);
        assertEquals(List.of("IDENTIFY", "START"), said);
    }

    @Test
    void aProbeThatDoesNotAnswerIsWaitedForAQuarterOfASecond() {
        does.clear();
        driver.opened(at(0));
        passUntil(0.249);
        assertEquals(List.of("IDENTIFY"), said);
        passUntil(0.27);
        assertEquals(List.of("IDENTIFY", "START"), said);
        passUntil(1.2);
        assertEquals(2, said.size(), "not before a second without samples");
        passUntil(1.6);
        assertEquals(List.of("IDENTIFY", "START", "IDENTIFY", "START"), said);
    }

    @Test
    void aPauseOfTheHostIsNoSilenceOfTheProbe() {
        driver.opened(at(0));
        passUntil(3);
        said.clear();
        does.remove(Does.SAMPLE);
        for (int pause = 0; pause < 5; pause++) {
            nowS += 1.5;
            pass();
        }
        does.add(Does.SAMPLE);
        passUntil(12);
        assertEquals(List.of(), said, "a healthy probe is left alone");
    }

    @Test
    void aSilentProbeIsIdentifiedFirstAndStartedIfThatDoesNotHelp() {
        driver.opened(at(0));
        passUntil(3);
        said.clear();
        does.remove(Does.SAMPLE);
        passUntil(4.4);
        assertEquals(List.of(), said, "silent for less than 1.5 s");
        does.remove(Does.HELLO);
        passUntil(4.6);
        assertEquals(List.of("IDENTIFY"), said);
        does.add(Does.SAMPLE);
        passUntil(6);
        assertEquals(List.of("IDENTIFY"), said, "its samples came back: nothing to start");
        does.remove(Does.SAMPLE);
        passUntil(8);
        assertEquals(List.of("IDENTIFY", "IDENTIFY", "START"), said);
    }

    @Test
    void pingsAreEvenFiveASecondForSixSecondsAndThenEveryTwo() {
        driver.opened(at(0));
        passUntil(15);
        double fastS = 6 - GRID_S;
        List<Double> fast = pingedS.stream().filter(t -> t < fastS).toList();
        List<Double> slow = pingedS.stream().filter(t -> t >= fastS).toList();
        assertEquals(30, fast.size());
        for (int i = 2; i < fast.size(); i++) {
            assertEquals(0.2, fast.get(i) - fast.get(i - 1), GRID_S);
        }
        assertEquals(5, slow.size());
        for (int i = 1; i < slow.size(); i++) {
            assertEquals(2, slow.get(i) - slow.get(i - 1), GRID_S);
        }
    }

    @Test
    void pingsThatWereMissedDuringAPauseAreNotMadeUpFor() {
        driver.opened(at(0));
        passUntil(1);
        int before = pingedS.size();
        nowS += 3;
        passUntil(4.41);
        int after = pingedS.size() - before;
        assertTrue(after >= 2 && after <= 3, after + " pings in 0.41 s");
    }
}

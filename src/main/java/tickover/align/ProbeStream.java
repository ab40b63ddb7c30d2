package tickover.align;

import java.util.List;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.function.Consumer;
import tickover.unit.DeviceTicks;
import tickover.unit.HostNanos;
import tickover.wire.ButtonEvent;
import tickover.wire.Hello;
import tickover.wire.Pong;
import tickover.wire.ProbeStatus;

/**
 * Frames of one probe to blocks. A frame that contradicts what is known is not believed before a
 * second one agrees with it: one in 65,536 damaged frames passes its checksum.
 */
final class ProbeStream {
    private static final long TICK_ROUND = 1L << 32;

    /** Samples repeated after a longer time are a new start, not a repetition, s. */
    private static final double REPEATED_S = 1;

    private final int source;
    private final GapCauses out;
    private final EdgeCounter edges = new EdgeCounter();
    private final HeldFrames held = new HeldFrames();
    private final PressCounter presses = new PressCounter();

    private Hello hello;
    private Hello otherHello;
    private boolean helloAgain;
    private boolean startHeard;
    private boolean bytesRejected;

    private int segment = -1;
    private boolean open;
    private long base;
    private long next;
    private SampleNumbers numbers;
    private SampleFrame suspect;
    private boolean samplesSeen;
    private TickUnwrapper ticks;
    private ClockTracker clock;

    private long implausible;
    private long duplicates;

    ProbeStream(int source, Consumer<AlignedBlock> sink) {
        this.source = source;
        this.out = new GapCauses(sink);
    }

    void at(HostNanos now) {
        out.at(now);
    }

    void finish() {
        out.settle();
    }

    void rejected() {
        bytesRejected = true;
    }

    void started() {
        startHeard = true;
    }

    Optional<ClockFit> clock() {
        return clock == null ? Optional.empty() : clock.fit();
    }

    AlignTally tally(long implausibleLines, long strayPongs, long linesWithoutUnit) {
        return new AlignTally(
                implausible + edges.implausible() + implausibleLines,
                duplicates,
                held.size(),
                held.forgotten(),
                strayPongs,
                linesWithoutUnit);
    }

    boolean waitsForHello() {
        return hello == null && held.size() > 0;
    }

    /** The device went away, or what it said is lost. */
    void interrupted(StreamGap.Cause cause, HostNanos at) {
        endSegment(cause, at, -1);
        if (cause == StreamGap.Cause.UNPLUGGED) {
            // What comes back may be another board.
            hello = null;
            held.forget();
        }
        if (clock != null) {
            clock.restart();
            ticks.restart();
        }
        otherHello = null;
        startHeard = false;
        presses.restart();
    }

    void hello(Hello said, HostNanos at) {
        if (hello == null) {
            adopt(said);
            held.release();
        } else if (said.equals(hello)) {
            helloAgain = true;
            otherHello = null;
        } else if (!open || said.equals(otherHello)) {
            replace(said, at);
        } else {
            otherHello = said;
        }
    }

    private void adopt(Hello said) {
        hello = said;
        otherHello = null;
        helloAgain = true;
        ticks = new TickUnwrapper(said.tickHz(), TICK_ROUND);
        clock = new ClockTracker(said.tickHz());
    }

    private void replace(Hello said, HostNanos at) {
        boolean sameLife = said.boot() == hello.boot() && said.device() == hello.device();
        endSegment(sameLife ? StreamGap.Cause.RESTARTED : StreamGap.Cause.RESET, at, -1);
        if (!sameLife) {
            presses.restart();
        }
        boolean sameClock = sameLife && said.tickHz() == hello.tickHz();
        ClockTracker kept = clock;
        TickUnwrapper keptTicks = ticks;
        adopt(said);
        if (sameClock) {
            clock = kept;
            ticks = keptTicks;
        }
    }

    private boolean hold(Runnable frame) {
        if (hello != null) {
            return false;
        }
        held.hold(frame);
        return true;
    }

    void samples(SampleFrame f) {
        if (hold(() -> samples(f))) {
            return;
        }
        boolean fits = f.fits(hello);
        if (fits && open && samplesSeen) {
            long number = numbers.full(f.number());
            long tick = ticks.unwrap(f.tick(), f.at());
            boolean agrees = numbers.fits(number, tick);
            if (agrees && number >= next) {
                believe(f, number, tick);
                return;
            }
            if (agrees && number + f.count() <= next && -ticks.aheadS(tick, f.at()) < REPEATED_S) {
                duplicates++;
                return;
            }
        } else if (fits) {
            first(f);
            return;
        }
        doubt(f);
    }

    private void believe(SampleFrame f, long number, long tick) {
        if (suspect != null) {
            suspect = null;
            implausible++;
        }
        if (otherHello != null) {
            otherHello = null;
            implausible++;
        }
        helloAgain = false;
        if (number > next) {
            StreamGap gap =
                    new StreamGap(
                            source,
                            segment,
                            StreamGap.Cause.LOST_ON_LINE,
                            f.at(),
                            next - base,
                            number - next);
            out.gap(gap, bytesRejected);
        }
        bytesRejected = false;
        numbers.moveTo(number, tick);
        ticks.settle(tick, f.at());
        next = number + f.count();
        out.put(
                new SampleRun(
                        source,
                        segment,
                        number - base,
                        new DeviceTicks(tick),
                        f.at(),
                        f.axes(),
                        f.accelMps2(hello),
                        f.atLimit()));
        double last = tick + (f.count() - 1) * hello.ticksPerSample();
        if (clock.arrival(Math.round(last), f.at())) {
            clockStepped(f.at());
        }
    }

    private void clockStepped(HostNanos at) {
        long from = next;
        SampleNumbers kept = numbers;
        endSegment(StreamGap.Cause.CLOCK_STEP, at, 0);
        openSegment(at, false);
        // The numbers run on, so what is missing next can still be told.
        numbers = kept;
        samplesSeen = numbers != null;
        base = samplesSeen ? from : -1;
        next = from;
    }

    /** A frame against all that is known: the second of its kind is believed. */
    private void doubt(SampleFrame f) {
        Hello said = otherHello != null ? otherHello : hello;
        boolean supported = (otherHello != null || helloAgain) && f.fits(said) && isEarly(f, said);
        boolean again =
                suspect != null
                        && suspect.fits(said)
                        && f.fits(said)
                        && SampleNumbers.consecutive(said, suspect, f);
        if (!supported && !again) {
            if (suspect != null) {
                implausible++;
            }
            suspect = f;
            return;
        }
        SampleFrame before = again ? suspect : null;
        suspect = null;
        SampleFrame earliest = before == null ? f : before;
        if (otherHello != null) {
            replace(otherHello, f.at());
        } else if (open) {
            endSegment(cause(earliest), f.at(), -1);
        }
        if (before != null) {
            first(before);
            samples(f);
        } else {
            first(f);
        }
    }

    /** Whether a block can be one of the first since START. */
    private static boolean isEarly(SampleFrame f, Hello said) {
        return f.number() < TickUnwrapper.MOST_LATE_S * said.rateHz();
    }

    private StreamGap.Cause cause(SampleFrame f) {
        long tick = ticks.unwrap(f.tick(), f.at());
        if (Math.abs(ticks.aheadS(tick, f.at())) < REPEATED_S) {
            return StreamGap.Cause.RESTARTED;
        }
        boolean runsOn = numbers != null && f.number() >= (next & (TICK_ROUND - 1));
        ticks.restart();
        clock.restart();
        return runsOn ? StreamGap.Cause.CLOCK_STEP : StreamGap.Cause.RESET;
    }

    /** The first samples of a segment. */
    private void first(SampleFrame f) {
        if (!open) {
            openSegment(f.at(), startHeard && isEarly(f, hello));
        }
        long tick = ticks.unwrap(f.tick(), f.at());
        if (base < 0) {
            base = f.number();
        }
        next = base;
        samplesSeen = true;
        numbers = new SampleNumbers(hello, f.number(), tick);
        believe(f, f.number(), tick);
    }

    private void openSegment(HostNanos at, boolean fromStart) {
        segment++;
        open = true;
        samplesSeen = false;
        numbers = null;
        base = fromStart ? 0 : -1;
        edges.begin(fromStart);
        out.begin(fromStart);
        startHeard = false;
        out.put(ProbeStart.of(source, segment, at, hello));
    }

    private void endSegment(StreamGap.Cause cause, HostNanos at, long missing) {
        out.settle();
        if (open) {
            long count = samplesSeen ? next - base : 0;
            out.put(new StreamGap(source, segment, cause, at, count, missing));
        }
        open = false;
        suspect = null;
    }

    void tach(int number, int missed, long[] raw, HostNanos at) {
        if (hold(() -> tach(number, missed, raw, at))) {
            return;
        }
        if (!ticks.started()) {
            ticks.settle(raw[raw.length - 1], at);
        }
        long[] full = new long[raw.length];
        for (int i = 0; i < raw.length; i++) {
            full[i] = ticks.unwrap(raw[i], at);
        }
        EdgeCounter.Frame f = new EdgeCounter.Frame(number, missed, full);
        long last = full[full.length - 1];
        if (!open) {
            openSegment(at, startHeard && number == missed);
        }
        boolean near = ticks.isNear(last, at);
        List<EdgeCounter.Frame> believed = edges.judge(f, near);
        if (believed.size() > 1 && !samplesSeen) {
            // A board without samples has only its edges to show that it was started anew.
            endSegment(StreamGap.Cause.RESTARTED, at, -1);
            openSegment(at, false);
        }
        for (EdgeCounter.Frame b : believed) {
            out.put(new EdgeRun(source, segment, edges.take(b), at, b.ticks()));
        }
        if (!samplesSeen && !believed.isEmpty()) {
            ticks.settle(last, at);
            clock.arrival(last, at);
        }
    }

    void button(ButtonEvent event, HostNanos at) {
        if (hold(() -> button(event, at)) || !open || !presses.isNew(event)) {
            return;
        }
        long tick = ticks.unwrap(event.tick(), at);
        OptionalInt lost = ticks.isNear(tick, at) ? presses.take(event) : OptionalInt.empty();
        if (lost.isEmpty()) {
            implausible++;
            return;
        }
        DeviceTicks when = new DeviceTicks(tick);
        out.put(new ButtonPress(source, segment, when, at, event.button(), lost.getAsInt()));
    }

    /** A board whose engine stands says nothing else for hours, in which its clock drifts off. */
    private void heard(long tick, HostNanos at) {
        if (!samplesSeen || !ticks.started()) {
            ticks.settle(tick, at);
        }
    }

    void status(ProbeStatus status, HostNanos at) {
        if (hold(() -> status(status, at)) || !open) {
            return;
        }
        long tick = ticks.unwrap(status.tick(), at);
        double spanSamples = TickUnwrapper.MOST_LATE_S * hello.rateHz();
        // Numbers count the dropped ones too, so no more can be dropped than were numbered.
        long most = samplesSeen ? (long) (next + spanSamples) : Long.MAX_VALUE;
        if (!ticks.isNear(tick, at) || !out.status(status.droppedSamples(), most)) {
            implausible++;
            return;
        }
        heard(tick, at);
        out.put(new ProbeHealth(source, segment, at, status));
    }

    void pong(Pong pong, HostNanos asked, HostNanos at) {
        if (hello == null) {
            return;
        }
        long received = ticks.unwrap(pong.receivedTick(), at);
        long sent = received + Math.floorMod(pong.sentTick() - pong.receivedTick(), TICK_ROUND);
        double heldS = (double) (sent - received) / hello.tickHz();
        if (!ticks.isNear(received, at)
                || heldS > at.secondsAfter(asked) + TickUnwrapper.MOST_LATE_S) {
            implausible++;
            return;
        }
        heard(sent, at);
        if (clock.ping(asked, received, sent, at) && open) {
            clockStepped(at);
        }
    }
}

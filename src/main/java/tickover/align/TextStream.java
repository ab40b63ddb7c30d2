package tickover.align;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import java.util.function.Consumer;
import tickover.unit.DeviceTicks;
import tickover.unit.HostNanos;
import tickover.wire.TextLayout;
import tickover.wire.TextLine;

/**
 * Lines of a plain-text probe to blocks. Lines carry no number, so missing ones show in their time
 * alone: as many as fit between two lines at the usual distance. A line whose time breaks the
 * series is not believed before the next one agrees.
 */
final class TextStream {
    private static final double TICK_HZ = 1e6;

    /** What a board's microsecond and millisecond counters run to. */
    private static final long[] ROUNDS = {1L << 32, 1000L << 32};

    private static final int MOST_LINES = 16;

    /** In ticks. */
    private static final long MILLISECOND = 1000;

    private static final int STEPS = 63;
    private static final int LEAST_STEPS = 8;

    /** A longer step is a gap. */
    private static final double GAP_STEPS = 1.5;

    /** Loops falter; a line after a gap may be so late and still bear it out. */
    private static final double AGREES_STEPS = 3.5;

    private static final double MOST_LATE_S = 5;

    /** A line, copied. */
    @SuppressWarnings("ArrayRecordComponent") // never compared
    private record Line(
            HostNanos at, long raw, double[] values, boolean hasPulse, long pulse, double rpm) {}

    private final int source;
    private final TextScale scale;
    private final Consumer<AlignedBlock> out;
    private final ClockTracker clock = new ClockTracker(TICK_HZ);
    private final long[] steps = new long[STEPS];
    private int stepCount;
    private double step;

    private TextLayout layout;
    private boolean open;
    private int segment = -1;
    private long number;
    private long lastTick;
    private long lastRaw;
    private long lastPulse;
    private HostNanos lastAt;
    private Line suspect;

    /** A segment's first lines, until there are enough to know the usual distance. */
    private final List<Line> opening = new ArrayList<>();

    private final double[] values = new double[3 * MOST_LINES];
    private final long[] edges = new long[MOST_LINES];
    private int lines;
    private int edgeCount;
    private long runTick;
    private double runRpm;

    private long implausible;
    private long linesWithoutUnit;

    TextStream(int source, TextScale scale, Consumer<AlignedBlock> out) {
        this.source = source;
        this.scale = scale;
        this.out = out;
    }

    boolean used() {
        return layout != null;
    }

    long implausible() {
        return implausible;
    }

    long linesWithoutUnit() {
        return linesWithoutUnit;
    }

    boolean waitsForUnit() {
        return layout != null && scale.mps2For(layout.unit()).isEmpty();
    }

    Optional<ClockFit> clock() {
        return clock.fit();
    }

    void layout(TextLayout said, HostNanos at) {
        if (layout != null && !said.equals(layout)) {
            end(StreamGap.Cause.RESTARTED, at);
        }
        layout = said;
    }

    void interrupted(StreamGap.Cause cause, HostNanos at) {
        end(cause, at);
        clock.restart();
        lastAt = null;
    }

    /** Nothing more comes. */
    void finish() {
        while (!opening.isEmpty()) {
            settle();
        }
        flush();
    }

    private void end(StreamGap.Cause cause, HostNanos at) {
        finish();
        if (open) {
            out.accept(new StreamGap(source, segment, cause, at, number, -1));
        }
        open = false;
        suspect = null;
    }

    void line(TextLine l, HostNanos at) {
        if (layout == null || waitsForUnit() || l.axes() != layout.axes().size()) {
            linesWithoutUnit++;
            return;
        }
        double mps2 = scale.mps2For(layout.unit()).orElseThrow();
        double[] v = new double[l.axes()];
        for (int a = 0; a < v.length; a++) {
            v[a] = mps2 * l.value(a);
        }
        Line next =
                new Line(
                        at,
                        l.tick(),
                        v,
                        l.hasPulse(),
                        l.hasPulse() ? l.pulseTick() : 0,
                        l.hasRpm() ? l.rpm() : -1);
        if (open) {
            take(next);
            return;
        }
        opening.add(next);
        if (opening.size() > LEAST_STEPS) {
            settle();
        }
    }

    /** Begins with the lines that have waited; how far they are apart tells which are missing. */
    private void settle() {
        List<Line> first = List.copyOf(opening);
        opening.clear();
        stepCount = 0;
        step = 0;
        for (int i = 1; i < first.size(); i++) {
            Line before = first.get(i - 1);
            Line next = first.get(i);
            long ahead = ahead(before.raw, next.raw, next.at.secondsAfter(before.at));
            if (ahead > 0 || sameMillisecond(before.raw, next.raw)) {
                learn(ahead);
            }
        }
        begin(first.get(0));
        first.subList(1, first.size()).forEach(this::take);
    }

    private void learn(long ahead) {
        steps[stepCount++ % STEPS] = ahead;
        if (stepCount <= LEAST_STEPS || stepCount % LEAST_STEPS == 0) {
            long[] sorted = Arrays.copyOf(steps, Math.min(stepCount, STEPS));
            Arrays.sort(sorted);
            // Not the median: whole milliseconds are now more and now less than the truth.
            int off = sorted.length / 5;
            step = Arrays.stream(sorted, off, sorted.length - off).average().orElseThrow();
        }
    }

    /** A board that prints whole milliseconds may send more than one line in each. */
    private static boolean sameMillisecond(long a, long b) {
        return a == b && a % MILLISECOND == 0;
    }

    private boolean follows(long raw, long ahead) {
        boolean whole = lastRaw % MILLISECOND == 0 && raw % MILLISECOND == 0;
        double most = Math.max(GAP_STEPS * step, whole ? step + MILLISECOND : 0);
        return ahead > 0
                ? ahead < most
                : sameMillisecond(lastRaw, raw) && step < GAP_STEPS * MILLISECOND;
    }

    private void take(Line next) {
        if (!open) {
            opening.add(next);
            return;
        }
        long ahead = ahead(lastRaw, next.raw, next.at.secondsAfter(lastAt));
        if (follows(next.raw, ahead)) {
            implausible += suspect == null ? 0 : 1;
            suspect = null;
            accept(next, ahead, 0);
        } else {
            doubt(next);
        }
    }

    private void doubt(Line next) {
        if (suspect != null) {
            Line before = suspect;
            long between = ahead(before.raw, next.raw, next.at.secondsAfter(before.at));
            if (between > 0 && between < AGREES_STEPS * Math.max(step, 1)) {
                suspect = null;
                long ahead = ahead(lastRaw, before.raw, before.at.secondsAfter(lastAt));
                if (ahead > 0) {
                    accept(before, ahead, Math.max(0, Math.round(ahead / step) - 1));
                } else {
                    end(StreamGap.Cause.RESET, next.at);
                    lastAt = null;
                    opening.add(before);
                    opening.add(next);
                    return;
                }
                accept(next, between, Math.max(0, Math.round(between / step) - 1));
                return;
            }
            implausible++;
        }
        suspect = next;
    }

    /** Ticks from one reading to a later one; 0 if there is none that host time allows. */
    private static long ahead(long from, long to, double hostS) {
        double most = (hostS + MOST_LATE_S) * TICK_HZ;
        if (to > from) {
            return to - from <= most ? to - from : 0;
        }
        for (long round : ROUNDS) {
            long ahead = to + round - from;
            if (ahead > 0 && ahead <= most) {
                return ahead;
            }
        }
        return 0;
    }

    private void begin(Line first) {
        segment++;
        open = true;
        number = 0;
        lastPulse = Long.MIN_VALUE;
        // The board's clock goes on over a gap, round after round: only a board that restarted
        // counts from elsewhere.
        long ahead = lastAt == null ? 0 : ahead(lastRaw, first.raw, first.at.secondsAfter(lastAt));
        if (ahead > 0) {
            lastTick += ahead;
        } else {
            clock.restart();
            lastTick = first.raw;
        }
        out.accept(
                new ProbeStart(
                        source,
                        segment,
                        first.at,
                        "",
                        "",
                        first.values.length,
                        0,
                        TICK_HZ,
                        0,
                        false,
                        0,
                        0));
        lastRaw = first.raw;
        lastAt = first.at;
        append(first);
    }

    private void accept(Line l, long ahead, long missing) {
        if (missing > 0) {
            flush();
            if (!open) {
                begin(l);
                return;
            }
            out.accept(
                    new StreamGap(
                            source, segment, StreamGap.Cause.LOST_ON_LINE, l.at, number, missing));
            number += missing;
        } else {
            learn(ahead);
        }
        lastTick += ahead;
        lastRaw = l.raw;
        lastAt = l.at;
        append(l);
    }

    private void append(Line l) {
        if (lines == 0) {
            runTick = lastTick;
        }
        System.arraycopy(l.values, 0, values, lines * l.values.length, l.values.length);
        lines++;
        runRpm = l.rpm;
        if (l.hasPulse && l.pulse != 0) {
            long at = lastTick - (l.raw - l.pulse);
            for (long round : ROUNDS) {
                // The line's time started over and the pulse's has not.
                at =
                        l.pulse > l.raw && at - round > lastTick - MOST_LATE_S * TICK_HZ
                                ? at - round
                                : at;
            }
            boolean recent = at <= lastTick && at > lastTick - MOST_LATE_S * TICK_HZ;
            if (recent && at > lastPulse) {
                edges[edgeCount++] = at;
                lastPulse = at;
            }
        }
        if (lines == MOST_LINES) {
            flush();
        }
    }

    /** Hands on the lines that have come. */
    void flush() {
        if (lines == 0) {
            return;
        }
        int axes = layout.axes().size();
        double[] accel = Arrays.copyOf(values, lines * axes);
        out.accept(
                new SampleRun(
                        source,
                        segment,
                        number,
                        new DeviceTicks(runTick),
                        lastAt,
                        axes,
                        accel,
                        false));
        number += lines;
        if (edgeCount > 0) {
            long[] ticks = Arrays.copyOf(edges, edgeCount);
            out.accept(new EdgeRun(source, segment, 0, lastAt, ticks));
        }
        if (runRpm >= 0) {
            out.accept(new SpeedReading(source, lastAt, lastAt, runRpm));
        }
        lines = 0;
        edgeCount = 0;
        if (clock.arrival(lastTick, lastAt)) {
            end(StreamGap.Cause.CLOCK_STEP, lastAt);
        }
    }
}

package tickover.align;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import tickover.align.ClockErrors.Kind;
import tickover.align.SimulatedLine.Delay;
import tickover.align.SimulatedLine.Pings;

/**
 * Prints the table of docs/time.md: how far off clocks are on every kind of line, and how often a
 * step was told where there was none.
 */
final class ClockTable {
    private static final double LOOK_EVERY_S = 97;
    private static final double LINE_HOURS = 5;

    private ClockTable() {}

    /** The kinds of lines that are measured. */
    static List<Kind> kinds() {
        List<Kind> kinds = new ArrayList<>();
        for (Pings pings : Pings.values()) {
            for (Delay delay : Delay.values()) {
                kinds.add(new Kind(delay, pings, false, false));
            }
            kinds.add(new Kind(Delay.UNIFORM, pings, true, true));
            kinds.add(new Kind(Delay.TIMER_16_MS, pings, true, true));
        }
        return kinds;
    }

    /** Runs lines for hours; returns the errors at many moments, and the steps told. */
    static ClockErrors run(Kind kind, long from, double hours, int[] steps) {
        ClockErrors errors = new ClockErrors();
        for (double done = 0; done < hours; done += LINE_HOURS) {
            SimulatedLine line = kind.line(from++);
            ClockTracker tracker = new ClockTracker(SimulatedLine.TICK_HZ);
            double untilS = 3600 * Math.min(LINE_HOURS, hours - done);
            for (double s = LOOK_EVERY_S; s <= untilS; s += LOOK_EVERY_S) {
                line.runTo(s, tracker);
                tracker.fit().ifPresent(fit -> errors.add(line, fit));
            }
            steps[0] += tracker.steps();
        }
        return errors;
    }

    private static String cell(List<Double> values, double unit, int held, int of) {
        return String.format(
                Locale.ROOT,
                "%.2f, %.2f, %.2f, %.0f",
                unit * ClockErrors.at(values, 0.5),
                unit * ClockErrors.at(values, 0.95),
                unit * ClockErrors.at(values, 1),
                100.0 * held / of);
    }

    /**
     * Prints.
     *
     * @param args lines of each kind, hours of each kind, first seed
     */
    public static void main(String[] args) {
        int lines = Integer.parseInt(args[0]);
        double hours = Double.parseDouble(args[1]);
        long seed = Long.parseLong(args[2]);
        System.out.println(
                "| delays | pings | offset after 10 s | skew after 60 s | offset, any time"
                        + " | false steps |");
        System.out.println("|---|---|---|---|---|---|");
        for (Kind kind : kinds()) {
            ClockErrors early = ClockErrors.of(kind, seed, lines, 10.5);
            ClockErrors late = ClockErrors.of(kind, seed, lines, 60.5);
            int[] steps = {0};
            ClockErrors all = run(kind, seed, hours, steps);
            System.out.printf(
                    "| %s | %s | %s | %s | %s | %d |%n",
                    kind,
                    kind.pings().words,
                    cell(early.offsetS, 1e3, early.offsetsHeld, lines),
                    cell(late.skewPpm, 1, late.skewsHeld, lines),
                    cell(all.offsetS, 1e3, all.offsetsHeld, all.count()),
                    steps[0]);
        }
    }
}

package tickover.sim;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import tickover.align.CaptureSignal;
import tickover.order.AngleFinder;
import tickover.order.AngleFinding;
import tickover.order.AngleNote;
import tickover.order.AngularResampler;
import tickover.order.OrderLine;
import tickover.order.OrderLines;
import tickover.order.Ripple;
import tickover.order.ShaftAngle;

/**
 * Prints how well the angle is found without pulses, on simulated captures: speed against the true
 * one, order levels against those of pulses, and how often it says that it cannot.
 */
public final class AngleStudy {
    /** Speed is compared over spans of this, s; ripple within a cycle does not count. */
    private static final double SPAN_S = 0.3;

    /** This far from the ends nothing is compared, s. */
    private static final double END_S = 0.5;

    /** An angle further off than this is wrong. */
    static final double WRONG_PERCENT = 1;

    /** Levels of lines less certain than this are not compared. */
    private static final double CERTAIN_RATIO = 0.05;

    /** Levels so near to a belt line are not the engine's, orders. */
    private static final double BESIDE_ORDERS = 0.125;

    private static final int TOP_HALF_ORDERS = 40;
    private static final int PER_TURN = 128;

    private AngleStudy() {}

    /**
     * What one finding was worth.
     *
     * @param accepted whether there was an angle that claims to be sharpened
     * @param speedPercent rms error of speed, percent; 100 without an angle
     * @param levelPercents error of each certain order's level, percent
     */
    @SuppressWarnings("ArrayRecordComponent") // rows of a table, never compared
    record Score(boolean accepted, double speedPercent, double[] levelPercents) {
        double worstLevelPercent() {
            return Arrays.stream(levelPercents).max().orElse(0);
        }
    }

    static Score score(SweepCase sweep, CaptureSignal signal, ShaftAngle byPulses) {
        AngleFinding finding = AngleFinder.find(signal, sweep.prior());
        if (finding.angle().isEmpty()) {
            return new Score(false, 100, new double[0]);
        }
        ShaftAngle angle = finding.angle().orElseThrow();
        boolean accepted =
                finding.notes().stream()
                        .noneMatch(n -> n.kind() == AngleNote.Kind.REFINED && n.count() == 0);
        return new Score(accepted, speedPercent(sweep, angle), levels(sweep, angle, byPulses));
    }

    private static double speedPercent(SweepCase sweep, ShaftAngle angle) {
        double sum = 0;
        int n = 0;
        double endS = Math.min(angle.endS(), sweep.durationS()) - END_S;
        for (double t = Math.max(0, angle.startS()) + END_S; t + SPAN_S < endS; t += 0.05) {
            double found = angle.turnsAt(t + SPAN_S) - angle.turnsAt(t);
            double real = sweep.turnsAt(t + SPAN_S) - sweep.turnsAt(t);
            sum += Math.pow(found / real - 1, 2);
            n++;
        }
        return 100 * Math.sqrt(sum / Math.max(1, n));
    }

    private static double[] levels(SweepCase sweep, ShaftAngle angle, ShaftAngle byPulses) {
        double[] orders = new double[TOP_HALF_ORDERS];
        Arrays.setAll(orders, i -> (i + 1) / 2.0);
        List<OrderLine> found = lines(sweep, angle, orders);
        List<OrderLine> real = lines(sweep, byPulses, orders);
        return java.util.stream.IntStream.range(0, orders.length)
                .filter(i -> real.get(i).standardError() < CERTAIN_RATIO * real.get(i).rms())
                .filter(i -> !sweep.besideBelt(orders[i], BESIDE_ORDERS))
                .mapToDouble(i -> 100 * Math.abs(found.get(i).rms() / real.get(i).rms() - 1))
                .toArray();
    }

    private static List<OrderLine> lines(SweepCase sweep, ShaftAngle angle, double[] orders) {
        return OrderLines.of(
                AngularResampler.resample(sweep.accelMps2, sweep.rateHz, angle, PER_TURN), orders);
    }

    static ShaftAngle byPulses(SweepCase sweep) {
        return AngleFinder.find(sweep.withPulses(), sweep.prior(), Ripple.TAKEN_OUT)
                .angle()
                .orElseThrow();
    }

    /**
     * Prints a line per capture and the distribution.
     *
     * @param args first seed, number of captures; {@code quiet} leaves the lines out
     */
    public static void main(String[] args) {
        long from = args.length > 0 ? Long.parseLong(args[0]) : 2_001_000;
        int count = args.length > 1 ? Integer.parseInt(args[1]) : 200;
        boolean quiet = args.length > 2 && args[2].equals("quiet");
        List<List<Score>> scores =
                List.of(new ArrayList<>(), new ArrayList<>(), new ArrayList<>(), new ArrayList<>());
        for (long seed = from; seed < from + count; seed++) {
            SweepCase sweep = new SweepCase(seed);
            ShaftAngle byPulses = byPulses(sweep);
            Score readings = score(sweep, sweep.withReadings(), byPulses);
            Score alone = score(sweep, sweep.alone(), byPulses);
            int idle = sweep.regime == SimulatedCapture.Regime.IDLE ? 1 : 0;
            scores.get(idle).add(readings);
            scores.get(2 + idle).add(alone);
            if (!quiet) {
                System.out.printf(
                        Locale.ROOT,
                        "%d %s %d cyl %4.0f-%4.0f rpm belt %+5.1f dB | readings %s | alone %s%n",
                        seed,
                        sweep.regime.word(),
                        sweep.cylinders,
                        sweep.rpmAt(0),
                        sweep.rpmAt(sweep.durationS()),
                        sweep.beltDb,
                        text(readings),
                        text(alone));
            }
        }
        String[] names = {"readings, sweep", "readings, idle", "alone, sweep", "alone, idle"};
        for (int k = 0; k < names.length; k++) {
            print(names[k], scores.get(k));
        }
    }

    private static String text(Score s) {
        return String.format(
                Locale.ROOT,
                "%s %7.3f %% level %6.1f %%",
                s.accepted ? "yes" : "no ",
                s.speedPercent,
                s.worstLevelPercent());
    }

    private static void print(String name, List<Score> all) {
        double[] speed =
                all.stream().filter(Score::accepted).mapToDouble(Score::speedPercent).toArray();
        double[] level =
                all.stream()
                        .filter(Score::accepted)
                        .mapToDouble(Score::worstLevelPercent)
                        .toArray();
        double[] lines =
                all.stream()
                        .filter(Score::accepted)
                        .flatMapToDouble(s -> Arrays.stream(s.levelPercents))
                        .toArray();
        System.out.printf(
                Locale.ROOT,
                "%-16s %3d captures, refused %4.1f %%, wrong by more than 1 %%: %4.1f %%, speed to"
                        + " 0.1 %%: %4.1f %%; speed %s; lines %s; worst line %s%n",
                name,
                all.size(),
                100 - 100.0 * speed.length / all.size(),
                100.0 * Arrays.stream(speed).filter(v -> v > WRONG_PERCENT).count() / all.size(),
                100.0
                        * Arrays.stream(speed).filter(v -> v <= 0.1).count()
                        / Math.max(1, speed.length),
                spread(speed),
                spread(lines),
                spread(level));
    }

    private static String spread(double[] values) {
        Arrays.sort(values);
        int n = values.length;
        return n == 0
                ? "-"
                : String.format(
                        Locale.ROOT,
                        "%.3f / %.3f / %.3f",
                        values[n / 2],
                        values[(int) (0.95 * (n - 1))],
                        values[n - 1]);
    }
}

package tickover.session;

import java.nio.charset.StandardCharsets;
import java.time.LocalDateTime;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.UUID;
import java.util.function.IntConsumer;
import tickover.diagnose.CaptureLabel;
import tickover.diagnose.MeasuredLevel;
import tickover.diagnose.Mount;
import tickover.diagnose.Regime;
import tickover.diagnose.RepairMark;
import tickover.diagnose.VehicleTrend;
import tickover.diagnose.VisitMoment;
import tickover.drive.Condition;
import tickover.sim.SimulatedHistory;
import tickover.sim.SimulatedHistory.Course;

/**
 * How soon a change is noticed and how often there is none, on simulated histories, beside plain
 * rules on the same levels: "6 dB above the first visit" and "6 dB above the mean of the earlier
 * visits".
 */
public final class TrendStudy {
    /** Twice the level: the trade's habit of when to look. */
    private static final double PLAIN_RULE_DB = 20 * Math.log10(2);

    /** Histories of one vehicle before this many visits can say nothing by any method. */
    private static final int FIRST_JUDGED = 2;

    private static final LocalDateTime START = LocalDateTime.parse("2020-01-06T09:00:00");
    private static final double SPEED_RPM = 780;
    private static final double ERROR_RATIO = 0.03;

    private static final Condition[] LOADS = {
        Condition.UNLOADED,
        Condition.UNLOADED.withAircon(true),
        Condition.UNLOADED.withHeadlights(true),
        Condition.UNLOADED.withSteering(true)
    };

    private TrendStudy() {}

    /**
     * A kind of history.
     *
     * @param name in words
     * @param spec what is simulated
     * @param marked whether the repair is marked, or the new mount entered
     */
    public record Scenario(String name, SimulatedHistory.Spec spec, boolean marked) {}

    /**
     * What one method made of one kind of history.
     *
     * @param falsePer100Visits visits in a hundred at which it called something that had not
     *     changed
     * @param found share of histories in which it called the changed part within the history; 0 if
     *     nothing changes for the worse
     * @param medianDelayVisits visits from the change to the first call, the visit of the change
     *     itself being 1; median over all histories, those without a call counted as never; 0 if it
     *     was never called in half of them, or nothing changes for the worse
     */
    public record Outcome(double falsePer100Visits, double found, double medianDelayVisits) {}

    /**
     * All methods on one kind of history.
     *
     * @param scenario which
     * @param trend how the levels are judged here
     * @param aboveFirst 6 dB above the first visit
     * @param aboveMean 6 dB above the mean of the earlier visits
     */
    public record Line(Scenario scenario, Outcome trend, Outcome aboveFirst, Outcome aboveMean) {}

    /**
     * Lists the kinds of histories: twelve visits, twelve parts at four places, with what hand-held
     * probing scatters.
     *
     * @return in the order in which they are told
     */
    public static List<Scenario> scenarios() {
        List<Scenario> all = new ArrayList<>();
        all.add(new Scenario("nothing changes", spec(0, Course.SOUND, 0, 0), true));
        all.add(new Scenario("nothing changes, seasons ±2 dB", spec(2, Course.SOUND, 0, 0), true));
        all.add(new Scenario("slow growth, 1 dB a visit", spec(0, Course.GROWTH, 5, 1), true));
        all.add(new Scenario("growth, 2 dB a visit", spec(0, Course.GROWTH, 5, 2), true));
        all.add(new Scenario("step of 6 dB", spec(0, Course.STEP, 5, 6), true));
        all.add(new Scenario("step of 10 dB", spec(0, Course.STEP, 5, 10), true));
        all.add(
                new Scenario(
                        "step of 10 dB at the third visit", spec(0, Course.STEP, 2, 10), true));
        all.add(
                new Scenario(
                        "growth, 2 dB a visit, seasons ±2 dB", spec(2, Course.GROWTH, 5, 2), true));
        all.add(new Scenario("repair, 10 dB quieter, marked", spec(0, Course.REPAIR, 5, 10), true));
        all.add(
                new Scenario(
                        "repair, 10 dB quieter, not marked", spec(0, Course.REPAIR, 5, 10), false));
        all.add(
                new Scenario(
                        "other mount, 6 dB louder, entered", spec(0, Course.REMOUNT, 5, 6), true));
        all.add(
                new Scenario(
                        "other mount, 6 dB louder, not entered",
                        spec(0, Course.REMOUNT, 5, 6),
                        false));
        return List.copyOf(all);
    }

    private static SimulatedHistory.Spec spec(
            double seasonDb, Course course, int from, double sizeDb) {
        return new SimulatedHistory.Spec(12, 12, 4, 1.4, 1.4, seasonDb, course, from, sizeDb);
    }

    /**
     * Tries all methods on one kind of history.
     *
     * @param scenario which
     * @param histories how many
     * @param firstSeed their first seed
     * @param progress hears how many are done
     * @return what came of it
     */
    public static Line judge(
            Scenario scenario, int histories, long firstSeed, IntConsumer progress) {
        Tally trend = new Tally(histories);
        Tally first = new Tally(histories);
        Tally mean = new Tally(histories);
        for (int i = 0; i < histories; i++) {
            SimulatedHistory h = SimulatedHistory.of(scenario.spec(), firstSeed + i);
            for (int v = FIRST_JUDGED; v < scenario.spec().visits(); v++) {
                trend.add(i, v, scenario, called(h, v, scenario));
                first.add(i, v, scenario, calledPlainly(h, v, false));
                mean.add(i, v, scenario, calledPlainly(h, v, true));
            }
            progress.accept(i + 1);
        }
        return new Line(
                scenario, trend.outcome(scenario), first.outcome(scenario), mean.outcome(scenario));
    }

    /** Which parts are called at a visit. */
    private static boolean[] called(SimulatedHistory h, int visit, Scenario scenario) {
        boolean[] called = new boolean[h.spec().parts()];
        boolean mark = scenario.spec().course() == Course.REPAIR && scenario.marked();
        int from = scenario.spec().fromVisit();
        List<RepairMark> marks =
                mark && visit >= from
                        ? List.of(
                                new RepairMark(
                                        new UUID(0, 1),
                                        "ML-07",
                                        moment(h, from).date().minusDays(1),
                                        "p0",
                                        ""))
                        : List.of();
        for (VehicleTrend.Judged j : VehicleTrend.of(levels(h, visit, scenario), marks).series()) {
            if (j.needsAttention()) {
                String part = j.trend().series().place().part();
                called[Integer.parseInt(part.substring(1))] = true;
            }
        }
        return called;
    }

    private static VisitMoment moment(SimulatedHistory h, int visit) {
        return VisitMoment.of(
                UUID.nameUUIDFromBytes(("v" + visit).getBytes(StandardCharsets.UTF_8)),
                START.plusDays(h.day(visit)));
    }

    private static List<MeasuredLevel> levels(
            SimulatedHistory h, int lastVisit, Scenario scenario) {
        boolean remounted = scenario.spec().course() == Course.REMOUNT && scenario.marked();
        List<MeasuredLevel> levels = new ArrayList<>();
        for (int v = 0; v <= lastVisit; v++) {
            VisitMoment moment = moment(h, v);
            Mount mount = remounted && v >= scenario.spec().fromVisit() ? Mount.MAGNET : Mount.HAND;
            for (int p = 0; p < h.spec().parts(); p++) {
                for (int k = 0; k < h.spec().places(); k++) {
                    double level = Math.pow(10, h.levelDb(v, p, k) / 20);
                    levels.add(
                            new MeasuredLevel(
                                    moment,
                                    "p" + p,
                                    new CaptureLabel(
                                            "c" + k,
                                            "bracket",
                                            "radial",
                                            mount,
                                            Regime.IDLE,
                                            LOADS[k % LOADS.length]),
                                    SPEED_RPM,
                                    level,
                                    ERROR_RATIO * level,
                                    "1"));
                }
            }
        }
        return levels;
    }

    private static boolean[] calledPlainly(SimulatedHistory h, int visit, boolean againstMean) {
        boolean[] called = new boolean[h.spec().parts()];
        for (int p = 0; p < called.length; p++) {
            for (int k = 0; k < h.spec().places(); k++) {
                double before = h.levelDb(0, p, k);
                for (int v = 1; againstMean && v < visit; v++) {
                    before += (h.levelDb(v, p, k) - before) / (v + 1);
                }
                called[p] |= h.levelDb(visit, p, k) - before > PLAIN_RULE_DB;
            }
        }
        return called;
    }

    /** Counts the calls of one method. */
    private static final class Tally {
        private final int[] delays;
        private int visits;
        private int falseVisits;

        Tally(int histories) {
            delays = new int[histories];
        }

        void add(int history, int visit, Scenario scenario, boolean[] called) {
            boolean worse = worse(scenario) && visit >= scenario.spec().fromVisit();
            boolean wrong = false;
            for (int p = 0; p < called.length; p++) {
                wrong |= called[p] && !(worse && p == 0);
            }
            visits++;
            falseVisits += wrong ? 1 : 0;
            if (worse && called[0] && delays[history] == 0) {
                delays[history] = visit - scenario.spec().fromVisit() + 1;
            }
        }

        private static boolean worse(Scenario scenario) {
            Course c = scenario.spec().course();
            return c == Course.GROWTH || c == Course.STEP;
        }

        Outcome outcome(Scenario scenario) {
            int[] sorted =
                    Arrays.stream(delays)
                            .map(d -> d == 0 ? Integer.MAX_VALUE : d)
                            .sorted()
                            .toArray();
            int median = sorted[(sorted.length - 1) / 2];
            long found = Arrays.stream(delays).filter(d -> d > 0).count();
            return new Outcome(
                    100.0 * falseVisits / visits,
                    worse(scenario) ? (double) found / delays.length : 0,
                    median == Integer.MAX_VALUE ? 0 : median);
        }
    }
}

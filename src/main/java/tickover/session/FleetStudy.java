package tickover.session;

import java.lang.management.ManagementFactory;
import java.nio.charset.StandardCharsets;
import java.time.LocalDateTime;
import java.util.ArrayList;
import java.util.Iterator;
import java.util.List;
import java.util.Locale;
import java.util.NoSuchElementException;
import java.util.Random;
import java.util.UUID;
import tickover.diagnose.Candidate;
import tickover.diagnose.CaptureLabel;
import tickover.diagnose.CaptureSummary;
import tickover.diagnose.Fault;
import tickover.diagnose.Findings;
import tickover.diagnose.Mount;
import tickover.diagnose.PartLevel;
import tickover.diagnose.Regime;
import tickover.diagnose.SisterComparison;
import tickover.diagnose.VehicleTrend;
import tickover.diagnose.Verdict;
import tickover.diagnose.VisitMoment;
import tickover.diagnose.VisitResult;
import tickover.drive.Condition;
import tickover.drive.Pulley;
import tickover.drive.Vehicle;
import tickover.sim.LibraryPool;
import tickover.sim.SimulatedHistory;
import tickover.sim.SimulatedHistory.Course;
import tickover.store.History;
import tickover.store.Log;
import tickover.store.LogPlace;
import tickover.store.PracticeLog;

/**
 * How fast a log of a big fleet answers: writes simulated visits with their results, twelve parts
 * in four captures each, and measures what every front end asks.
 */
public final class FleetStudy {
    private static final int PARTS = 12;
    private static final LocalDateTime START = LocalDateTime.parse("2016-01-04T08:00:00");
    private static final double SPEED_RPM = 780;
    private static final double ERROR_RATIO = 0.03;
    private static final int ASKED = 60;
    private static final int WARM_UP = 20;

    private static final List<Condition> LOADS =
            List.of(
                    Condition.UNLOADED,
                    Condition.UNLOADED.withAircon(true),
                    Condition.UNLOADED.withHeadlights(true),
                    Condition.UNLOADED.withSteering(true));

    /** One in so many vehicles has a part that grows louder. */
    private static final int WORN_EVERY = 40;

    private final LogPlace place;
    private final int vehicles;
    private final int visitsEach;
    private final Vehicle model = LibraryPool.complaint().vehicle();

    /**
     * What was measured.
     *
     * @param visits visits in the log
     * @param vehicles vehicles in the log
     * @param writeS time to write them all, s
     * @param fileBytes size of the database
     * @param judgeS time to judge every vehicle anew, s
     * @param trend one part's trend with its sisters, the vehicle's other parts judged too
     * @param fleet the fleet's overview with nothing changed
     * @param changed the overview after one vehicle has a new repair mark
     * @param needLook vehicles that need a look
     */
    public record Figures(
            int visits,
            int vehicles,
            double writeS,
            long fileBytes,
            double judgeS,
            Times trend,
            Times fleet,
            Times changed,
            int needLook) {}

    /**
     * How long a question took each time it was asked. One thread does it all, so that on a machine
     * with nothing else to do both are the same.
     *
     * @param processorNs processor time, rising, ns
     * @param clockNs time by the clock, rising, ns
     */
    public record Times(List<Long> processorNs, List<Long> clockNs) {
        public Times {
            processorNs = processorNs.stream().sorted().toList();
            clockNs = clockNs.stream().sorted().toList();
        }
    }

    /** Times one question again and again. */
    private static final class Watch {
        private final List<Long> processor = new ArrayList<>();
        private final List<Long> clock = new ArrayList<>();

        void time(int index, Runnable question) {
            long clockBegin = System.nanoTime();
            long begin = ManagementFactory.getThreadMXBean().getCurrentThreadCpuTime();
            question.run();
            long took = ManagementFactory.getThreadMXBean().getCurrentThreadCpuTime() - begin;
            if (index >= WARM_UP) {
                processor.add(took);
                clock.add(System.nanoTime() - clockBegin);
            }
        }

        Times times() {
            return new Times(processor, clock);
        }
    }

    /** Hears what is being done. */
    public interface Progress {
        /**
         * Tells it.
         *
         * @param what in words
         * @param done how much of it
         * @param total how much there is
         */
        void at(String what, int done, int total);
    }

    /**
     * Plans a study.
     *
     * @param place where the log lives; it has to be empty or new
     * @param vehicles number of vehicles, &gt;= 1
     * @param visitsEach visits of each, &gt;= 1
     */
    public FleetStudy(LogPlace place, int vehicles, int visitsEach) {
        this.place = place;
        this.vehicles = vehicles;
        this.visitsEach = visitsEach;
        if (!(vehicles >= 1 && visitsEach >= 1)) {
            throw new IllegalArgumentException(
                    "vehicles=" + vehicles + ", visitsEach=" + visitsEach + ", need >= 1");
        }
    }

    /**
     * Writes the log only.
     *
     * @param place where it lives; it has to be empty or new
     * @param vehicles number of vehicles, &gt;= 1; the first of every {@value #WORN_EVERY} has a
     *     part that grows louder
     * @param visitsEach visits of each, &gt;= 1
     */
    public static void fill(LogPlace place, int vehicles, int visitsEach) {
        FleetStudy study = new FleetStudy(place, vehicles, visitsEach);
        try (Log log = Log.open(place)) {
            PracticeLog.fill(log, study.visits(), vehicles * visitsEach, (d, t) -> {});
        }
    }

    /**
     * Writes the log and measures.
     *
     * @param progress hears how far it is
     * @return the figures
     * @throws tickover.store.StoreException if the log is not empty or fails
     */
    public Figures run(Progress progress) {
        Figures open = measure(progress);
        // Only a closed log has everything in one file.
        return new Figures(
                open.visits(),
                open.vehicles(),
                open.writeS(),
                size(),
                open.judgeS(),
                open.trend(),
                open.fleet(),
                open.changed(),
                open.needLook());
    }

    private Figures measure(Progress progress) {
        int total = vehicles * visitsEach;
        try (Log log = Log.open(place)) {
            long begin = System.nanoTime();
            PracticeLog.fill(log, visits(), total, (d, t) -> progress.at("writing visit", d, t));
            double writeS = (System.nanoTime() - begin) / 1e9;
            begin = System.nanoTime();
            log.history().refresh((d, t) -> progress.at("judging vehicle", d, t));
            double judgeS = (System.nanoTime() - begin) / 1e9;
            Times trend = trends(log);
            Watch fleet = new Watch();
            Watch changed = new Watch();
            int[] needLook = {0};
            for (int i = 0; i < ASKED; i++) {
                fleet.time(i, () -> needLook[0] = overview(log));
                log.history().addRepair(unit(i % vehicles), START, "", "practice");
                changed.time(i, () -> overview(log));
            }
            return new Figures(
                    total,
                    vehicles,
                    writeS,
                    0,
                    judgeS,
                    trend,
                    fleet.times(),
                    changed.times(),
                    needLook[0]);
        }
    }

    private static int overview(Log log) {
        log.history().refresh((d, t) -> {});
        return (int) log.history().fleet().stream().filter(l -> l.urgency() > 0).count();
    }

    private long size() {
        try (Log log = Log.open(place)) {
            return PracticeLog.sizeBytes(log);
        }
    }

    private Times trends(Log log) {
        Random random = new Random(1);
        Watch watch = new Watch();
        for (int i = 0; i < ASKED; i++) {
            String unit = unit(random.nextInt(vehicles));
            String part = part(random.nextInt(PARTS));
            watch.time(
                    i,
                    () -> {
                        History history = log.history();
                        VehicleTrend trend = history.trend(unit);
                        SisterComparison.of(
                                trend.of(part).get(0).trend().series(),
                                history.sisters(unit, part));
                    });
        }
        return watch.times();
    }

    private static String unit(int vehicle) {
        return String.format(Locale.ROOT, "ML-%05d", vehicle);
    }

    private String part(int index) {
        List<Pulley> pulleys = model.pulleys();
        return index < pulleys.size()
                ? pulleys.get(index).name()
                : List.of("engine", "injectors", "belt:main", "belt:fan", "fan-2", "idler-9")
                                .get((index - pulleys.size()) % 6)
                        + (index - pulleys.size() < 6 ? "" : "-" + index);
    }

    private Iterator<PracticeLog.PracticeVisit> visits() {
        return new Iterator<>() {
            private int next;
            private SimulatedHistory history;

            @Override
            public boolean hasNext() {
                return next < vehicles * visitsEach;
            }

            @Override
            public PracticeLog.PracticeVisit next() {
                if (!hasNext()) {
                    throw new NoSuchElementException();
                }
                int vehicle = next / visitsEach;
                int visit = next % visitsEach;
                if (visit == 0) {
                    history = history(vehicle);
                }
                next++;
                return visit(history, vehicle, visit);
            }
        };
    }

    private SimulatedHistory history(int vehicle) {
        boolean worn = vehicle % WORN_EVERY == 0;
        return SimulatedHistory.of(
                new SimulatedHistory.Spec(
                        visitsEach,
                        PARTS,
                        LOADS.size(),
                        1.4,
                        1.4,
                        0,
                        worn ? Course.GROWTH : Course.SOUND,
                        visitsEach / 2,
                        3),
                vehicle);
    }

    private PracticeLog.PracticeVisit visit(SimulatedHistory h, int vehicle, int visit) {
        UUID id =
                UUID.nameUUIDFromBytes(
                        ("practice " + vehicle + " " + visit).getBytes(StandardCharsets.UTF_8));
        VisitMoment moment =
                VisitMoment.of(id, START.plusDays(h.day(visit)).plusMinutes(vehicle % 400))
                        .withOdometerKm(10_000 + 60.0 * h.day(visit));
        List<CaptureSummary> captures = new ArrayList<>();
        List<PartLevel> levels = new ArrayList<>();
        for (int k = 0; k < LOADS.size(); k++) {
            String capture = "c0" + (k + 1);
            captures.add(
                    new CaptureSummary(
                            new CaptureLabel(
                                    capture,
                                    "bracket",
                                    "radial",
                                    Mount.HAND,
                                    Regime.IDLE,
                                    LOADS.get(k)),
                            "tach",
                            12,
                            SPEED_RPM,
                            SPEED_RPM - 5,
                            SPEED_RPM + 5,
                            1));
            for (int p = 0; p < PARTS; p++) {
                double level = Math.pow(10, h.levelDb(visit, p, k) / 20);
                levels.add(new PartLevel(part(p), capture, level, ERROR_RATIO * level, List.of()));
            }
        }
        Findings findings =
                new Findings(
                        Verdict.NONE,
                        List.of(new Candidate(Candidate.NONE, Fault.NONE, 1, List.of())),
                        List.of(),
                        List.of());
        return new PracticeLog.PracticeVisit(
                moment,
                new Vehicle(
                        unit(vehicle),
                        model.description(),
                        model.engine(),
                        model.belts(),
                        model.pulleys()),
                new VisitResult(findings, captures, levels, CodeVersion.text(), "practice"));
    }
}

package tickover.session;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashSet;
import java.util.List;
import java.util.Locale;
import java.util.Objects;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Stream;
import tickover.diagnose.Candidate;
import tickover.diagnose.CaptureSummary;
import tickover.diagnose.Complaint;
import tickover.diagnose.Fault;
import tickover.diagnose.Findings;
import tickover.diagnose.MeasuredLevel;
import tickover.diagnose.Ranking;
import tickover.diagnose.RankingLearner;
import tickover.diagnose.RankingModel;
import tickover.diagnose.RisenParts;
import tickover.diagnose.Verdict;
import tickover.diagnose.VisitEvidence;
import tickover.drive.Pulley;
import tickover.drive.Role;
import tickover.drive.Vehicle;
import tickover.sim.SimulatedVisit;
import tickover.sim.Workshop;
import tickover.store.Visit;
import tickover.store.VisitFolder;

/**
 * Learns the ranking on simulated visits and measures it on others.
 *
 * <p>Every visit goes the way of a real one: written as a visit folder, read back, analysed. Tuning
 * and test seeds come from ranges that never meet ({@link Workshop#TUNING_SEEDS_FROM}, {@link
 * Workshop#TEST_SEEDS_FROM}).
 */
public final class RankingStudy {
    /** Two tape-measured diameters closer than this may be those of equal pulleys. */
    private static final double EQUAL_RATIO = 0.025;

    /** How often each visit is learned from again with some points left out. */
    private static final int PARTIALS = 2;

    private final Path scratch;
    private final boolean keepVisits;

    /**
     * Prepares a study.
     *
     * @param scratch folder for the simulated visits
     * @param keepVisits whether folders stay there, to be used again by the next study
     */
    public RankingStudy(Path scratch, boolean keepVisits) {
        this.scratch = Objects.requireNonNull(scratch, "scratch");
        this.keepVisits = keepVisits;
    }

    /**
     * What became of one simulated visit.
     *
     * @param seed its seed
     * @param component the true component
     * @param alike pulleys that cannot be told from the true one, which may answer for it: as large
     *     as it within {@value #EQUAL_RATIO}, and neither recorded at its own point
     * @param fault the true fault
     * @param severityRatio 0 for barely there to 1 for about to fail
     * @param speed where speed came from
     * @param recordedAtPart whether the true component's own point was recorded
     * @param loudest the component at whose point it was loudest
     * @param verdict what was answered
     * @param first the candidate that came first, {@code none} among them
     * @param firstPart the part that came first
     * @param firstPartUntold the same by the captures alone, the complaint unread
     */
    public record Outcome(
            long seed,
            String component,
            Set<String> alike,
            Fault fault,
            double severityRatio,
            String speed,
            boolean recordedAtPart,
            String loudest,
            Verdict verdict,
            Candidate first,
            Candidate firstPart,
            Candidate firstPartUntold) {
        /** Keeps its own copy of the set. */
        public Outcome {
            alike = Set.copyOf(alike);
        }

        /**
         * Returns whether the right answer came first, {@code none} counted as one.
         *
         * @return true if so
         */
        public boolean right() {
            return isIt(first.component());
        }

        /**
         * Returns whether the right part came first among the parts.
         *
         * @return true if so; false for a healthy engine
         */
        public boolean rightPart() {
            return isIt(firstPart.component());
        }

        /**
         * Returns whether the right part came first by the captures alone.
         *
         * @return true if so; false for a healthy engine
         */
        public boolean rightPartUntold() {
            return isIt(firstPartUntold.component());
        }

        /**
         * Returns whether the loudest point names the right part.
         *
         * @return true if so; false for a healthy engine
         */
        public boolean loudestRight() {
            return isIt(loudest);
        }

        private boolean isIt(String answer) {
            return answer.equals(component) || alike.contains(answer);
        }

        /**
         * Returns whether the verdict names a component.
         *
         * @return true if so
         */
        public boolean named() {
            return verdict == Verdict.COMPONENT;
        }

        /**
         * Returns whether nothing was wrong.
         *
         * @return true for a healthy engine
         */
        public boolean healthy() {
            return component.equals(Candidate.NONE);
        }

        /**
         * Returns whether a healthy engine was accused.
         *
         * @return true if nothing was wrong and the verdict names a component
         */
        public boolean falselyAccused() {
            return healthy() && named();
        }
    }

    /** One simulated visit on disk, with its truth. */
    private record Prepared(
            long seed,
            Path folder,
            String component,
            Fault fault,
            double severityRatio,
            String speed) {}

    /**
     * Judges visits as workshops hand them in, faults and healthy engines in the usual shares.
     *
     * @param firstSeed first seed
     * @param count number of visits
     * @param earlier how many earlier visits of each vehicle, when it was well, are known; 0 for
     *     none
     * @param progress hears of every finished visit
     * @return one outcome per visit
     */
    public List<Outcome> judge(
            long firstSeed, int count, int earlier, VisitAnalysis.Progress progress) {
        RankingModel model = RankingModel.learned();
        List<Outcome> out = new ArrayList<>();
        for (int i = 0; i < count; i++) {
            Prepared p = prepare(firstSeed + i);
            Visit visit = VisitFolder.read(p.folder);
            VisitAnalysis.Gathered gathered = VisitAnalysis.gather(visit, (done, total) -> {});
            VisitEvidence evidence = gathered.evidence();
            Findings untold = Ranking.of(evidence, Complaint.of(""), model, List.of());
            Findings alone =
                    Ranking.of(evidence, Complaint.of(visit.complaint()), model, List.of());
            Findings findings = earlier > 0 ? inLight(alone, visit, gathered, p, earlier) : alone;
            Set<String> points = new HashSet<>();
            visit.captures().forEach(c -> points.add(c.label().point()));
            out.add(
                    new Outcome(
                            p.seed,
                            p.component,
                            alike(visit.vehicle(), p.component, points),
                            p.fault,
                            p.severityRatio,
                            p.speed,
                            evidence.isRecordedAt(p.component),
                            evidence.loudest(),
                            findings.verdict(),
                            findings.first(),
                            findings.firstPart(),
                            untold.firstPart()));
            discard(p);
            progress.reached(i + 1, count);
        }
        return out;
    }

    /** The findings with earlier visits weighed in, which are made and measured like any other. */
    private Findings inLight(
            Findings alone, Visit visit, VisitAnalysis.Gathered gathered, Prepared p, int earlier) {
        List<MeasuredLevel> levels = new ArrayList<>();
        for (int years = earlier; years >= 1; years--) {
            Path folder = p.folder.resolveSibling("before-" + years);
            if (!Files.exists(folder)) {
                writeWhole(Workshop.before(p.seed, years), folder);
            }
            Visit before = VisitFolder.read(folder);
            levels.addAll(VisitAnalysis.gather(before, (done, total) -> {}).measured(before));
        }
        levels.addAll(gathered.measured(visit));
        return Ranking.inLightOf(
                alone,
                visit.vehicle(),
                gathered.summaries().stream().map(CaptureSummary::label).toList(),
                RisenParts.of(levels, visit.id(), List.of()));
    }

    /** Writes a visit so that an interrupted study leaves either all of it or nothing. */
    private static void writeWhole(SimulatedVisit visit, Path folder) {
        Path making = folder.resolveSibling(folder.getFileName() + ".making");
        try {
            clear(making);
            SimulatedFolders.write(visit, making);
            Files.move(making, folder);
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    /** Pulleys that no order tells from a component, neither of them recorded at its own point. */
    private static Set<String> alike(Vehicle vehicle, String component, Set<String> points) {
        Set<String> out = new HashSet<>();
        Optional<Pulley> it = vehicle.pulley(component);
        if (it.isEmpty() || points.contains(component)) {
            return out;
        }
        for (Pulley other : vehicle.pulleys()) {
            double ratio = other.diameterMm() / it.get().diameterMm();
            boolean equal = Math.abs(ratio - 1) < EQUAL_RATIO && other.role() != Role.CRANK;
            if (equal && !other.name().equals(component) && !points.contains(other.name())) {
                out.add(other.name());
            }
        }
        return out;
    }

    /**
     * Learns weights on visits as workshops hand them in, and on each of them again with some
     * points left out.
     *
     * @param firstSeed first seed
     * @param count number of visits
     * @param ridge as for {@link RankingLearner}
     * @param progress hears of every finished visit
     * @return the model
     */
    public RankingModel learn(
            long firstSeed, int count, double ridge, VisitAnalysis.Progress progress) {
        RankingLearner learner = new RankingLearner(ridge);
        for (int i = 0; i < count; i++) {
            Prepared p = prepare(firstSeed + i);
            VisitEvidence whole = VisitAnalysis.evidence(VisitFolder.read(p.folder));
            learner.add(whole, p.component, p.fault);
            for (int k = 1; k <= PARTIALS; k++) {
                whole.partial(PARTIALS * p.seed + k)
                        .ifPresent(partial -> learner.addPartial(partial, p.component, p.fault));
            }
            discard(p);
            progress.reached(i + 1, count);
        }
        return learner.learn();
    }

    private Prepared prepare(long seed) {
        Path home = scratch.resolve("visit-" + seed);
        Path folder = home.resolve("visit");
        Path truthFile = home.resolve("truth.txt");
        try {
            if (!Files.exists(truthFile)) {
                SimulatedVisit visit = Workshop.visit(seed);
                clear(home);
                Files.createDirectories(home);
                SimulatedFolders.write(visit, folder);
                Files.writeString(
                        truthFile,
                        String.join(
                                "\n",
                                visit.truth().component(),
                                visit.truth().fault().word(),
                                Double.toString(visit.truth().severityRatio()),
                                visit.captures()
                                        .get(0)
                                        .speed()
                                        .kind()
                                        .name()
                                        .toLowerCase(Locale.ROOT)));
            }
            List<String> truth = Files.readAllLines(truthFile);
            return new Prepared(
                    seed,
                    folder,
                    truth.get(0),
                    Fault.ofWord(truth.get(1)).orElse(Fault.UNSPECIFIED),
                    Double.parseDouble(truth.get(2)),
                    truth.get(3));
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    private void discard(Prepared p) {
        if (keepVisits) {
            return;
        }
        try {
            clear(p.folder.getParent());
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    /** Removes a folder; what an interrupted study left behind is not to be trusted. */
    private static void clear(Path home) throws IOException {
        if (!Files.exists(home)) {
            return;
        }
        try (Stream<Path> walk = Files.walk(home)) {
            for (Path path : walk.sorted(Comparator.reverseOrder()).toList()) {
                Files.delete(path);
            }
        }
    }
}

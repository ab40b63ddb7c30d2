package tickover.session;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import java.util.Objects;
import java.util.stream.Stream;
import tickover.diagnose.Candidate;
import tickover.diagnose.Fault;
import tickover.diagnose.Findings;
import tickover.diagnose.Ranking;
import tickover.diagnose.RankingLearner;
import tickover.diagnose.RankingModel;
import tickover.diagnose.Verdict;
import tickover.diagnose.VisitEvidence;
import tickover.sim.FaultKind;
import tickover.sim.SimulatedVisit;
import tickover.sim.Workshop;
import tickover.sim.WorkshopCase;
import tickover.store.VisitFolder;

/**
 * Learns the ranking on simulated visits and measures it on others.
 *
 * <p>Every visit goes the way of a real one: written as a visit folder, read back, analysed. Tuning
 * and test seeds come from ranges that never meet ({@link Workshop#TUNING_SEEDS_FROM}, {@link
 * Workshop#TEST_SEEDS_FROM}).
 */
public final class RankingStudy {
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
     * @param fault the true fault
     * @param severityRatio 0 for barely there to 1 for about to fail
     * @param speed where speed came from
     * @param verdict what was answered
     * @param first the candidate that came first, {@code none} among them
     * @param firstPart the part that came first
     */
    public record Outcome(
            long seed,
            String component,
            Fault fault,
            double severityRatio,
            String speed,
            Verdict verdict,
            Candidate first,
            Candidate firstPart) {
        /**
         * Returns whether the right answer came first, {@code none} counted as one.
         *
         * @return true if so
         */
        public boolean right() {
            return first.component().equals(component);
        }

        /**
         * Returns whether the right part came first among the parts.
         *
         * @return true if so; false for a healthy engine
         */
        public boolean rightPart() {
            return firstPart.component().equals(component);
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
         * Returns whether a healthy engine was accused.
         *
         * @return true if nothing was wrong and the verdict names a component
         */
        public boolean falselyAccused() {
            return component.equals(Candidate.NONE) && named();
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
     * Judges visits with faults of every kind in turn.
     *
     * @param firstSeed first seed
     * @param count number of visits
     * @param progress hears of every finished visit
     * @return one outcome per visit
     */
    public List<Outcome> judgeFaults(long firstSeed, int count, VisitAnalysis.Progress progress) {
        return judge(firstSeed, count, true, progress);
    }

    /**
     * Judges visits of healthy engines.
     *
     * @param firstSeed first seed
     * @param count number of visits
     * @param progress hears of every finished visit
     * @return one outcome per visit
     */
    public List<Outcome> judgeHealthy(long firstSeed, int count, VisitAnalysis.Progress progress) {
        return judge(firstSeed, count, false, progress);
    }

    private List<Outcome> judge(
            long firstSeed, int count, boolean faulty, VisitAnalysis.Progress progress) {
        RankingModel model = RankingModel.learned();
        List<Outcome> out = new ArrayList<>();
        for (int i = 0; i < count; i++) {
            Prepared p = prepare(firstSeed + i, faulty ? faultFor(i) : FaultKind.NONE);
            VisitEvidence evidence = VisitAnalysis.evidence(VisitFolder.read(p.folder));
            Findings findings = Ranking.of(evidence, model, List.of());
            out.add(
                    new Outcome(
                            p.seed,
                            p.component,
                            p.fault,
                            p.severityRatio,
                            p.speed,
                            findings.verdict(),
                            findings.first(),
                            findings.firstPart()));
            discard(p);
            progress.reached(i + 1, count);
        }
        return out;
    }

    /**
     * Learns weights on visits of which a quarter is healthy and the others have faults of every
     * kind in turn.
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
            Prepared p = prepare(firstSeed + i, tuningKind(i));
            learner.add(VisitAnalysis.evidence(VisitFolder.read(p.folder)), p.component, p.fault);
            discard(p);
            progress.reached(i + 1, count);
        }
        return learner.learn();
    }

    /** A quarter of the visits that are learned from is healthy. */
    private static FaultKind tuningKind(int i) {
        return i % 4 == 3 ? FaultKind.NONE : faultFor(i - i / 4);
    }

    private static FaultKind faultFor(int i) {
        FaultKind[] kinds = FaultKind.values();
        // The last kind is "none".
        return kinds[i % (kinds.length - 1)];
    }

    private Prepared prepare(long seed, FaultKind kind) {
        Path home = scratch.resolve(kind.word() + "-" + seed);
        Path folder = home.resolve("visit");
        Path truthFile = home.resolve("truth.txt");
        try {
            if (!Files.exists(truthFile)) {
                SimulatedVisit visit = Workshop.visit(seed, WorkshopCase.any().withFault(kind));
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

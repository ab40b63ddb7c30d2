package tickover.session;

import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import java.util.Optional;
import java.util.UUID;
import java.util.function.Function;
import tickover.diagnose.CaptureSummary;
import tickover.diagnose.Findings;
import tickover.diagnose.Ranking;
import tickover.diagnose.Risen;
import tickover.diagnose.RisenParts;
import tickover.diagnose.VisitResult;
import tickover.store.KeptVisit;
import tickover.store.Log;
import tickover.store.LogPlace;
import tickover.store.Visit;

/**
 * What visits of the log say, each in the light of the vehicle's earlier ones.
 *
 * <p>What is saved is what a visit says by itself; earlier visits are weighed in anew each time, so
 * that nothing saved depends on the order in which visits came into the log.
 */
public final class KeptResults {
    /** So many visits before one are analysed where that was not done yet. */
    private static final int EARLIER = 3;

    private KeptResults() {}

    /**
     * Finds out what a kept visit says: from the log where this version of the program has said it
     * before, by analysis otherwise; that is saved then. Of a visit whose recordings were removed
     * by rule the last result counts, whatever made it. Up to {@value #EARLIER} visits before it
     * that were never analysed are analysed first.
     *
     * @param place where the log lives
     * @param visit a visit that is in it
     * @param analysis looks at a visit; the log is closed meanwhile, so that others can write
     * @return what it says, with how far its parts have risen since earlier visits weighed in
     * @throws tickover.store.StoreException if the log fails
     */
    public static VisitResult of(
            LogPlace place, Visit visit, Function<Visit, VisitResult> analysis) {
        Objects.requireNonNull(analysis, "analysis");
        List<Visit> unheard;
        Optional<VisitResult> known;
        try (Log log = Log.open(place)) {
            unheard = unheard(log, visit);
            known = saved(log, visit.id());
            if (unheard.isEmpty() && known.isPresent()) {
                return inLight(log, visit, known.get());
            }
        }
        for (Visit earlier : unheard) {
            VisitResult fresh = analysis.apply(earlier);
            try (Log log = Log.open(place)) {
                log.saveResult(earlier.id(), fresh);
            }
        }
        VisitResult result = known.orElseGet(() -> analysis.apply(visit));
        try (Log log = Log.open(place)) {
            if (known.isEmpty()) {
                log.saveResult(visit.id(), result);
            }
            return inLight(log, visit, result);
        }
    }

    /** What this version of the program, or of a removed recording any, has said of a visit. */
    private static Optional<VisitResult> saved(Log log, UUID id) {
        boolean removed = log.removedByRule(id).isPresent();
        return log.latestResult(id)
                .filter(r -> removed || r.codeVersion().equals(CodeVersion.text()));
    }

    /** The visits shortly before one that nobody has looked at, oldest first. */
    private static List<Visit> unheard(Log log, Visit visit) {
        List<Visit> out = new ArrayList<>();
        List<KeptVisit> earlier =
                log.visits(visit.vehicle().unit()).stream()
                        .filter(v -> v.date().isBefore(visit.date()))
                        .toList();
        int from = Math.max(0, earlier.size() - EARLIER);
        for (KeptVisit v : earlier.subList(from, earlier.size())) {
            if (v.analysedAt().isEmpty() && log.removedByRule(v.id()).isEmpty()) {
                log.visit(v.id()).ifPresent(out::add);
            }
        }
        return out;
    }

    private static VisitResult inLight(Log log, Visit visit, VisitResult result) {
        String unit = visit.vehicle().unit();
        List<Risen> risen =
                RisenParts.of(log.history().levels(unit), visit.id(), log.history().repairs(unit));
        Findings findings =
                Ranking.inLightOf(
                        result.findings(),
                        visit.vehicle(),
                        result.captures().stream().map(CaptureSummary::label).toList(),
                        risen);
        return new VisitResult(
                findings,
                result.captures(),
                result.levels(),
                result.codeVersion(),
                result.settings());
    }
}

package tickover.session;

import java.util.Objects;
import java.util.Optional;
import java.util.UUID;
import java.util.function.Function;
import tickover.diagnose.VisitResult;
import tickover.store.Log;
import tickover.store.LogPlace;
import tickover.store.Visit;

/** What visits of the log say. */
public final class KeptResults {
    private KeptResults() {}

    /**
     * Finds out what a kept visit says: from the log where this version of the program has said it
     * before, by analysis otherwise; that is saved then. Of a visit whose recordings were removed
     * by rule the last result counts, whatever made it.
     *
     * @param place where the log lives
     * @param visit a visit that is in it
     * @param analysis looks at the visit; the log is closed meanwhile, so that others can write
     * @return what it says
     * @throws tickover.store.StoreException if the log fails
     */
    public static VisitResult of(
            LogPlace place, Visit visit, Function<Visit, VisitResult> analysis) {
        Objects.requireNonNull(analysis, "analysis");
        UUID id = visit.id();
        try (Log log = Log.open(place)) {
            Optional<String> removed = log.removedByRule(id);
            Optional<VisitResult> known =
                    log.latestResult(id)
                            .filter(
                                    r ->
                                            removed.isPresent()
                                                    || r.codeVersion().equals(CodeVersion.text()));
            if (known.isPresent()) {
                return known.get();
            }
        }
        VisitResult fresh = analysis.apply(visit);
        try (Log log = Log.open(place)) {
            log.saveResult(id, fresh);
        }
        return fresh;
    }
}

package tickover.console.model;

import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Objects;
import java.util.Optional;
import java.util.UUID;
import tickover.diagnose.RepairMark;
import tickover.diagnose.VisitResult;
import tickover.session.KeptResults;
import tickover.session.VisitAnalysis;
import tickover.store.KeptVisit;
import tickover.store.Visit;

/**
 * A visit of the log and what it says.
 *
 * @param visit the visit
 * @param result what it says
 */
record KeptStory(Visit visit, VisitResult result) {
    KeptStory {
        Objects.requireNonNull(visit, "visit");
        Objects.requireNonNull(result, "result");
    }

    /** Reads a visit; it is analysed if this version of the program has not done so. */
    static KeptStory of(ConsoleModel console, UUID id) {
        Visit visit =
                console.fromLog(log -> log.visit(id))
                        .orElseThrow(() -> new IllegalStateException("The visit is gone."));
        VisitResult result =
                KeptResults.of(
                        console.options().log(),
                        visit,
                        v -> VisitAnalysis.analyse(v, (done, total) -> {}));
        return new KeptStory(visit, result);
    }

    /** The part whose repair is marked between two visits; empty if none is. Reads the log. */
    static Optional<String> repairedBetween(ConsoleModel console, Visit before, Visit after) {
        List<RepairMark> marks =
                console.fromLog(log -> log.history().repairs(after.vehicle().unit()));
        return RepairMark.partBetween(marks, before.date(), after.date());
    }

    /** A vehicle's visits, newest first. Reads the log: not for the screen's thread. */
    static List<KeptVisit> newestFirst(ConsoleModel console, String unit) {
        List<KeptVisit> found = new ArrayList<>(console.fromLog(log -> log.visits(unit)));
        Collections.reverse(found);
        return found;
    }
}

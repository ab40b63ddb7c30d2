package tickover.console.model;

import java.util.Objects;
import java.util.Optional;
import java.util.UUID;
import tickover.diagnose.CaptureLabel;
import tickover.drive.Condition;
import tickover.drive.PartWords;
import tickover.store.KeptVisit;
import tickover.store.Visit;
import tickover.store.VisitCapture;

/**
 * A visit to listen to: one of the log, or the round that is under way.
 *
 * @param id which visit of the log; all zero for the round
 * @param words what it is called
 */
public record ListenSource(UUID id, String words) {
    /** What the round that is under way has captured so far. */
    static final ListenSource ROUND = new ListenSource(new UUID(0, 0), "this round so far");

    /** No earlier visit. */
    static final ListenSource NONE = new ListenSource(new UUID(0, 1), "nothing earlier");

    public ListenSource {
        Objects.requireNonNull(id, "id");
        Objects.requireNonNull(words, "words");
    }

    static ListenSource of(KeptVisit visit) {
        return new ListenSource(visit.id(), FindingsModel.words(visit));
    }

    /** Says of a capture where and under which load it was. */
    static String words(CaptureLabel label) {
        String load = label.condition().equals(Condition.UNLOADED) ? "" : ", " + label.condition();
        return label.id() + ", at " + PartWords.the(label.point()) + load;
    }

    /** The capture of a visit that is most like one of another; empty if none has its point. */
    static Optional<VisitCapture> like(Visit visit, CaptureLabel wanted) {
        VisitCapture best = null;
        int bestScore = 0;
        for (VisitCapture capture : visit.captures()) {
            int score = score(capture.label(), wanted);
            if (capture.removed().isEmpty() && score > bestScore) {
                best = capture;
                bestScore = score;
            }
        }
        return Optional.ofNullable(best);
    }

    private static int score(CaptureLabel a, CaptureLabel b) {
        if (!a.point().equals(b.point())) {
            return 0;
        }
        int score = 1;
        score += a.condition().equals(b.condition()) ? 4 : 0;
        score += a.regime() == b.regime() ? 2 : 0;
        score += a.mount() == b.mount() && a.axis().equals(b.axis()) ? 1 : 0;
        return score;
    }
}

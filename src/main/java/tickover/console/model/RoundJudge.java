package tickover.console.model;

import java.util.List;
import tickover.diagnose.QualityProblem;
import tickover.report.Wording;
import tickover.session.Round;

/** Says whether a capture of a round is of use. */
final class RoundJudge {
    /** What makes a capture worthless; the rest only limits it. */
    private static final List<QualityProblem> WORTHLESS =
            List.of(
                    QualityProblem.CLIPPED,
                    QualityProblem.LOST_CONTACT,
                    QualityProblem.FLAT,
                    QualityProblem.TOO_LITTLE_LEFT,
                    QualityProblem.TOO_FEW_TURNS,
                    QualityProblem.NO_SPEED);

    private RoundJudge() {}

    /** Why a capture has to be repeated; empty if it is of use. */
    static String worthless(Round.SoFar soFar, String id) {
        return soFar.result().findings().quality().stream()
                .filter(q -> q.capture().equals(id) && WORTHLESS.contains(q.problem()))
                .findFirst()
                .map(q -> Wording.problem(q.problem()) + ": " + q.text())
                .orElseGet(() -> gone(soFar, id));
    }

    private static String gone(Round.SoFar soFar, String id) {
        boolean there = soFar.visit().captures().stream().anyMatch(c -> c.label().id().equals(id));
        return there ? "" : "Nothing usable came of it.";
    }
}

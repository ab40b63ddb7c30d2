package tickover.diagnose;

import java.util.Objects;

/** A capture that says nothing of orders. The message is a whole sentence. */
public final class UnusableCaptureException extends Exception {
    private static final long serialVersionUID = 1;

    private final QualityProblem problem;

    UnusableCaptureException(QualityProblem problem, String sentence) {
        super(sentence);
        this.problem = Objects.requireNonNull(problem, "problem");
    }

    /**
     * Returns what is wrong, as in {@link QualityNote#problem}.
     *
     * @return such as {@link QualityProblem#FLAT}
     */
    public QualityProblem problem() {
        return problem;
    }
}

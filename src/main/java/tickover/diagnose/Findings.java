package tickover.diagnose;

import java.util.List;
import java.util.Objects;

/**
 * What one visit says.
 *
 * @param verdict what it comes to
 * @param candidates most probable first; never empty; {@code none} is always among them;
 *     probabilities add up to 1
 * @param nextTests most information for its work and risk first; may be empty
 * @param quality what limits the captures
 */
public record Findings(
        Verdict verdict,
        List<Candidate> candidates,
        List<NextTest> nextTests,
        List<QualityNote> quality) {
    private static final double SUM_ROUND_OFF = 1e-9;

    public Findings {
        Objects.requireNonNull(verdict, "verdict");
        candidates = List.copyOf(candidates);
        nextTests = List.copyOf(nextTests);
        quality = List.copyOf(quality);
        double sum = candidates.stream().mapToDouble(Candidate::probability).sum();
        if (!(Math.abs(sum - 1) <= SUM_ROUND_OFF)) {
            throw new IllegalArgumentException("probabilities sum=" + sum + ", need 1");
        }
    }

    /**
     * Returns the most probable candidate.
     *
     * @return the first
     */
    public Candidate first() {
        return candidates.get(0);
    }

    /**
     * Returns the most probable part, whether or not a healthy engine is more probable still.
     *
     * @return the first candidate that is a part; {@code none} only where no part was ranked
     */
    public Candidate firstPart() {
        return candidates.stream()
                .filter(c -> !c.component().equals(Candidate.NONE))
                .findFirst()
                .orElse(first());
    }

    /**
     * Returns the candidate that the answer is about.
     *
     * @return {@code none} if that is the verdict, else the part to look at first
     */
    public Candidate subject() {
        return verdict == Verdict.NONE ? first() : firstPart();
    }
}

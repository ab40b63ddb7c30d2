package tickover.diagnose;

import java.util.List;
import java.util.Objects;

/**
 * What a bench record comes to.
 *
 * @param verdict the verdict
 * @param probability how likely it is; for {@link BenchVerdict#UNCLEAR} that of the likeliest one
 * @param odds all verdicts with their probabilities, which add up to 1, likeliest first
 * @param speedRpm mean speed that was used, rpm
 * @param speedConfirmed whether the record or a tach shows that speed; false if a given speed was
 *     taken on trust
 * @param patterns what was found of each fault's pattern
 * @param lines the lines that were looked at
 * @param levels levels of the record
 * @param notes what limits this result, one sentence each
 */
public record BenchResult(
        BenchVerdict verdict,
        double probability,
        List<BenchOdds> odds,
        double speedRpm,
        boolean speedConfirmed,
        List<BenchPattern> patterns,
        List<BenchLine> lines,
        List<BenchLevel> levels,
        List<String> notes) {
    public BenchResult {
        Objects.requireNonNull(verdict, "verdict");
        odds = List.copyOf(odds);
        patterns = List.copyOf(patterns);
        lines = List.copyOf(lines);
        levels = List.copyOf(levels);
        notes = List.copyOf(notes);
    }
}

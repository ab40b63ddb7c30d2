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
 * @param findings whether it runs true, has play, is rough
 * @param differences levels against known-good parts, if there were any
 * @param spectrum the envelope order spectrum in which the clearest pattern stands best
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
        List<String> notes,
        List<BenchFinding> findings,
        List<BenchDifference> differences,
        BenchSpectrum spectrum) {
    public BenchResult {
        Objects.requireNonNull(verdict, "verdict");
        odds = List.copyOf(odds);
        patterns = List.copyOf(patterns);
        lines = List.copyOf(lines);
        levels = List.copyOf(levels);
        notes = List.copyOf(notes);
        findings = List.copyOf(findings);
        differences = List.copyOf(differences);
        Objects.requireNonNull(spectrum, "spectrum");
    }
}

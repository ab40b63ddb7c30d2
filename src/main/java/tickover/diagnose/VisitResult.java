package tickover.diagnose;

import java.util.List;
import java.util.Objects;

/**
 * Everything computed from one visit, with what made it.
 *
 * @param findings the ranking
 * @param captures one summary per capture whose speed could be found
 * @param levels one level per part and capture
 * @param codeVersion version of the program that made it
 * @param settings the settings that made it, as {@code name=value} separated by spaces
 */
public record VisitResult(
        Findings findings,
        List<CaptureSummary> captures,
        List<PartLevel> levels,
        String codeVersion,
        String settings) {
    public VisitResult {
        Objects.requireNonNull(findings, "findings");
        Objects.requireNonNull(codeVersion, "codeVersion");
        Objects.requireNonNull(settings, "settings");
        captures = List.copyOf(captures);
        levels = List.copyOf(levels);
    }
}

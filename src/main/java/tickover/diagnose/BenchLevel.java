package tickover.diagnose;

import java.util.Objects;

/**
 * One level of a bench record. Levels are reported, they carry no verdict.
 *
 * @param name which, such as {@code velocity-50-300}
 * @param value how much
 * @param unit {@code m/s²}, {@code mm/s}, or empty for a pure number
 * @param text what it is and what it is worth
 */
public record BenchLevel(String name, double value, String unit, String text) {
    public BenchLevel {
        Objects.requireNonNull(name, "name");
        Objects.requireNonNull(unit, "unit");
        Objects.requireNonNull(text, "text");
        if (!Double.isFinite(value)) {
            throw new IllegalArgumentException("value=" + value + ", need a finite level");
        }
    }
}

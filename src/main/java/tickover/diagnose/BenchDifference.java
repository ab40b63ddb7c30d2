package tickover.diagnose;

import java.util.Objects;

/**
 * One level of a bench record against the same level of known-good parts.
 *
 * @param name which level, as {@link BenchLevel#name}, or {@code swing-} and a pattern's name
 * @param unit {@code m/s²}, {@code mm/s}, or {@code of mean} for swings
 * @param value the record's level
 * @param goodValue the known-good parts' level
 * @param change the difference with its 95 % interval; positive is more than the good parts
 * @param coversTouches whether the interval holds what mounting another part and putting the probe
 *     down again does, which takes three known-good records
 */
public record BenchDifference(
        String name,
        String unit,
        double value,
        double goodValue,
        PartChange.Interval change,
        boolean coversTouches) {
    public BenchDifference {
        Objects.requireNonNull(name, "name");
        Objects.requireNonNull(unit, "unit");
        Objects.requireNonNull(change, "change");
    }
}

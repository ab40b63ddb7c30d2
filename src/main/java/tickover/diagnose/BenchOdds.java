package tickover.diagnose;

import java.util.Objects;

/**
 * How likely one verdict is.
 *
 * @param verdict the verdict, any but {@link BenchVerdict#UNCLEAR}
 * @param probability 0 to 1
 */
public record BenchOdds(BenchVerdict verdict, double probability) {
    public BenchOdds {
        Objects.requireNonNull(verdict, "verdict");
        if (!(probability >= 0 && probability <= 1)) {
            throw new IllegalArgumentException("probability=" + probability + ", need 0 to 1");
        }
    }
}

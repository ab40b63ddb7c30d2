package tickover.diagnose;

import java.util.List;
import java.util.Objects;

/**
 * Level of one order line in one capture.
 *
 * @param kind as {@link tickover.drive.PartLine#kind}
 * @param order where it was found, per crank turn
 * @param levelRmsMps2 rms of the line above its background, m/s², &gt;= 0
 * @param standardErrorMps2 its standard error from segments, m/s², &gt;= 0
 * @param sharedWith other parts that have a line within the order resolution; such a line is not
 *     counted in any part's level
 */
public record LineLevel(
        String kind,
        double order,
        double levelRmsMps2,
        double standardErrorMps2,
        List<String> sharedWith) {
    public LineLevel {
        Objects.requireNonNull(kind, "kind");
        sharedWith = List.copyOf(sharedWith);
        if (!(order > 0 && Double.isFinite(order))) {
            throw new IllegalArgumentException("order=" + order + ", need > 0 per crank turn");
        }
        if (!(levelRmsMps2 >= 0 && standardErrorMps2 >= 0)) {
            throw new IllegalArgumentException(
                    "levelRmsMps2="
                            + levelRmsMps2
                            + ", standardErrorMps2="
                            + standardErrorMps2
                            + ", need >= 0 m/s²");
        }
    }
}

package tickover.diagnose;

import java.util.List;
import java.util.Objects;

/**
 * Level of everything that belongs to one part alone, in one capture.
 *
 * @param part a pulley's name, {@code belt:NAME}, {@code engine}, {@code injectors}
 * @param capture the capture's id
 * @param levelRmsMps2 root of the summed squares of the part's unshared lines, m/s², &gt;= 0
 * @param standardErrorMps2 its standard error, m/s², &gt;= 0
 * @param lines every line that was looked for, shared ones too
 */
public record PartLevel(
        String part,
        String capture,
        double levelRmsMps2,
        double standardErrorMps2,
        List<LineLevel> lines) {
    public PartLevel {
        Objects.requireNonNull(part, "part");
        Objects.requireNonNull(capture, "capture");
        lines = List.copyOf(lines);
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

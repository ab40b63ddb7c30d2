package tickover.diagnose;

import java.util.Objects;
import tickover.drive.Condition;

/**
 * What a capture is of.
 *
 * @param id unique within the visit: the file name without its ending
 * @param point a pulley's name, {@code valve-cover}, {@code injector-N}, {@code block}, {@code
 *     bracket}, or free text
 * @param axis radial, axial, vertical, lateral, or free text; may be empty
 * @param mount how the probe was held
 * @param regime what the engine speed did
 * @param condition what the drive had to carry
 */
public record CaptureLabel(
        String id, String point, String axis, Mount mount, Regime regime, Condition condition) {
    public CaptureLabel {
        Objects.requireNonNull(id, "id");
        Objects.requireNonNull(point, "point");
        Objects.requireNonNull(axis, "axis");
        Objects.requireNonNull(mount, "mount");
        Objects.requireNonNull(regime, "regime");
        Objects.requireNonNull(condition, "condition");
    }
}

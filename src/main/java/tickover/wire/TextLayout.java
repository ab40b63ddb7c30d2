package tickover.wire;

import java.util.List;
import java.util.Objects;

/**
 * What the columns of a plain-text probe are.
 *
 * @param header the header line as it came, or as it was given
 * @param axes names of the acceleration columns, 1 to 3
 * @param unit what their numbers stand for
 * @param hasRpm whether there is an engine speed
 * @param hasPulse whether there is the time of the latest tach pulse
 */
public record TextLayout(
        String header, List<String> axes, TextUnit unit, boolean hasRpm, boolean hasPulse) {
    public TextLayout {
        Objects.requireNonNull(header, "header");
        Objects.requireNonNull(unit, "unit");
        axes = List.copyOf(axes);
        if (!(axes.size() >= 1 && axes.size() <= 3)) {
            throw new IllegalArgumentException("axes=" + axes.size() + ", need 1 to 3");
        }
    }
}

package tickover.diagnose;

import java.util.List;
import java.util.Objects;
import tickover.order.TimeRange;

/**
 * A fact that limits what a capture can say, and when it held.
 *
 * @param capture the capture's id; {@code vehicle.toml} or empty for what is about no capture
 * @param problem what is wrong
 * @param ranges when, s on the capture's base, rising; empty for the whole capture
 * @param text in a mechanic's words: what is wrong, how much of it, what to do
 */
public record QualityNote(
        String capture, QualityProblem problem, List<TimeRange> ranges, String text) {
    public QualityNote {
        Objects.requireNonNull(capture, "capture");
        Objects.requireNonNull(problem, "problem");
        Objects.requireNonNull(text, "text");
        ranges = List.copyOf(ranges);
    }

    /**
     * A note about a whole capture.
     *
     * @param capture the capture's id
     * @param problem what is wrong
     * @param text in a mechanic's words
     * @return the note
     */
    public static QualityNote ofWhole(String capture, QualityProblem problem, String text) {
        return new QualityNote(capture, problem, List.of(), text);
    }
}

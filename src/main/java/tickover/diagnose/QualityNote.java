package tickover.diagnose;

import java.util.Objects;

/**
 * Something that limits what a capture can say.
 *
 * @param capture the capture's id
 * @param problem a short word, such as {@code clipped}
 * @param text one sentence: what is wrong, how much of it, what to do
 */
public record QualityNote(String capture, String problem, String text) {
    public QualityNote {
        Objects.requireNonNull(capture, "capture");
        Objects.requireNonNull(problem, "problem");
        Objects.requireNonNull(text, "text");
    }
}

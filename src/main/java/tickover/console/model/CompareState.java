package tickover.console.model;

import java.util.List;
import java.util.Objects;

/**
 * What the screen of before and after shows, in words.
 *
 * @param title which two visits; empty if there are not two
 * @param headline whether the repair is proven, or what changed most; one sentence
 * @param text the same with interval and luck
 * @param news what is new since then, one sentence each
 * @param repaired the part that was repaired; empty if none is named
 * @param rows one for each part that can be compared
 * @param unlike captures without a like one, one sentence each
 */
public record CompareState(
        String title,
        String headline,
        String text,
        List<String> news,
        String repaired,
        List<Row> rows,
        List<String> unlike) {
    /** Nothing to hold against each other. */
    static final CompareState EMPTY =
            new CompareState("", "", "", List.of(), "", List.of(), List.of());

    /** How a part is marked on the drawing. */
    public enum Mark {
        /** No change that counts. */
        NONE,
        /** Quieter, as it should be. */
        BETTER,
        /** Louder, or new. */
        WORSE
    }

    /**
     * One part.
     *
     * @param part its name
     * @param words what changed, in a mechanic's words
     * @param levels before and after, m/s²
     * @param change the change and its interval, dB
     * @param luck how likely luck is
     * @param brief the change alone, for the drawing
     * @param mark how it is marked
     */
    public record Row(
            String part,
            String words,
            String levels,
            String change,
            String luck,
            String brief,
            Mark mark) {
        public Row {
            Objects.requireNonNull(part, "part");
            Objects.requireNonNull(words, "words");
            Objects.requireNonNull(levels, "levels");
            Objects.requireNonNull(change, "change");
            Objects.requireNonNull(luck, "luck");
            Objects.requireNonNull(brief, "brief");
            Objects.requireNonNull(mark, "mark");
        }
    }

    public CompareState {
        Objects.requireNonNull(title, "title");
        Objects.requireNonNull(headline, "headline");
        Objects.requireNonNull(text, "text");
        Objects.requireNonNull(repaired, "repaired");
        news = List.copyOf(news);
        rows = List.copyOf(rows);
        unlike = List.copyOf(unlike);
    }
}

package tickover.console.model;

import java.util.List;
import java.util.Objects;

/**
 * What the listening screen shows, in words.
 *
 * @param ready whether there is something to listen to
 * @param playing what is heard now; empty if nothing is
 * @param hasBefore whether an earlier visit has a like capture
 * @param after whose sound it is, where from
 * @param before the same of the earlier one; or why there is none
 * @param notes what the sounds are made of and what they are worth, one sentence each
 */
public record ListenState(
        boolean ready,
        String playing,
        boolean hasBefore,
        String after,
        String before,
        List<String> notes) {
    static final ListenState EMPTY = new ListenState(false, "", false, "", "", List.of());

    public ListenState {
        Objects.requireNonNull(playing, "playing");
        Objects.requireNonNull(after, "after");
        Objects.requireNonNull(before, "before");
        notes = List.copyOf(notes);
    }
}

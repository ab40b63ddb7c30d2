package tickover.console.model;

import java.util.Objects;

/**
 * One capture on the bench, and how that went.
 *
 * @param number counted from 1
 * @param part what was turned
 * @param knownGood whether it is a known-good part of its kind
 * @param state how it went
 * @param why what was wrong with it, if it has to be repeated; empty otherwise
 */
public record BenchTakeRow(
        int number, String part, boolean knownGood, Touch.State state, String why) {
    public BenchTakeRow {
        Objects.requireNonNull(part, "part");
        Objects.requireNonNull(state, "state");
        Objects.requireNonNull(why, "why");
    }

    BenchTakeRow as(Touch.State next, String reason) {
        return new BenchTakeRow(number, part, knownGood, next, reason);
    }
}

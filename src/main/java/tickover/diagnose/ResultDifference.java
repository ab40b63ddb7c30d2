package tickover.diagnose;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;

/**
 * How far two results of the same recordings differ.
 *
 * @param before the earlier result
 * @param after the later one
 * @param levels levels that differ by more than the larger of their two standard errors: the
 *     samples are the same, so what the errors stand for is in both alike and does not add up
 * @param appeared levels that only the later result has
 * @param vanished levels that only the earlier one has
 */
public record ResultDifference(
        VisitResult before,
        VisitResult after,
        List<LevelChange> levels,
        List<PartLevel> appeared,
        List<PartLevel> vanished) {
    /** Probabilities are shown in whole per cent; less than this is no difference to a reader. */
    private static final double LEAST_PROBABILITY_CHANGE = 0.01;

    public ResultDifference {
        Objects.requireNonNull(before, "before");
        Objects.requireNonNull(after, "after");
        levels = List.copyOf(levels);
        appeared = List.copyOf(appeared);
        vanished = List.copyOf(vanished);
    }

    /**
     * A level that is another now.
     *
     * @param before as the earlier result has it
     * @param after as the later one has it, of the same part and capture
     */
    public record LevelChange(PartLevel before, PartLevel after) {
        /**
         * Returns how much the level changed.
         *
         * @return m/s², at least 0
         */
        public double changeMps2() {
            return Math.abs(after.levelRmsMps2() - before.levelRmsMps2());
        }

        /**
         * Tells whether the level changed by more than its errors.
         *
         * @return true if by more than the larger of the two standard errors
         */
        public boolean isBeyondErrors() {
            return changeMps2() > Math.max(before.standardErrorMps2(), after.standardErrorMps2());
        }
    }

    /**
     * Compares two results.
     *
     * @param before the earlier one
     * @param after the later one
     * @return what differs
     */
    public static ResultDifference of(VisitResult before, VisitResult after) {
        Map<List<String>, PartLevel> earlier = new LinkedHashMap<>();
        before.levels().forEach(l -> earlier.put(List.of(l.part(), l.capture()), l));
        List<LevelChange> changed = new ArrayList<>();
        List<PartLevel> appeared = new ArrayList<>();
        for (PartLevel level : after.levels()) {
            PartLevel old = earlier.remove(List.of(level.part(), level.capture()));
            if (old == null) {
                appeared.add(level);
            } else if (new LevelChange(old, level).isBeyondErrors()) {
                changed.add(new LevelChange(old, level));
            }
        }
        return new ResultDifference(
                before, after, changed, appeared, new ArrayList<>(earlier.values()));
    }

    /**
     * Tells whether the verdict is another.
     *
     * @return true if so
     */
    public boolean verdictDiffers() {
        return before.findings().verdict() != after.findings().verdict();
    }

    /**
     * Tells whether the answer is about another part or another fault of it.
     *
     * @return true if so
     */
    public boolean suspectDiffers() {
        Candidate a = before.findings().subject();
        Candidate b = after.findings().subject();
        return !a.component().equals(b.component()) || a.fault() != b.fault();
    }

    /**
     * Tells whether the answer's probability differs by a per cent or more.
     *
     * @return true if so
     */
    public boolean probabilityDiffers() {
        return Math.abs(
                        before.findings().subject().probability()
                                - after.findings().subject().probability())
                >= LEAST_PROBABILITY_CHANGE;
    }

    /**
     * Tells whether anything differs.
     *
     * @return false if a reader would not see a difference
     */
    public boolean any() {
        return verdictDiffers()
                || suspectDiffers()
                || probabilityDiffers()
                || !(levels.isEmpty() && appeared.isEmpty() && vanished.isEmpty());
    }
}

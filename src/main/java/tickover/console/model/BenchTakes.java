package tickover.console.model;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import tickover.store.VisitCapture;

/** The captures of a sitting at the bench: how each went, and its samples where they came. */
final class BenchTakes {
    private final List<BenchTakeRow> rows = new ArrayList<>();
    private final Map<Integer, VisitCapture> captures = new HashMap<>();

    List<BenchTakeRow> rows() {
        return List.copyOf(rows);
    }

    int size() {
        return rows.size();
    }

    void clear() {
        rows.clear();
        captures.clear();
    }

    /** What is told of them stays. */
    void forgetSamples() {
        captures.clear();
    }

    boolean haveAny() {
        return !captures.isEmpty();
    }

    void begin(int number, String part, boolean knownGood) {
        rows.add(new BenchTakeRow(number, part, knownGood, Touch.State.RUNNING, ""));
    }

    /** The running one is over. */
    void end() {
        put(rows.size() - 1, Touch.State.CHECKING, "");
    }

    void came(int number, VisitCapture capture) {
        captures.put(number, capture);
    }

    /**
     * One is of no use as things were said; what came of it stays, for the speed may be given yet.
     *
     * @return whether it was of a known-good part
     */
    boolean spoilt(int number, String why) {
        put(number - 1, Touch.State.REPEAT, why);
        return rows.get(number - 1).knownGood();
    }

    /** Those that came have been judged. */
    void settle() {
        for (int i = 0; i < rows.size(); i++) {
            if (captures.containsKey(rows.get(i).number())) {
                put(i, Touch.State.GOOD, "");
            }
        }
    }

    /** The samples of the known-good parts, or of the part itself, in the order of capture. */
    List<VisitCapture> of(boolean knownGood) {
        List<VisitCapture> out = new ArrayList<>();
        for (BenchTakeRow row : rows) {
            VisitCapture capture = captures.get(row.number());
            if (capture != null && row.knownGood() == knownGood) {
                out.add(capture);
            }
        }
        return out;
    }

    private void put(int index, Touch.State next, String why) {
        rows.set(index, rows.get(index).as(next, why));
    }
}

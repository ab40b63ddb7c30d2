package tickover.session;

import java.util.ArrayList;
import java.util.List;
import java.util.Objects;

/**
 * Decides when captures begin and end while a recording runs: one after another, each begun by a
 * press of the button (or at once), each ended by the next press, by its length, or by its turns.
 *
 * <p>Holds no clock and no thread: presses, lengths and turns are told.
 */
final class CaptureScript {
    /**
     * When captures begin and end.
     *
     * @param byPress whether a press begins each; otherwise the only one begins with the first
     *     samples
     * @param openEnd whether captures go on being aimed at, so that the last is never known
     * @param lengthS length of each, s; 0: until a press or the end
     * @param turns crank turns of each; 0: no such limit
     */
    record Rule(boolean byPress, boolean openEnd, double lengthS, double turns) {
        Rule {
            if (!(lengthS >= 0 && turns >= 0)) {
                throw new IllegalArgumentException(
                        "lengthS=" + lengthS + ", turns=" + turns + ", need >= 0");
            }
        }
    }

    private final List<PlannedCapture> planned;
    private final Rule rule;
    private final List<RecordingNote> due = new ArrayList<>();
    private int begun;
    private boolean running;
    private double beganS;
    private double beganTurns;

    CaptureScript(List<PlannedCapture> planned, Rule rule) {
        this.planned = new ArrayList<>(planned);
        this.rule = Objects.requireNonNull(rule, "rule");
        if (!rule.byPress() && this.planned.size() > 1) {
            throw new IllegalArgumentException(
                    "planned has " + this.planned.size() + " captures, need a press to part them");
        }
    }

    /** Says what the next press begins, in place of what it would have begun. */
    void aim(PlannedCapture next) {
        planned.subList(begun, planned.size()).clear();
        planned.add(Objects.requireNonNull(next, "next"));
    }

    /** Where the running capture, or the next one, is; empty if nothing is planned. */
    String point() {
        int at = running ? begun - 1 : begun;
        return at < planned.size() ? planned.get(at).point() : "";
    }

    /** The first samples came. */
    void flowing(double nowS, double turns) {
        if (!rule.byPress() && !running && begun < planned.size()) {
            begin(nowS, turns);
        }
    }

    /** The button, or the key that stands for it, was pressed. */
    void pressed(double nowS, double turns) {
        if (rule.byPress() && running) {
            end();
        } else if (rule.byPress() && begun < planned.size()) {
            begin(nowS, turns);
        }
    }

    /** Time went on. */
    void reached(double nowS, double turns) {
        boolean longEnough = rule.lengthS() > 0 && nowS - beganS >= rule.lengthS();
        boolean turnedEnough = rule.turns() > 0 && turns - beganTurns >= rule.turns();
        if (running && (longEnough || turnedEnough)) {
            end();
        }
    }

    /** Nothing more comes. */
    void stop() {
        if (running) {
            end();
        }
    }

    private void begin(double nowS, double turns) {
        running = true;
        beganS = nowS;
        beganTurns = turns;
        due.add(RecordingNote.begins(begun + 1, planned.get(begun)));
        begun++;
    }

    private void end() {
        running = false;
        due.add(RecordingNote.ends(begun));
    }

    /** Takes what has to be written down now. */
    List<RecordingNote> takeDue() {
        List<RecordingNote> taken = List.copyOf(due);
        due.clear();
        return taken;
    }

    /** True if every capture has been made. */
    boolean finished() {
        return !rule.openEnd() && !planned.isEmpty() && begun == planned.size() && !running;
    }

    /** Number of the capture that runs, or of the next one, counted from 1. */
    int current() {
        return running ? begun : begun + 1;
    }

    boolean running() {
        return running;
    }

    double lengthSoFarS(double nowS) {
        return running ? nowS - beganS : 0;
    }
}

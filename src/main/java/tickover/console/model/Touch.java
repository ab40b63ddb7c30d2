package tickover.console.model;

import java.util.Objects;
import tickover.drive.Condition;

/**
 * One place to put the probe on, under one load, and how that went.
 *
 * @param point a pulley's name, valve-cover, injector-N, block, bracket or free text
 * @param condition what the drive has to carry
 * @param state how it went
 * @param why what was wrong with it, if it has to be repeated; empty otherwise
 */
public record Touch(String point, Condition condition, State state, String why) {
    /** How a touch went. */
    public enum State {
        /** Not done yet. */
        OPEN,
        /** Being captured. */
        RUNNING,
        /** Captured, and being looked at. */
        CHECKING,
        /** Captured, and good. */
        GOOD,
        /** Captured, and no use. */
        REPEAT
    }

    public Touch {
        Objects.requireNonNull(point, "point");
        Objects.requireNonNull(condition, "condition");
        Objects.requireNonNull(state, "state");
        Objects.requireNonNull(why, "why");
    }

    static Touch open(String point, Condition condition) {
        return new Touch(point, condition, State.OPEN, "");
    }

    Touch as(State next, String reason) {
        return new Touch(point, condition, next, reason);
    }
}

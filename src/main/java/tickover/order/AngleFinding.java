package tickover.order;

import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import java.util.Optional;

/** Either a shaft angle with notes on how it was found, or one sentence why there is none. */
public final class AngleFinding {
    private final ShaftAngle angle;
    private final String problem;
    private final List<AngleNote> notes;
    private final List<TimeRange> unknown;

    private AngleFinding(
            ShaftAngle angle, String problem, List<AngleNote> notes, List<TimeRange> unknown) {
        this.angle = angle;
        this.problem = problem;
        this.notes = List.copyOf(notes);
        this.unknown = List.copyOf(unknown);
    }

    static AngleFinding found(ShaftAngle angle, List<AngleNote> notes) {
        return found(angle, notes, List.of());
    }

    static AngleFinding found(ShaftAngle angle, List<AngleNote> notes, List<TimeRange> unknown) {
        return new AngleFinding(Objects.requireNonNull(angle, "angle"), null, notes, unknown);
    }

    static AngleFinding none(String problem) {
        return new AngleFinding(
                null, Objects.requireNonNull(problem, "problem"), List.of(), List.of());
    }

    /** The same with one more note. */
    AngleFinding with(AngleNote note) {
        List<AngleNote> more = new ArrayList<>(notes);
        more.add(note);
        return new AngleFinding(angle, problem, more, unknown);
    }

    /**
     * Returns the angle.
     *
     * @return empty if there is none
     */
    public Optional<ShaftAngle> angle() {
        return Optional.ofNullable(angle);
    }

    /**
     * Returns why there is no angle.
     *
     * @return one sentence, empty if there is an angle
     */
    public Optional<String> problem() {
        return Optional.ofNullable(problem);
    }

    /**
     * Returns what is worth knowing about how the angle was found.
     *
     * @return notes, perhaps none
     */
    public List<AngleNote> notes() {
        return notes;
    }

    /**
     * Returns where the angle is a guess, because the pulses were away for several turns.
     *
     * @return s on the capture's base, rising, perhaps none
     */
    public List<TimeRange> unknown() {
        return unknown;
    }
}

package tickover.diagnose;

import tickover.drive.Condition;
import tickover.drive.Role;

/** Loads that the user can switch, and the part that carries each. */
enum SwitchedLoad {
    AIRCON("aircon", Role.COMPRESSOR, "the air conditioning on"),
    HEADLIGHTS("headlights", Role.ALTERNATOR, "headlamps, heated screen and blower on"),
    STEERING(
            "steering",
            Role.STEERING_PUMP,
            "the steering held just short of full lock, a few seconds only");

    private final String word;
    private final Role role;
    private final String instruction;

    SwitchedLoad(String word, Role role, String instruction) {
        this.word = word;
        this.role = role;
        this.instruction = instruction;
    }

    String word() {
        return word;
    }

    Role role() {
        return role;
    }

    String instruction() {
        return instruction;
    }

    /** The same condition with this load off. */
    Condition off(Condition condition) {
        return switch (this) {
            case AIRCON -> condition.withAircon(false);
            case HEADLIGHTS -> condition.withHeadlights(false);
            case STEERING -> condition.withSteering(false);
        };
    }

    boolean isOn(Condition condition) {
        return switch (this) {
            case AIRCON -> condition.aircon();
            case HEADLIGHTS -> condition.headlights();
            case STEERING -> condition.steering();
        };
    }
}

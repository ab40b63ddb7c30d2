package tickover.drive;

import java.util.Objects;
import java.util.OptionalInt;

/** What the drive had to carry while something was recorded. */
public final class Condition {
    /** Idling free: no load switched on, out of gear, belt on, all injectors connected. */
    public static final Condition UNLOADED = new Condition(false, false, false, false, true, 0);

    private final boolean aircon;
    private final boolean driveGear;
    private final boolean headlights;
    private final boolean steering;
    private final boolean beltOn;
    private final int injectorOff;

    private Condition(
            boolean aircon,
            boolean driveGear,
            boolean headlights,
            boolean steering,
            boolean beltOn,
            int injectorOff) {
        this.aircon = aircon;
        this.driveGear = driveGear;
        this.headlights = headlights;
        this.steering = steering;
        this.beltOn = beltOn;
        this.injectorOff = injectorOff;
    }

    /**
     * The same with air conditioning on or off.
     *
     * @param value true for on
     * @return a copy
     */
    public Condition withAircon(boolean value) {
        return new Condition(value, driveGear, headlights, steering, beltOn, injectorOff);
    }

    /**
     * The same in or out of gear.
     *
     * @param value true for a drive gear held on the brake
     * @return a copy
     */
    public Condition withDriveGear(boolean value) {
        return new Condition(aircon, value, headlights, steering, beltOn, injectorOff);
    }

    /**
     * The same with the big electrical loads on or off.
     *
     * @param value true for on
     * @return a copy
     */
    public Condition withHeadlights(boolean value) {
        return new Condition(aircon, driveGear, value, steering, beltOn, injectorOff);
    }

    /**
     * The same with the steering held at full lock or straight.
     *
     * @param value true for full lock
     * @return a copy
     */
    public Condition withSteering(boolean value) {
        return new Condition(aircon, driveGear, headlights, value, beltOn, injectorOff);
    }

    /**
     * The same with the belt on or off.
     *
     * @param value true for on
     * @return a copy
     */
    public Condition withBeltOn(boolean value) {
        return new Condition(aircon, driveGear, headlights, steering, value, injectorOff);
    }

    /**
     * The same with one injector unplugged.
     *
     * @param cylinder from 1
     * @return a copy
     */
    public Condition withInjectorOff(int cylinder) {
        if (!(cylinder >= 1)) {
            throw new IllegalArgumentException("cylinder=" + cylinder + ", need >= 1");
        }
        return new Condition(aircon, driveGear, headlights, steering, beltOn, cylinder);
    }

    /**
     * Returns whether the air conditioning was on.
     *
     * @return true for on
     */
    public boolean aircon() {
        return aircon;
    }

    /**
     * Returns whether a drive gear was engaged.
     *
     * @return true for engaged
     */
    public boolean driveGear() {
        return driveGear;
    }

    /**
     * Returns whether the big electrical loads were on.
     *
     * @return true for on
     */
    public boolean headlights() {
        return headlights;
    }

    /**
     * Returns whether the steering was held at full lock.
     *
     * @return true for full lock
     */
    public boolean steering() {
        return steering;
    }

    /**
     * Returns whether the belt was on.
     *
     * @return false for a belt-off run
     */
    public boolean beltOn() {
        return beltOn;
    }

    /**
     * Returns which injector was unplugged.
     *
     * @return its number from 1, or empty
     */
    public OptionalInt injectorOff() {
        return injectorOff == 0 ? OptionalInt.empty() : OptionalInt.of(injectorOff);
    }

    @Override
    public boolean equals(Object other) {
        return other instanceof Condition c
                && aircon == c.aircon
                && driveGear == c.driveGear
                && headlights == c.headlights
                && steering == c.steering
                && beltOn == c.beltOn
                && injectorOff == c.injectorOff;
    }

    @Override
    public int hashCode() {
        return Objects.hash(aircon, driveGear, headlights, steering, beltOn, injectorOff);
    }

    @Override
    public String toString() {
        StringBuilder s = new StringBuilder();
        s.append(aircon ? "aircon on, " : "")
                .append(driveGear ? "in gear, " : "")
                .append(headlights ? "headlights on, " : "")
                .append(steering ? "full lock, " : "")
                .append(beltOn ? "" : "belt off, ")
                .append(injectorOff > 0 ? "injector " + injectorOff + " unplugged, " : "");
        return s.isEmpty() ? "no load" : s.substring(0, s.length() - 2);
    }
}

package tickover.drive;

import java.util.List;
import java.util.Objects;
import java.util.OptionalDouble;

/** A pulley with everything that the drive makes of it. */
public final class DrivePart {
    private final Pulley pulley;
    private final PulleySpeed speed;
    private final BeltRoute.Contact contact;
    private final List<PartBearing> bearings;
    private final List<PartLine> lines;

    DrivePart(
            Pulley pulley,
            PulleySpeed speed,
            BeltRoute.Contact contact,
            List<PartBearing> bearings,
            List<PartLine> lines) {
        this.pulley = Objects.requireNonNull(pulley, "pulley");
        this.speed = Objects.requireNonNull(speed, "speed");
        this.contact = contact;
        this.bearings = List.copyOf(bearings);
        this.lines = List.copyOf(lines);
    }

    /**
     * Returns the pulley as the user described it.
     *
     * @return the pulley
     */
    public Pulley pulley() {
        return pulley;
    }

    /**
     * Returns its name.
     *
     * @return unique within the vehicle
     */
    public String name() {
        return pulley.name();
    }

    /**
     * Returns what it drives.
     *
     * @return the role
     */
    public Role role() {
        return pulley.role();
    }

    /**
     * Returns its speed over the crank's: without slip, or as measured.
     *
     * @return turns per crank turn
     */
    public double turnsPerCrankTurn() {
        return speed.turnsPerCrankTurn();
    }

    /**
     * Returns which way it turns.
     *
     * @return with the crank or against it
     */
    public Direction direction() {
        return speed.direction();
    }

    /**
     * Returns how far the belt goes round it, on the first belt whose path names it and could be
     * laid out.
     *
     * @return degrees, empty if the positions do not say
     */
    public OptionalDouble wrapDeg() {
        return contact == null ? OptionalDouble.empty() : OptionalDouble.of(contact.wrapDeg());
    }

    /**
     * Returns its bearings of which internals are known.
     *
     * @return given or typical internals
     */
    public List<PartBearing> bearings() {
        return bearings;
    }

    /**
     * Returns every line that it can make.
     *
     * @return {@code turn} first, then pass lines, then bearing by bearing
     */
    public List<PartLine> lines() {
        return lines;
    }
}

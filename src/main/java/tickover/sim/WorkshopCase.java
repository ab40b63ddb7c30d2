package tickover.sim;

import java.util.Objects;
import java.util.Optional;
import java.util.OptionalDouble;
import tickover.drive.Role;

/** What a drawn visit has to be like; everything else is left to the seed. */
public final class WorkshopCase {
    private final FaultKind fault;
    private final Role role;
    private final SpeedRecord.Kind speed;
    private final Double severityRatio;

    private WorkshopCase(FaultKind fault, Role role, SpeedRecord.Kind speed, Double severityRatio) {
        this.fault = fault;
        this.role = role;
        this.speed = speed;
        this.severityRatio = severityRatio;
    }

    /**
     * Leaves everything to the seed.
     *
     * @return the case
     */
    public static WorkshopCase any() {
        return new WorkshopCase(null, null, null, null);
    }

    /**
     * The same with one kind of fault.
     *
     * @param value the fault, {@link FaultKind#NONE} for a healthy vehicle
     * @return a copy
     */
    public WorkshopCase withFault(FaultKind value) {
        return new WorkshopCase(Objects.requireNonNull(value, "value"), role, speed, severityRatio);
    }

    /**
     * The same with the fault in a part of one role, where the fault is one of a pulley.
     *
     * @param value the role
     * @return a copy
     */
    public WorkshopCase withRole(Role value) {
        return new WorkshopCase(
                fault, Objects.requireNonNull(value, "value"), speed, severityRatio);
    }

    /**
     * The same with one speed source.
     *
     * @param value the source
     * @return a copy
     */
    public WorkshopCase withSpeed(SpeedRecord.Kind value) {
        return new WorkshopCase(fault, role, Objects.requireNonNull(value, "value"), severityRatio);
    }

    /**
     * The same with one severity.
     *
     * @param valueRatio 0 for barely more than nothing to 1 for about to fail
     * @return a copy
     */
    public WorkshopCase withSeverity(double valueRatio) {
        if (!(valueRatio >= 0 && valueRatio <= 1)) {
            throw new IllegalArgumentException("valueRatio=" + valueRatio + ", need 0 to 1");
        }
        return new WorkshopCase(fault, role, speed, valueRatio);
    }

    Optional<FaultKind> fault() {
        return Optional.ofNullable(fault);
    }

    Optional<Role> role() {
        return Optional.ofNullable(role);
    }

    Optional<SpeedRecord.Kind> speed() {
        return Optional.ofNullable(speed);
    }

    OptionalDouble severityRatio() {
        return severityRatio == null ? OptionalDouble.empty() : OptionalDouble.of(severityRatio);
    }
}

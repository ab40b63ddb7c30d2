package tickover.store;

import java.time.LocalDateTime;
import java.util.List;
import java.util.Objects;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.UUID;
import tickover.drive.Vehicle;

/** A visit to be written as a new folder. */
public final class VisitDraft {
    private final Vehicle vehicle;
    private final LocalDateTime date;
    private final List<CaptureDraft> captures;
    private final Double odometerKm;
    private final String complaint;
    private final UUID id;

    private VisitDraft(
            Vehicle vehicle,
            LocalDateTime date,
            List<CaptureDraft> captures,
            Double odometerKm,
            String complaint,
            UUID id) {
        this.vehicle = Objects.requireNonNull(vehicle, "vehicle");
        this.date = Objects.requireNonNull(date, "date");
        this.captures = List.copyOf(captures);
        this.odometerKm = odometerKm;
        this.complaint = Objects.requireNonNull(complaint, "complaint");
        this.id = id;
    }

    /**
     * A visit without odometer, complaint and id.
     *
     * @param vehicle the vehicle
     * @param date local date and time
     * @param captures at least one
     * @return the draft
     */
    public static VisitDraft of(Vehicle vehicle, LocalDateTime date, List<CaptureDraft> captures) {
        if (captures.isEmpty()) {
            throw new IllegalArgumentException("captures is empty, need at least one");
        }
        return new VisitDraft(vehicle, date, captures, null, "", null);
    }

    /**
     * Says how far the vehicle had run.
     *
     * @param valueKm km, &gt;= 0
     * @return a changed copy
     */
    public VisitDraft withOdometerKm(double valueKm) {
        if (!(valueKm >= 0 && Double.isFinite(valueKm))) {
            throw new IllegalArgumentException("valueKm=" + valueKm + ", need >= 0 km");
        }
        return new VisitDraft(vehicle, date, captures, valueKm, complaint, id);
    }

    /**
     * Says what the driver complained of.
     *
     * @param value free text
     * @return a changed copy
     */
    public VisitDraft withComplaint(String value) {
        return new VisitDraft(vehicle, date, captures, odometerKm, value, id);
    }

    /**
     * Gives it an id of its own.
     *
     * @param value the id
     * @return a changed copy
     */
    public VisitDraft withId(UUID value) {
        return new VisitDraft(
                vehicle, date, captures, odometerKm, complaint, Objects.requireNonNull(value));
    }

    Vehicle vehicle() {
        return vehicle;
    }

    LocalDateTime date() {
        return date;
    }

    List<CaptureDraft> captures() {
        return captures;
    }

    OptionalDouble odometerKm() {
        return odometerKm == null ? OptionalDouble.empty() : OptionalDouble.of(odometerKm);
    }

    String complaint() {
        return complaint;
    }

    Optional<UUID> id() {
        return Optional.ofNullable(id);
    }
}

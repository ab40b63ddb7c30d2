package tickover.diagnose;

import java.time.LocalDateTime;
import java.util.Objects;
import java.util.OptionalDouble;
import java.util.UUID;

/** Which visit a level is of, and when that was. */
public final class VisitMoment {
    private final UUID id;
    private final LocalDateTime date;
    private final Double odometerKm;

    private VisitMoment(UUID id, LocalDateTime date, Double odometerKm) {
        this.id = Objects.requireNonNull(id, "id");
        this.date = Objects.requireNonNull(date, "date");
        this.odometerKm = odometerKm;
    }

    /**
     * Names a visit whose odometer nobody read.
     *
     * @param id the visit's
     * @param date local date and time
     * @return the moment
     */
    public static VisitMoment of(UUID id, LocalDateTime date) {
        return new VisitMoment(id, date, null);
    }

    /**
     * The same with the odometer's reading.
     *
     * @param value km, &gt;= 0
     * @return a copy
     */
    public VisitMoment withOdometerKm(double value) {
        if (!(value >= 0)) {
            throw new IllegalArgumentException("odometerKm=" + value + ", need >= 0 km");
        }
        return new VisitMoment(id, date, value);
    }

    /**
     * Returns which visit.
     *
     * @return its id
     */
    public UUID id() {
        return id;
    }

    /**
     * Returns when it was.
     *
     * @return local date and time
     */
    public LocalDateTime date() {
        return date;
    }

    /**
     * Returns how far the vehicle had run.
     *
     * @return km, empty if not given
     */
    public OptionalDouble odometerKm() {
        return odometerKm == null ? OptionalDouble.empty() : OptionalDouble.of(odometerKm);
    }

    @Override
    public boolean equals(Object other) {
        return other instanceof VisitMoment m
                && id.equals(m.id)
                && date.equals(m.date)
                && Objects.equals(odometerKm, m.odometerKm);
    }

    @Override
    public int hashCode() {
        return Objects.hash(id, date, odometerKm);
    }

    @Override
    public String toString() {
        return id + " of " + date;
    }
}

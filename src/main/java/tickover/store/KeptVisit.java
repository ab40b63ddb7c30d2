package tickover.store;

import java.time.Instant;
import java.time.LocalDateTime;
import java.util.Objects;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.UUID;
import tickover.diagnose.Verdict;

/** A line of the log's list of visits. */
public final class KeptVisit {
    private final UUID id;
    private final String unit;
    private final LocalDateTime date;
    private final Double odometerKm;
    private final String complaint;
    private final int captureCount;
    private final Analysis analysis;

    /** When it was last analysed, and what that came to. */
    record Analysis(Instant madeAt, Verdict verdict) {}

    KeptVisit(
            UUID id,
            String unit,
            LocalDateTime date,
            Double odometerKm,
            String complaint,
            int captureCount,
            Analysis analysis) {
        this.id = Objects.requireNonNull(id, "id");
        this.unit = Objects.requireNonNull(unit, "unit");
        this.date = Objects.requireNonNull(date, "date");
        this.odometerKm = odometerKm;
        this.complaint = Objects.requireNonNull(complaint, "complaint");
        this.captureCount = captureCount;
        this.analysis = analysis;
    }

    /**
     * Returns its id.
     *
     * @return the visit's
     */
    public UUID id() {
        return id;
    }

    /**
     * Returns whose visit it was.
     *
     * @return how the fleet calls the vehicle
     */
    public String unit() {
        return unit;
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

    /**
     * Returns what the driver complained of.
     *
     * @return free text, may be empty
     */
    public String complaint() {
        return complaint;
    }

    /**
     * Returns how many captures it has.
     *
     * @return &gt;= 1
     */
    public int captureCount() {
        return captureCount;
    }

    /**
     * Returns when its latest result was saved.
     *
     * @return empty if it has none
     */
    public Optional<Instant> analysedAt() {
        return Optional.ofNullable(analysis).map(Analysis::madeAt);
    }

    /**
     * Returns what its latest result came to.
     *
     * @return empty if it has none
     */
    public Optional<Verdict> verdict() {
        return Optional.ofNullable(analysis).map(Analysis::verdict);
    }
}

package tickover.store;

import java.time.LocalDateTime;
import java.util.List;
import java.util.Objects;
import java.util.Optional;
import java.util.UUID;
import tickover.diagnose.Attention;
import tickover.diagnose.Verdict;

/** How one vehicle of the fleet stands: a line of the fleet's overview. */
public final class FleetLine {
    private final String unit;
    private final int visits;
    private final UUID lastVisit;
    private final LocalDateTime lastSeen;
    private final Verdict verdict;
    private final int urgency;
    private final int seriesAsked;
    private final List<Reason> reasons;

    /**
     * A reason to look at the vehicle.
     *
     * @param attention the reason
     * @param role word of the part's role in the drive, such as {@code idler}; empty if the part is
     *     no pulley
     */
    public record Reason(Attention attention, String role) {
        public Reason {
            Objects.requireNonNull(attention, "attention");
            Objects.requireNonNull(role, "role");
        }
    }

    /** What the table holds of the last visit; nothing of it without one. */
    record Last(UUID id, LocalDateTime seen, Verdict verdict) {}

    FleetLine(
            String unit,
            int visits,
            Last last,
            int urgency,
            int seriesAsked,
            List<Reason> reasons) {
        this.unit = Objects.requireNonNull(unit, "unit");
        this.visits = visits;
        this.lastVisit = last.id();
        this.lastSeen = last.seen();
        this.verdict = last.verdict();
        this.urgency = urgency;
        this.seriesAsked = seriesAsked;
        this.reasons = List.copyOf(reasons);
    }

    /**
     * Returns which vehicle.
     *
     * @return how the fleet calls it
     */
    public String unit() {
        return unit;
    }

    /**
     * Returns how many visits are kept.
     *
     * @return 0 if only its drive was entered
     */
    public int visits() {
        return visits;
    }

    /**
     * Returns its last visit.
     *
     * @return empty without a visit
     */
    public Optional<UUID> lastVisit() {
        return Optional.ofNullable(lastVisit);
    }

    /**
     * Returns when that was.
     *
     * @return local time; empty without a visit
     */
    public Optional<LocalDateTime> lastSeen() {
        return Optional.ofNullable(lastSeen);
    }

    /**
     * Returns what that came to, with the earlier visits weighed in as far as they are analysed.
     *
     * @return empty if it was not analysed
     */
    public Optional<Verdict> verdict() {
        return Optional.ofNullable(verdict);
    }

    /**
     * Returns how urgent a look is.
     *
     * @return as {@link tickover.diagnose.VehicleStanding#urgency}
     */
    public int urgency() {
        return urgency;
    }

    /**
     * Returns how many series of levels the last visit has added to, over which false alarms are
     * held down.
     *
     * @return 0 if none had enough visits to be asked
     */
    public int seriesAsked() {
        return seriesAsked;
    }

    /**
     * Returns why.
     *
     * @return strongest first; empty if nothing needs a look
     */
    public List<Reason> reasons() {
        return reasons;
    }
}

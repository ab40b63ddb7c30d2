package tickover.store;

import java.sql.ResultSet;
import java.sql.SQLException;
import java.time.LocalDateTime;
import java.util.Objects;
import java.util.Optional;

/** A line of the log's list of vehicles. */
public final class KeptVehicle {
    private final String unit;
    private final int visits;
    private final LocalDateTime lastVisit;
    private final Written written;

    /** What people wrote: a description of the vehicle, and how many repairs and notes. */
    record Written(String description, int repairs, int notes) {}

    KeptVehicle(String unit, int visits, LocalDateTime lastVisit, Written written) {
        this.unit = Objects.requireNonNull(unit, "unit");
        this.visits = visits;
        this.lastVisit = lastVisit;
        this.written = Objects.requireNonNull(written, "written");
    }

    static KeptVehicle of(ResultSet r) throws SQLException {
        String last = r.getString("last_visit");
        return new KeptVehicle(
                r.getString("unit"),
                r.getInt("visits"),
                last == null ? null : LocalDateTime.parse(last),
                new Written(
                        Objects.requireNonNullElse(r.getString("description"), ""),
                        r.getInt("repairs"),
                        r.getInt("notes")));
    }

    /**
     * Returns how the fleet calls it.
     *
     * @return unique within the log
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
     * Returns when the latest visit was.
     *
     * @return local time; empty without a visit
     */
    public Optional<LocalDateTime> lastVisit() {
        return Optional.ofNullable(lastVisit);
    }

    /**
     * Returns what its last visit says of it.
     *
     * @return free text, may be empty
     */
    public String description() {
        return written.description();
    }

    /**
     * Returns how many repairs are marked.
     *
     * @return those taken back left out
     */
    public int repairs() {
        return written.repairs();
    }

    /**
     * Returns how many notes there are.
     *
     * @return those taken back left out
     */
    public int notes() {
        return written.notes();
    }
}

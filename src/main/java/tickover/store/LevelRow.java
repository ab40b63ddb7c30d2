package tickover.store;

import java.time.LocalDateTime;
import java.util.Objects;
import java.util.OptionalDouble;
import java.util.UUID;
import tickover.diagnose.CaptureLabel;

/** One part's level in one capture of one visit, as the visit's latest result has it. */
public final class LevelRow {
    private final UUID visitId;
    private final LocalDateTime date;
    private final Double odometerKm;
    private final CaptureLabel label;
    private final Level level;

    /**
     * The numbers.
     *
     * @param meanSpeedRpm mean crank speed of the capture, rpm
     * @param levelRmsMps2 m/s²
     * @param standardErrorMps2 m/s²
     */
    record Level(double meanSpeedRpm, double levelRmsMps2, double standardErrorMps2) {}

    LevelRow(UUID visitId, LocalDateTime date, Double odometerKm, CaptureLabel label, Level level) {
        this.visitId = Objects.requireNonNull(visitId, "visitId");
        this.date = Objects.requireNonNull(date, "date");
        this.odometerKm = odometerKm;
        this.label = Objects.requireNonNull(label, "label");
        this.level = Objects.requireNonNull(level, "level");
    }

    /**
     * Returns which visit.
     *
     * @return its id
     */
    public UUID visitId() {
        return visitId;
    }

    /**
     * Returns when the visit was.
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
     * Returns what the capture was of; only like may be held against like.
     *
     * @return the label
     */
    public CaptureLabel label() {
        return label;
    }

    /**
     * Returns the mean crank speed of the capture.
     *
     * @return rpm
     */
    public double meanSpeedRpm() {
        return level.meanSpeedRpm();
    }

    /**
     * Returns the part's level.
     *
     * @return rms of its unshared lines, m/s²
     */
    public double levelRmsMps2() {
        return level.levelRmsMps2();
    }

    /**
     * Returns the level's standard error.
     *
     * @return m/s²
     */
    public double standardErrorMps2() {
        return level.standardErrorMps2();
    }
}

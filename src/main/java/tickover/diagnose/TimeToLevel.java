package tickover.diagnose;

import java.time.LocalDate;
import java.time.temporal.ChronoUnit;
import java.util.Objects;
import java.util.Optional;

/**
 * When a rising level will reach one that the user has set, as far as the visits bear it: the
 * median line carried on, with the rate's interval.
 *
 * <p>Nothing is said of a time further ahead than the visits go back, nor where the rate's interval
 * holds no rise at all. Damage tends to speed up, so the line rather says too late than too early.
 */
public final class TimeToLevel {
    private static final double DAYS_PER_YEAR = 365.25;

    private final Kind kind;
    private final String reason;
    private final LocalDate earliest;
    private final LocalDate likely;
    private final LocalDate latest;
    private final LocalDate horizon;

    /** What can be said. */
    public enum Kind {
        /** The newest level is there already. */
        REACHED,
        /** There is a date, with an interval. */
        EXPECTED,
        /** The visits bear no date; the reason says why. */
        NOT_BORNE
    }

    private TimeToLevel(
            Kind kind,
            String reason,
            LocalDate earliest,
            LocalDate likely,
            LocalDate latest,
            LocalDate horizon) {
        this.kind = kind;
        this.reason = Objects.requireNonNull(reason, "reason");
        this.earliest = earliest;
        this.likely = likely;
        this.latest = latest;
        this.horizon = horizon;
    }

    private static TimeToLevel notBorne(String reason) {
        return new TimeToLevel(Kind.NOT_BORNE, reason, null, null, null, null);
    }

    /**
     * Carries the rate on.
     *
     * @param trend the series
     * @param levelDb the level to reach, dB re 1 m/s²
     * @return what can be said
     */
    public static TimeToLevel of(SeriesTrend trend, double levelDb) {
        if (!Double.isFinite(levelDb)) {
            throw new IllegalArgumentException("levelDb=" + levelDb + ", need a finite number");
        }
        int visits = trend.current().size();
        if (visits == 0) {
            return notBorne("there was no visit since the repair");
        }
        LevelSeries.Point newest = trend.current().get(visits - 1);
        if (newest.levelDb() >= levelDb) {
            return new TimeToLevel(Kind.REACHED, "", null, null, null, null);
        }
        if (trend.perYear().isEmpty()) {
            return notBorne(
                    visits
                            + (visits == 1 ? " visit" : " visits")
                            + " since the baseline began; a rate needs "
                            + SeriesTrend.FEWEST_FOR_RATE);
        }
        TheilSen rate = trend.perYear().get();
        Optional<TheilSen.Interval> interval = rate.interval();
        if (interval.isEmpty()) {
            return notBorne("so few visits bear no interval of a rate");
        }
        if (!(interval.get().low() > 0)) {
            return notBorne("the visits do not show that the level rises at all");
        }
        LocalDate from = trend.series().points().get(0).visit().date().toLocalDate();
        LocalDate first = trend.current().get(0).visit().date().toLocalDate();
        LocalDate last = newest.visit().date().toLocalDate();
        double now = ChronoUnit.DAYS.between(from, last) / DAYS_PER_YEAR;
        LocalDate horizon = last.plusDays(ChronoUnit.DAYS.between(first, last));
        LocalDate likely = date(last, levelDb - rate.valueAt(now), rate.slope());
        if (likely.isAfter(horizon)) {
            return notBorne(
                    "at the present rate not before "
                            + horizon
                            + ", and further ahead than the visits go back nobody can tell");
        }
        double fast = interval.get().high();
        double slow = interval.get().low();
        LocalDate latest = date(last, levelDb - rate.valueAt(now, slow), slow);
        return new TimeToLevel(
                Kind.EXPECTED,
                "",
                date(last, levelDb - rate.valueAt(now, fast), fast),
                likely,
                latest.isAfter(horizon) ? null : latest,
                horizon);
    }

    /** A line that has passed the level before the newest visit means: at any time now. */
    private static LocalDate date(LocalDate last, double missingDb, double perYearDb) {
        double days = Math.max(0, missingDb / perYearDb * DAYS_PER_YEAR);
        return last.plusDays(Math.round(Math.min(days, 1e6)));
    }

    /**
     * Returns what can be said.
     *
     * @return the kind
     */
    public Kind kind() {
        return kind;
    }

    /**
     * Returns why no date can be given.
     *
     * @return a clause without a full stop; empty if there is a date or the level is reached
     */
    public String reason() {
        return reason;
    }

    /**
     * Returns the likely date.
     *
     * @return empty unless {@link Kind#EXPECTED}
     */
    public Optional<LocalDate> likely() {
        return Optional.ofNullable(likely);
    }

    /**
     * Returns the early end of the 95 % interval.
     *
     * @return empty unless {@link Kind#EXPECTED}
     */
    public Optional<LocalDate> earliest() {
        return Optional.ofNullable(earliest);
    }

    /**
     * Returns the late end of the 95 % interval.
     *
     * @return empty unless {@link Kind#EXPECTED}, and where it lies beyond {@link #horizon}
     */
    public Optional<LocalDate> latest() {
        return Optional.ofNullable(latest);
    }

    /**
     * Returns how far ahead the visits bear a date.
     *
     * @return empty unless {@link Kind#EXPECTED}
     */
    public Optional<LocalDate> horizon() {
        return Optional.ofNullable(horizon);
    }
}

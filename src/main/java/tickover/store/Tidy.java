package tickover.store;

import java.sql.Connection;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.time.Clock;
import java.time.LocalDate;
import java.time.LocalDateTime;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Objects;
import java.util.Set;
import java.util.UUID;

/**
 * Makes room: removes the raw recordings of old visits by a rule. Results, levels, notes, the texts
 * of the visit and its readings of speed stay. What was removed keeps its row and gets another that
 * says when and by which rule, so that it is never taken for lost.
 */
public final class Tidy {
    private static final List<String> RAW_ENDINGS = List.of(".wav", ".tkr");

    private static final String LIST_VISITS =
            """
            SELECT visit.id, unit, visited_at,
                (SELECT COUNT(*) FROM finding WHERE finding.visit_id = visit.id) AS findings
            FROM visit JOIN vehicle ON vehicle.id = visit.vehicle_id
            ORDER BY unit, visited_at DESC, visit.id DESC\
            """;

    private Tidy() {}

    /**
     * Which recordings go.
     *
     * @param before only of visits before this day
     * @param keepLatest visits of each vehicle that keep theirs whatever their age, at least 0
     */
    public record Rule(LocalDate before, int keepLatest) {
        public Rule {
            Objects.requireNonNull(before, "before");
            if (!(keepLatest >= 0)) {
                throw new IllegalArgumentException("keepLatest=" + keepLatest + ", need >= 0");
            }
        }

        /**
         * Says the rule in words.
         *
         * @return such as: before 2024-03-04, but never of a vehicle's latest 2 visits
         */
        public String text() {
            String but =
                    keepLatest == 0
                            ? ""
                            : ", but never of a vehicle's latest "
                                    + (keepLatest == 1 ? "visit" : keepLatest + " visits");
            return "before " + before + but;
        }
    }

    /**
     * A recording that goes.
     *
     * @param name the file's
     * @param bytes the room that it takes
     */
    public record Raw(String name, long bytes) {}

    /**
     * A visit whose recordings go.
     *
     * @param id the visit's
     * @param unit how the fleet calls the vehicle
     * @param date when it was
     * @param files what goes
     */
    public record Old(UUID id, String unit, LocalDateTime date, List<Raw> files) {
        public Old {
            files = List.copyOf(files);
        }

        /**
         * Returns how much room the visit's recordings take.
         *
         * @return bytes
         */
        public long bytes() {
            return files.stream().mapToLong(Raw::bytes).sum();
        }
    }

    /**
     * What a rule comes to.
     *
     * @param rule the rule
     * @param visits whose recordings go, by vehicle, newest first
     * @param neverAnalysed visits that the rule means too, but of which nothing would be left as
     *     they have no result; they keep their recordings
     */
    public record Plan(Rule rule, List<Old> visits, int neverAnalysed) {
        public Plan {
            Objects.requireNonNull(rule, "rule");
            visits = List.copyOf(visits);
        }

        /**
         * Returns how much room there will be.
         *
         * @return bytes
         */
        public long bytes() {
            return visits.stream().mapToLong(Old::bytes).sum();
        }

        /**
         * Returns how many files go.
         *
         * @return files
         */
        public int files() {
            return visits.stream().mapToInt(v -> v.files().size()).sum();
        }
    }

    private record Line(UUID id, String unit, LocalDateTime date, boolean analysed) {
        static Line of(ResultSet r) throws SQLException {
            return new Line(
                    UUID.fromString(r.getString("id")),
                    r.getString("unit"),
                    LocalDateTime.parse(r.getString("visited_at")),
                    r.getInt("findings") > 0);
        }
    }

    /**
     * Works out what a rule would remove. Changes nothing.
     *
     * @param place where the log lives
     * @param rule the rule
     * @return what would go
     * @throws StoreException if there is no log or the database fails
     */
    public static Plan plan(LogPlace place, Rule rule) {
        Objects.requireNonNull(rule, "rule");
        try (LogFolder log = LogFolder.open(place)) {
            return log.database().read(c -> plan(c, rule));
        }
    }

    private static Plan plan(Connection c, Rule rule) throws SQLException {
        Map<String, Integer> seen = new HashMap<>();
        List<Old> old = new ArrayList<>();
        int neverAnalysed = 0;
        for (Line line : Row.list(c, LIST_VISITS, Line::of)) {
            int rank = seen.merge(line.unit(), 1, Integer::sum);
            if (rank <= rule.keepLatest() || !line.date().toLocalDate().isBefore(rule.before())) {
                continue;
            }
            List<Raw> files = raw(c, line.id());
            if (files.isEmpty()) {
                continue;
            }
            if (line.analysed()) {
                old.add(new Old(line.id(), line.unit(), line.date(), files));
            } else {
                neverAnalysed++;
            }
        }
        return new Plan(rule, old, neverAnalysed);
    }

    private static List<Raw> raw(Connection c, UUID visit) throws SQLException {
        Set<String> gone = Removals.names(c, visit);
        return VisitRows.files(c, visit).stream()
                .filter(f -> isRaw(f.name()) && !gone.contains(f.name()))
                .map(f -> new Raw(f.name(), f.sizeBytes()))
                .toList();
    }

    private static boolean isRaw(String name) {
        String lower = name.toLowerCase(Locale.ROOT);
        return RAW_ENDINGS.stream().anyMatch(lower::endsWith);
    }

    /**
     * Removes what a rule means: visit by visit, first the row that says so, then the files. What
     * an earlier run wrote down and could not remove any more goes as well.
     *
     * @param place where the log lives
     * @param rule the rule
     * @param clock stamps what was removed
     * @param progress hears of every visit
     * @return what went
     * @throws StoreException if there is no log, or the database or the disk fails
     */
    public static Plan remove(LogPlace place, Rule rule, Clock clock, WorkProgress progress) {
        Objects.requireNonNull(rule, "rule");
        try (LogFolder log = LogFolder.open(place)) {
            finishEarlier(log);
            Plan plan = log.database().read(c -> plan(c, rule));
            int done = 0;
            for (Old visit : plan.visits()) {
                List<String> names =
                        log.database().write(c -> writeDown(c, visit, rule, clock.millis()));
                delete(log, visit.id(), names);
                progress.at(++done, plan.visits().size());
            }
            return plan;
        }
    }

    private static List<String> writeDown(Connection c, Old visit, Rule rule, long nowMs)
            throws SQLException {
        Set<String> gone = Removals.names(c, visit.id());
        List<String> names = new ArrayList<>();
        for (Raw file : visit.files()) {
            if (!gone.contains(file.name())) {
                Row.insert(
                        c, Removals.INSERT, visit.id().toString(), file.name(), nowMs, rule.text());
                names.add(file.name());
            }
        }
        return names;
    }

    /** With the write lock, so that no import is putting the file back at this moment. */
    private static void delete(LogFolder log, UUID visit, List<String> names) {
        log.database()
                .write(
                        c -> {
                            Set<String> gone = new HashSet<>(Removals.names(c, visit));
                            gone.retainAll(names);
                            log.recordings().remove(c, visit, gone);
                            return gone;
                        });
    }

    private static void finishEarlier(LogFolder log) {
        Map<UUID, List<String>> left = log.database().read(log.recordings()::removedButThere);
        left.forEach((visit, names) -> delete(log, visit, names));
    }
}

package tickover.store;

import java.sql.Connection;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.time.Instant;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.UUID;
import tickover.diagnose.Candidate;
import tickover.diagnose.CaptureSummary;
import tickover.diagnose.Evidence;
import tickover.diagnose.EvidenceKind;
import tickover.diagnose.Fault;
import tickover.diagnose.Findings;
import tickover.diagnose.LineLevel;
import tickover.diagnose.NextTest;
import tickover.diagnose.PartLevel;
import tickover.diagnose.QualityNote;
import tickover.diagnose.QualityProblem;
import tickover.diagnose.Verdict;
import tickover.diagnose.VisitResult;
import tickover.order.TimeRange;

/** Results of analyses as rows. Lists keep their order in the column {@code place}. */
final class ResultRows {
    private ResultRows() {}

    /** Refuses results whose parts do not refer to each other as the tables need it. */
    static void requireWhole(VisitResult result, Set<String> captures) {
        Set<String> summaries = new HashSet<>();
        for (CaptureSummary s : result.captures()) {
            String id = s.label().id();
            if (!captures.contains(id)) {
                throw new IllegalArgumentException("capture=" + id + " is not one of the visit");
            }
            if (!summaries.add(id)) {
                throw new IllegalArgumentException("capture=" + id + " has two summaries");
            }
        }
        Set<List<String>> levels = new HashSet<>();
        for (PartLevel l : result.levels()) {
            if (!summaries.contains(l.capture())) {
                throw new IllegalArgumentException(
                        "level of part="
                                + l.part()
                                + " in capture="
                                + l.capture()
                                + " has no capture summary");
            }
            if (!levels.add(List.of(l.part(), l.capture()))) {
                throw new IllegalArgumentException(
                        "part=" + l.part() + " has two levels in capture=" + l.capture());
            }
        }
    }

    static void insert(Connection c, UUID visitId, VisitResult result, Instant now)
            throws SQLException {
        long id = Row.first(c, Sql.NEXT_FINDING, r -> r.getLong(1)).orElseThrow();
        // Never before an earlier one, whatever the clock says: the order of times is the order
        // that
        // counts when logs are put together.
        long madeAtMs =
                Math.max(
                        now.toEpochMilli(),
                        Row.first(c, Sql.NEXT_TIME, r -> r.getLong(1), visitId.toString())
                                .orElseThrow());
        Findings findings = result.findings();
        Row.insert(
                c,
                Sql.INSERT_FINDING,
                id,
                visitId.toString(),
                madeAtMs,
                result.codeVersion(),
                result.settings(),
                findings.verdict().word());
        insertCandidates(c, id, findings.candidates());
        try (Row.Inserter rows = new Row.Inserter(c, Sql.INSERT_TEST)) {
            int place = 0;
            for (NextTest t : findings.nextTests()) {
                rows.add(id, place++, t.kind(), t.text(), t.minutes(), t.expectedGainBits());
            }
            rows.flush();
        }
        insertNotes(c, id, findings.quality());
        try (Row.Inserter rows = new Row.Inserter(c, Sql.INSERT_SUMMARY)) {
            int place = 0;
            for (CaptureSummary s : result.captures()) {
                rows.add(
                        id,
                        s.label().id(),
                        place++,
                        s.speedSource(),
                        s.durationS(),
                        s.meanSpeedRpm(),
                        s.minSpeedRpm(),
                        s.maxSpeedRpm(),
                        s.overallRmsMps2());
            }
            rows.flush();
        }
        insertLevels(c, id, result.levels());
    }

    private static void insertNotes(Connection c, long id, List<QualityNote> notes)
            throws SQLException {
        try (Row.Inserter rows = new Row.Inserter(c, Sql.INSERT_NOTE);
                Row.Inserter ranges = new Row.Inserter(c, Sql.INSERT_NOTE_RANGE, rows)) {
            for (int i = 0; i < notes.size(); i++) {
                QualityNote n = notes.get(i);
                rows.add(id, i, n.capture(), n.problem().word(), n.text());
                int place = 0;
                for (TimeRange r : n.ranges()) {
                    ranges.add(id, i, place++, r.fromS(), r.toS());
                }
            }
            ranges.flush();
        }
    }

    private static void insertCandidates(Connection c, long id, List<Candidate> candidates)
            throws SQLException {
        try (Row.Inserter rows = new Row.Inserter(c, Sql.INSERT_CANDIDATE);
                Row.Inserter evidence = new Row.Inserter(c, Sql.INSERT_EVIDENCE, rows)) {
            for (int i = 0; i < candidates.size(); i++) {
                Candidate candidate = candidates.get(i);
                rows.add(
                        id,
                        i,
                        candidate.component(),
                        candidate.fault().word(),
                        candidate.probability());
                int place = 0;
                for (Evidence e : candidate.evidence()) {
                    evidence.add(id, i, place++, e.kind().word(), e.text(), e.strengthDb());
                }
            }
            evidence.flush();
        }
    }

    private static void insertLevels(Connection c, long id, List<PartLevel> levels)
            throws SQLException {
        try (Row.Inserter rows = new Row.Inserter(c, Sql.INSERT_LEVEL);
                Row.Inserter lines = new Row.Inserter(c, Sql.INSERT_LINE, rows);
                Row.Inserter shared = new Row.Inserter(c, Sql.INSERT_SHARED, lines)) {
            int place = 0;
            for (PartLevel l : levels) {
                rows.add(
                        id,
                        l.part(),
                        l.capture(),
                        place++,
                        l.levelRmsMps2(),
                        l.standardErrorMps2());
                for (int i = 0; i < l.lines().size(); i++) {
                    LineLevel line = l.lines().get(i);
                    lines.add(
                            id,
                            l.part(),
                            l.capture(),
                            i,
                            line.kind(),
                            line.order(),
                            line.levelRmsMps2(),
                            line.standardErrorMps2());
                    for (int k = 0; k < line.sharedWith().size(); k++) {
                        shared.add(id, l.part(), l.capture(), i, k, line.sharedWith().get(k));
                    }
                }
            }
            shared.flush();
        }
    }

    private record Head(long id, String codeVersion, String settings, Verdict verdict) {}

    static Optional<VisitResult> latest(Connection c, UUID visitId) throws SQLException {
        Optional<Head> head =
                Row.first(c, Sql.LATEST_FINDING, ResultRows::head, visitId.toString());
        return head.isEmpty() ? Optional.empty() : Optional.of(read(c, head.get()));
    }

    /** Every result of a visit, the latest first. */
    static List<VisitResult> all(Connection c, UUID visitId) throws SQLException {
        List<VisitResult> results = new ArrayList<>();
        for (Head head : Row.list(c, Sql.LIST_FINDINGS, ResultRows::head, visitId.toString())) {
            results.add(read(c, head));
        }
        return results;
    }

    /** The result of a number that exists. */
    static VisitResult of(Connection c, long id) throws SQLException {
        return read(c, Row.first(c, Sql.FIND_FINDING, ResultRows::head, id).orElseThrow());
    }

    private static Head head(ResultSet r) throws SQLException {
        return new Head(
                r.getLong("id"),
                r.getString("code_version"),
                r.getString("settings"),
                Words.of(Verdict.class, r.getString("verdict")));
    }

    private static VisitResult read(Connection c, Head head) throws SQLException {
        Findings findings =
                new Findings(
                        head.verdict(),
                        candidates(c, head.id()),
                        Row.list(
                                c,
                                Sql.FIND_TESTS,
                                r ->
                                        new NextTest(
                                                r.getString("kind"),
                                                r.getString("sentence"),
                                                r.getDouble("minutes"),
                                                r.getDouble("expected_gain_bits")),
                                head.id()),
                        notes(c, head.id()));
        return new VisitResult(
                findings,
                Row.list(c, Sql.FIND_SUMMARIES, ResultRows::summary, head.id()),
                levels(c, head.id()),
                head.codeVersion(),
                head.settings());
    }

    private static List<QualityNote> notes(Connection c, long id) throws SQLException {
        return Row.list(
                c,
                Sql.FIND_NOTES,
                r ->
                        new QualityNote(
                                r.getString("capture"),
                                QualityProblem.ofWord(r.getString("problem"))
                                        .orElse(QualityProblem.OTHER),
                                Row.list(
                                        c,
                                        Sql.FIND_NOTE_RANGES,
                                        s ->
                                                new TimeRange(
                                                        s.getDouble("from_s"), s.getDouble("to_s")),
                                        id,
                                        r.getInt("place")),
                                r.getString("sentence")),
                id);
    }

    /** A finding's candidates without their evidence. */
    static List<Candidate> candidatesAlone(Connection c, long id) throws SQLException {
        return Row.list(
                c,
                Sql.FIND_CANDIDATES,
                r ->
                        new Candidate(
                                r.getString("component"),
                                Words.of(Fault.class, r.getString("fault")),
                                r.getDouble("probability"),
                                List.of()),
                id);
    }

    private static List<Candidate> candidates(Connection c, long id) throws SQLException {
        return Row.list(
                c,
                Sql.FIND_CANDIDATES,
                r ->
                        new Candidate(
                                r.getString("component"),
                                Words.of(Fault.class, r.getString("fault")),
                                r.getDouble("probability"),
                                Row.list(
                                        c,
                                        Sql.FIND_EVIDENCE,
                                        ResultRows::evidence,
                                        id,
                                        r.getInt("place"))),
                id);
    }

    private static Evidence evidence(ResultSet r) throws SQLException {
        return new Evidence(
                Words.of(EvidenceKind.class, r.getString("kind")),
                r.getString("sentence"),
                r.getDouble("strength_db"));
    }

    private static CaptureSummary summary(ResultSet r) throws SQLException {
        return new CaptureSummary(
                VisitRows.label(r),
                r.getString("speed_source"),
                r.getDouble("duration_s"),
                r.getDouble("mean_speed_rpm"),
                r.getDouble("min_speed_rpm"),
                r.getDouble("max_speed_rpm"),
                r.getDouble("overall_rms_mps2"));
    }

    private static List<PartLevel> levels(Connection c, long id) throws SQLException {
        List<PartLevel> bare =
                Row.list(
                        c,
                        Sql.FIND_LEVELS,
                        r ->
                                new PartLevel(
                                        r.getString("part"),
                                        r.getString("capture"),
                                        r.getDouble("level_rms_mps2"),
                                        r.getDouble("standard_error_mps2"),
                                        List.of()),
                        id);
        List<PartLevel> whole = new ArrayList<>();
        for (PartLevel l : bare) {
            List<LineLevel> lines =
                    Row.list(
                            c,
                            Sql.FIND_LINES,
                            r ->
                                    new LineLevel(
                                            r.getString("kind"),
                                            r.getDouble("line_order"),
                                            r.getDouble("level_rms_mps2"),
                                            r.getDouble("standard_error_mps2"),
                                            Row.list(
                                                    c,
                                                    Sql.FIND_SHARED,
                                                    s -> s.getString(1),
                                                    id,
                                                    l.part(),
                                                    l.capture(),
                                                    r.getInt("place"))),
                            id,
                            l.part(),
                            l.capture());
            whole.add(
                    new PartLevel(
                            l.part(), l.capture(), l.levelRmsMps2(), l.standardErrorMps2(), lines));
        }
        return whole;
    }
}

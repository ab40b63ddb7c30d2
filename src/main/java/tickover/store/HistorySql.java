package tickover.store;

/**
 * The statements of what is kept over visits: notes, repairs, levels of all parts, standings. In
 * words that SQLite and PostgreSQL share.
 */
final class HistorySql {
    static final String INSERT_NOTE =
            """
            INSERT INTO note (id, vehicle_id, visit_id, part, noted_at, sentence, made_at_ms)
            VALUES (?, ?, ?, ?, ?, ?, ?)\
            """;

    private static final String NOTE_LIST =
            """
            SELECT note.id, unit, noted_at, part, visit_id, sentence FROM note
            JOIN vehicle ON vehicle.id = note.vehicle_id
            WHERE NOT EXISTS (SELECT 1 FROM withdrawal w WHERE w.id = note.id)
            """;

    static final String LIST_NOTES = NOTE_LIST + "ORDER BY noted_at, note.id";

    static final String LIST_NOTES_OF_UNIT = NOTE_LIST + "AND unit = ? ORDER BY noted_at, note.id";

    static final String INSERT_REPAIR =
            """
            INSERT INTO repair (id, vehicle_id, part, repaired_at, sentence, made_at_ms)
            VALUES (?, ?, ?, ?, ?, ?)\
            """;

    private static final String REPAIR_LIST =
            """
            SELECT repair.id, unit, repaired_at, part, sentence FROM repair
            JOIN vehicle ON vehicle.id = repair.vehicle_id
            WHERE NOT EXISTS (SELECT 1 FROM withdrawal w WHERE w.id = repair.id)
            """;

    static final String LIST_REPAIRS = REPAIR_LIST + "ORDER BY repaired_at, repair.id";

    static final String LIST_REPAIRS_OF_UNIT =
            REPAIR_LIST + "AND unit = ? ORDER BY repaired_at, repair.id";

    static final String INSERT_WITHDRAWAL =
            """
            INSERT INTO withdrawal (id, made_at_ms) VALUES (?, ?)\
            """;

    /** The vehicle of a note or repair that still holds. */
    static final String FIND_MARKED_VEHICLE =
            """
            SELECT vehicle_id FROM
                (SELECT id, vehicle_id FROM note UNION ALL SELECT id, vehicle_id FROM repair) marked
            WHERE id = ? AND NOT EXISTS (SELECT 1 FROM withdrawal w WHERE w.id = marked.id)\
            """;

    static final String LIST_VEHICLE_IDS = "SELECT id, unit FROM vehicle ORDER BY unit";

    /** The newest visit of a vehicle with its result, if it has one. */
    static final String LAST_VISIT =
            """
            SELECT visit.id, visited_at, odometer_km, finding.id AS finding_id, verdict
            FROM visit
            LEFT JOIN finding ON finding.id =
                (SELECT MAX(f.id) FROM finding f WHERE f.visit_id = visit.id)
            WHERE visit.vehicle_id = ?
            ORDER BY visited_at DESC, visit.id DESC LIMIT 1\
            """;

    static final String COUNT_VISITS = "SELECT COUNT(*) FROM visit WHERE vehicle_id = ?";

    private static final String LATEST_RESULT =
            """
            JOIN finding ON finding.id =
                (SELECT MAX(f.id) FROM finding f WHERE f.visit_id = visit.id)
            """;

    /** The visits of a vehicle that have a result, with the latest. */
    static final String VEHICLE_RESULTS =
            """
            SELECT finding.id, visit.id, visited_at, odometer_km, code_version, '' FROM visit
            """
                    + LATEST_RESULT
                    + "WHERE visit.vehicle_id = ? ORDER BY visited_at, visit.id";

    /** The captures of those results. */
    static final String VEHICLE_CAPTURES =
            """
            SELECT finding.id AS finding_id, mean_speed_rpm, capture.* FROM visit
            """
                    + LATEST_RESULT
                    + """
                    JOIN capture_summary ON capture_summary.finding_id = finding.id
                    JOIN capture ON capture.visit_id = visit.id
                        AND capture.capture = capture_summary.capture
                    WHERE visit.vehicle_id = ?\
                    """;

    /** The levels of all parts in those captures. Joined in memory: a join here costs twice. */
    static final String VEHICLE_LEVELS =
            """
            SELECT finding.id, part_level.capture, part, place, level_rms_mps2, standard_error_mps2
            FROM visit
            """
                    + LATEST_RESULT
                    + """
                    JOIN part_level ON part_level.finding_id = finding.id
                    WHERE visit.vehicle_id = ?\
                    """;

    /**
     * The last visits of the vehicles with the same drive, those seen last. In the order of an
     * index, so that a thousand sisters need not be sorted to find a few.
     */
    private static final String SISTERS =
            """
            FROM (SELECT s.vehicle_id, s.visit_id FROM standing s
                    WHERE s.drive_sha256 = (SELECT o.drive_sha256 FROM standing o
                        WHERE o.vehicle_id = ?) AND s.vehicle_id <> ?
                    AND s.visit_id IS NOT NULL AND s.drive_sha256 <> ''
                    ORDER BY s.visited_at DESC LIMIT ?) sister
            JOIN visit ON visit.id = sister.visit_id
            """;

    static final String SISTER_RESULTS =
            """
            SELECT finding.id, visit.id, visited_at, odometer_km, code_version, unit
            """
                    + SISTERS
                    + LATEST_RESULT
                    + "JOIN vehicle ON vehicle.id = sister.vehicle_id ORDER BY unit";

    static final String SISTER_CAPTURES =
            """
            SELECT finding.id AS finding_id, mean_speed_rpm, capture.*
            """
                    + SISTERS
                    + LATEST_RESULT
                    + """
                    JOIN capture_summary ON capture_summary.finding_id = finding.id
                    JOIN capture ON capture.visit_id = visit.id
                        AND capture.capture = capture_summary.capture\
                    """;

    static final String SISTER_LEVELS =
            """
            SELECT finding.id, part_level.capture, part, place, level_rms_mps2, standard_error_mps2
            """
                    + SISTERS
                    + LATEST_RESULT
                    + "JOIN part_level ON part_level.finding_id = finding.id AND part_level.part ="
                    + " ?";

    /** Visits of a vehicle whose latest result, if any, is of another version of the program. */
    static final String OUTDATED_VISITS =
            """
            SELECT visit.id FROM visit
            JOIN vehicle ON vehicle.id = visit.vehicle_id
            LEFT JOIN finding ON finding.id =
                (SELECT MAX(f.id) FROM finding f WHERE f.visit_id = visit.id)
            WHERE unit = ? AND (finding.id IS NULL OR code_version <> ?)
            ORDER BY visited_at, visit.id\
            """;

    static final String DELETE_ATTENTION = "DELETE FROM attention WHERE vehicle_id = ?";

    static final String DELETE_STANDING = "DELETE FROM standing WHERE vehicle_id = ?";

    static final String MISSING_STANDINGS =
            """
            SELECT vehicle.id FROM vehicle
            LEFT JOIN standing ON standing.vehicle_id = vehicle.id AND rule_version = ?
            WHERE standing.vehicle_id IS NULL ORDER BY vehicle.id\
            """;

    static final String INSERT_STANDING =
            """
            INSERT INTO standing (vehicle_id, rule_version, drive_sha256, visits, visit_id,
                visited_at, verdict, urgency, strength, series_asked)
            VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?)\
            """;

    static final String INSERT_ATTENTION =
            """
            INSERT INTO attention (vehicle_id, place, kind, part, part_role, chance, change_db,
                sentence)
            VALUES (?, ?, ?, ?, ?, ?, ?, ?)\
            """;

    static final String LIST_STANDINGS =
            """
            SELECT vehicle_id, unit, visits, visit_id, visited_at, verdict, urgency, series_asked
            FROM standing JOIN vehicle ON vehicle.id = standing.vehicle_id
            ORDER BY urgency DESC, strength DESC, unit\
            """;

    static final String LIST_ATTENTION =
            """
            SELECT vehicle_id, kind, part, part_role, chance, change_db, sentence
            FROM attention ORDER BY vehicle_id, place\
            """;

    private HistorySql() {}
}

package tickover.store;

/**
 * Every statement of the log but those that make its tables, in words that SQLite and PostgreSQL
 * share.
 */
final class Sql {
    static final String INSERT_VEHICLE =
            """
            INSERT INTO vehicle (id, unit)
            SELECT COALESCE(MAX(id), 0) + 1, ? FROM vehicle\
            """;

    static final String FIND_VEHICLE = "SELECT id FROM vehicle WHERE unit = ?";

    static final String FIND_VEHICLE_OF = "SELECT vehicle_id FROM visit WHERE id = ?";

    static final String SAVE_DRIVE =
            "UPDATE vehicle SET drive_toml = ?, drive_saved_at_ms = ? WHERE unit = ?";

    /** Every drive known of a vehicle with the time at which it came to be known, newest first. */
    static final String FIND_DRIVES =
            """
            SELECT drive_toml AS toml, drive_saved_at_ms AS known_at_ms FROM vehicle
            WHERE unit = ? AND drive_toml IS NOT NULL
            UNION ALL
            SELECT visit.vehicle_toml, imported_at_ms FROM visit
            JOIN vehicle ON vehicle.id = visit.vehicle_id
            WHERE unit = ?
            ORDER BY known_at_ms DESC\
            """;

    static final String LIST_VEHICLES =
            """
            SELECT unit, COUNT(visit.id) AS visits, MAX(visited_at) AS last_visit,
                (SELECT v.vehicle_description FROM visit v WHERE v.vehicle_id = vehicle.id
                    ORDER BY v.visited_at DESC LIMIT 1) AS description,
                (SELECT COUNT(*) FROM repair r WHERE r.vehicle_id = vehicle.id AND NOT EXISTS
                    (SELECT 1 FROM withdrawal w WHERE w.id = r.id)) AS repairs,
                (SELECT COUNT(*) FROM note n WHERE n.vehicle_id = vehicle.id AND NOT EXISTS
                    (SELECT 1 FROM withdrawal w WHERE w.id = n.id)) AS notes
            FROM vehicle LEFT JOIN visit ON visit.vehicle_id = vehicle.id
            GROUP BY vehicle.id, unit ORDER BY unit\
            """;

    static final String INSERT_VISIT =
            """
            INSERT INTO visit (id, vehicle_id, visited_at, odometer_km, complaint,
                vehicle_description, vehicle_toml, visit_toml, content_sha256, imported_at_ms)
            VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?)\
            """;

    static final String FIND_CONTENT = "SELECT content_sha256 FROM visit WHERE id = ?";

    static final String INSERT_FILE =
            """
            INSERT INTO kept_file (visit_id, name, sha256, size_bytes, named)
            VALUES (?, ?, ?, ?, ?)\
            """;

    static final String FIND_FILES =
            """
            SELECT name, sha256, size_bytes, named FROM kept_file
            WHERE visit_id = ? ORDER BY name\
            """;

    static final String INSERT_CAPTURE =
            """
            INSERT INTO capture (visit_id, capture, place, wav_file, scale_mps2, speed_kind,
                speed_file, point, axis, mount, regime, aircon, gear, headlights, steering, belt,
                injector_off)
            VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?)\
            """;

    static final String LIST_CAPTURES =
            "SELECT capture FROM capture WHERE visit_id = ? ORDER BY place";

    private static final String VISIT_LIST =
            """
            SELECT visit.id, unit, visited_at, odometer_km, complaint, made_at_ms, verdict,
                (SELECT COUNT(*) FROM capture WHERE capture.visit_id = visit.id) AS captures
            FROM visit
            JOIN vehicle ON vehicle.id = visit.vehicle_id
            LEFT JOIN finding ON finding.id =
                (SELECT MAX(f.id) FROM finding f WHERE f.visit_id = visit.id)
            """;

    static final String LIST_VISITS = VISIT_LIST + "ORDER BY visited_at, visit.id";

    static final String LIST_VISITS_OF_UNIT =
            VISIT_LIST + "WHERE unit = ? ORDER BY visited_at, visit.id";

    static final String LIST_VISIT_IDS = "SELECT id FROM visit";

    static final String NEXT_FINDING = "SELECT COALESCE(MAX(id), 0) + 1 FROM finding";

    /** The first time at which a visit's next finding may be made. */
    static final String NEXT_TIME =
            "SELECT COALESCE(MAX(made_at_ms), 0) + 1 FROM finding WHERE visit_id = ?";

    static final String INSERT_FINDING =
            """
            INSERT INTO finding (id, visit_id, made_at_ms, code_version, settings, verdict)
            VALUES (?, ?, ?, ?, ?, ?)\
            """;

    static final String LATEST_FINDING =
            """
            SELECT id, code_version, settings, verdict FROM finding
            WHERE visit_id = ? ORDER BY id DESC LIMIT 1\
            """;

    static final String LIST_FINDINGS =
            """
            SELECT id, code_version, settings, verdict FROM finding
            WHERE visit_id = ? ORDER BY id DESC\
            """;

    static final String FIND_FINDING =
            "SELECT id, code_version, settings, verdict FROM finding WHERE id = ?";

    static final String INSERT_CANDIDATE =
            """
            INSERT INTO candidate (finding_id, place, component, fault, probability)
            VALUES (?, ?, ?, ?, ?)\
            """;

    static final String FIND_CANDIDATES =
            """
            SELECT place, component, fault, probability FROM candidate
            WHERE finding_id = ? ORDER BY place\
            """;

    static final String INSERT_EVIDENCE =
            """
            INSERT INTO evidence (finding_id, candidate_place, place, kind, sentence, strength_db)
            VALUES (?, ?, ?, ?, ?, ?)\
            """;

    static final String FIND_EVIDENCE =
            """
            SELECT kind, sentence, strength_db FROM evidence
            WHERE finding_id = ? AND candidate_place = ? ORDER BY place\
            """;

    static final String INSERT_TEST =
            """
            INSERT INTO next_test (finding_id, place, kind, sentence, minutes, expected_gain_bits)
            VALUES (?, ?, ?, ?, ?, ?)\
            """;

    static final String FIND_TESTS =
            """
            SELECT kind, sentence, minutes, expected_gain_bits FROM next_test
            WHERE finding_id = ? ORDER BY place\
            """;

    static final String INSERT_NOTE =
            """
            INSERT INTO quality_note (finding_id, place, capture, problem, sentence)
            VALUES (?, ?, ?, ?, ?)\
            """;

    static final String INSERT_NOTE_RANGE =
            """
            INSERT INTO quality_range (finding_id, note_place, place, from_s, to_s)
            VALUES (?, ?, ?, ?, ?)\
            """;

    static final String FIND_NOTE_RANGES =
            """
            SELECT from_s, to_s FROM quality_range
            WHERE finding_id = ? AND note_place = ? ORDER BY place\
            """;

    static final String FIND_NOTES =
            """
            SELECT place, capture, problem, sentence FROM quality_note
            WHERE finding_id = ? ORDER BY place\
            """;

    static final String INSERT_SUMMARY =
            """
            INSERT INTO capture_summary (finding_id, capture, place, speed_source, duration_s,
                mean_speed_rpm, min_speed_rpm, max_speed_rpm, overall_rms_mps2)
            VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?)\
            """;

    static final String FIND_SUMMARIES =
            """
            SELECT capture.*, speed_source, duration_s, mean_speed_rpm, min_speed_rpm,
                max_speed_rpm, overall_rms_mps2
            FROM capture_summary s
            JOIN finding ON finding.id = s.finding_id
            JOIN capture ON capture.visit_id = finding.visit_id AND capture.capture = s.capture
            WHERE s.finding_id = ? ORDER BY s.place\
            """;

    static final String INSERT_LEVEL =
            """
            INSERT INTO part_level (finding_id, part, capture, place, level_rms_mps2,
                standard_error_mps2)
            VALUES (?, ?, ?, ?, ?, ?)\
            """;

    static final String FIND_LEVELS =
            """
            SELECT part, capture, level_rms_mps2, standard_error_mps2 FROM part_level
            WHERE finding_id = ? ORDER BY place\
            """;

    static final String INSERT_LINE =
            """
            INSERT INTO line_level (finding_id, part, capture, place, kind, line_order,
                level_rms_mps2, standard_error_mps2)
            VALUES (?, ?, ?, ?, ?, ?, ?, ?)\
            """;

    static final String FIND_LINES =
            """
            SELECT place, kind, line_order, level_rms_mps2, standard_error_mps2 FROM line_level
            WHERE finding_id = ? AND part = ? AND capture = ? ORDER BY place\
            """;

    static final String INSERT_SHARED =
            """
            INSERT INTO shared_line (finding_id, part, capture, line_place, place, other_part)
            VALUES (?, ?, ?, ?, ?, ?)\
            """;

    static final String FIND_SHARED =
            """
            SELECT other_part FROM shared_line
            WHERE finding_id = ? AND part = ? AND capture = ? AND line_place = ?
            ORDER BY place\
            """;

    private Sql() {}
}

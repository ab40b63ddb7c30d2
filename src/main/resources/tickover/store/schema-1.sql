-- Version 1 of the log. Released: never changed again; later versions are scripts of their own.
-- Kept to what SQLite and PostgreSQL both understand.

CREATE TABLE vehicle (
    id BIGINT NOT NULL PRIMARY KEY,
    unit TEXT NOT NULL UNIQUE
);

CREATE TABLE visit (
    id TEXT NOT NULL PRIMARY KEY,
    vehicle_id BIGINT NOT NULL REFERENCES vehicle (id),
    visited_at TEXT NOT NULL,
    odometer_km DOUBLE PRECISION,
    complaint TEXT NOT NULL,
    vehicle_description TEXT NOT NULL,
    vehicle_toml TEXT NOT NULL,
    visit_toml TEXT NOT NULL,
    content_sha256 TEXT NOT NULL,
    imported_at_ms BIGINT NOT NULL
);

CREATE INDEX visit_by_vehicle ON visit (vehicle_id, visited_at);

CREATE INDEX visit_by_date ON visit (visited_at);

CREATE TABLE kept_file (
    visit_id TEXT NOT NULL REFERENCES visit (id),
    name TEXT NOT NULL,
    sha256 TEXT NOT NULL,
    size_bytes BIGINT NOT NULL,
    named BOOLEAN NOT NULL,
    PRIMARY KEY (visit_id, name)
);

CREATE TABLE capture (
    visit_id TEXT NOT NULL REFERENCES visit (id),
    capture TEXT NOT NULL,
    place INTEGER NOT NULL,
    wav_file TEXT NOT NULL,
    scale_mps2 DOUBLE PRECISION NOT NULL,
    speed_kind TEXT NOT NULL,
    speed_file TEXT,
    point TEXT NOT NULL,
    axis TEXT NOT NULL,
    mount TEXT NOT NULL,
    regime TEXT NOT NULL,
    aircon BOOLEAN NOT NULL,
    gear TEXT NOT NULL,
    headlights BOOLEAN NOT NULL,
    steering BOOLEAN NOT NULL,
    belt TEXT NOT NULL,
    injector_off INTEGER,
    PRIMARY KEY (visit_id, capture)
);

CREATE TABLE finding (
    id BIGINT NOT NULL PRIMARY KEY,
    visit_id TEXT NOT NULL REFERENCES visit (id),
    made_at_ms BIGINT NOT NULL,
    code_version TEXT NOT NULL,
    settings TEXT NOT NULL,
    verdict TEXT NOT NULL
);

CREATE INDEX finding_by_visit ON finding (visit_id, id);

CREATE TABLE candidate (
    finding_id BIGINT NOT NULL REFERENCES finding (id),
    place INTEGER NOT NULL,
    component TEXT NOT NULL,
    fault TEXT NOT NULL,
    probability DOUBLE PRECISION NOT NULL,
    PRIMARY KEY (finding_id, place)
);

CREATE TABLE evidence (
    finding_id BIGINT NOT NULL,
    candidate_place INTEGER NOT NULL,
    place INTEGER NOT NULL,
    kind TEXT NOT NULL,
    sentence TEXT NOT NULL,
    strength_db DOUBLE PRECISION NOT NULL,
    PRIMARY KEY (finding_id, candidate_place, place),
    FOREIGN KEY (finding_id, candidate_place) REFERENCES candidate (finding_id, place)
);

CREATE TABLE next_test (
    finding_id BIGINT NOT NULL REFERENCES finding (id),
    place INTEGER NOT NULL,
    kind TEXT NOT NULL,
    sentence TEXT NOT NULL,
    minutes DOUBLE PRECISION NOT NULL,
    expected_gain_bits DOUBLE PRECISION NOT NULL,
    PRIMARY KEY (finding_id, place)
);

CREATE TABLE quality_note (
    finding_id BIGINT NOT NULL REFERENCES finding (id),
    place INTEGER NOT NULL,
    capture TEXT NOT NULL,
    problem TEXT NOT NULL,
    sentence TEXT NOT NULL,
    PRIMARY KEY (finding_id, place)
);

CREATE TABLE capture_summary (
    finding_id BIGINT NOT NULL REFERENCES finding (id),
    capture TEXT NOT NULL,
    place INTEGER NOT NULL,
    speed_source TEXT NOT NULL,
    duration_s DOUBLE PRECISION NOT NULL,
    mean_speed_rpm DOUBLE PRECISION NOT NULL,
    min_speed_rpm DOUBLE PRECISION NOT NULL,
    max_speed_rpm DOUBLE PRECISION NOT NULL,
    overall_rms_mps2 DOUBLE PRECISION NOT NULL,
    PRIMARY KEY (finding_id, capture)
);

CREATE TABLE part_level (
    finding_id BIGINT NOT NULL,
    part TEXT NOT NULL,
    capture TEXT NOT NULL,
    place INTEGER NOT NULL,
    level_rms_mps2 DOUBLE PRECISION NOT NULL,
    standard_error_mps2 DOUBLE PRECISION NOT NULL,
    PRIMARY KEY (finding_id, part, capture),
    FOREIGN KEY (finding_id, capture) REFERENCES capture_summary (finding_id, capture)
);

CREATE TABLE line_level (
    finding_id BIGINT NOT NULL,
    part TEXT NOT NULL,
    capture TEXT NOT NULL,
    place INTEGER NOT NULL,
    kind TEXT NOT NULL,
    line_order DOUBLE PRECISION NOT NULL,
    level_rms_mps2 DOUBLE PRECISION NOT NULL,
    standard_error_mps2 DOUBLE PRECISION NOT NULL,
    PRIMARY KEY (finding_id, part, capture, place),
    FOREIGN KEY (finding_id, part, capture) REFERENCES part_level (finding_id, part, capture)
);

CREATE TABLE shared_line (
    finding_id BIGINT NOT NULL,
    part TEXT NOT NULL,
    capture TEXT NOT NULL,
    line_place INTEGER NOT NULL,
    place INTEGER NOT NULL,
    other_part TEXT NOT NULL,
    PRIMARY KEY (finding_id, part, capture, line_place, place),
    FOREIGN KEY (finding_id, part, capture, line_place)
        REFERENCES line_level (finding_id, part, capture, place)
);

-- What people write beside the measurements. Ids are unique everywhere, so that logs can be put together.
CREATE TABLE note (
    id TEXT NOT NULL PRIMARY KEY,
    vehicle_id BIGINT NOT NULL REFERENCES vehicle (id),
    visit_id TEXT NOT NULL,
    part TEXT NOT NULL,
    noted_at TEXT NOT NULL,
    sentence TEXT NOT NULL,
    made_at_ms BIGINT NOT NULL
);

CREATE INDEX note_by_vehicle ON note (vehicle_id, noted_at);

CREATE TABLE repair (
    id TEXT NOT NULL PRIMARY KEY,
    vehicle_id BIGINT NOT NULL REFERENCES vehicle (id),
    part TEXT NOT NULL,
    repaired_at TEXT NOT NULL,
    sentence TEXT NOT NULL,
    made_at_ms BIGINT NOT NULL
);

CREATE INDEX repair_by_vehicle ON repair (vehicle_id, repaired_at);

-- A note or repair that was taken back. Rows are added, never changed; the id may be of something not known here yet.
CREATE TABLE withdrawal (
    id TEXT NOT NULL PRIMARY KEY,
    made_at_ms BIGINT NOT NULL
);

-- How each vehicle stands, derived from all of the above. A row that is missing is made anew when it is asked for.
CREATE TABLE standing (
    vehicle_id BIGINT NOT NULL PRIMARY KEY REFERENCES vehicle (id),
    rule_version INTEGER NOT NULL,
    drive_sha256 TEXT NOT NULL,
    visits INTEGER NOT NULL,
    visit_id TEXT,
    visited_at TEXT,
    verdict TEXT,
    urgency INTEGER NOT NULL,
    strength DOUBLE PRECISION NOT NULL,
    series_asked INTEGER NOT NULL
);

CREATE INDEX standing_by_drive ON standing (drive_sha256, visited_at);

CREATE TABLE attention (
    vehicle_id BIGINT NOT NULL REFERENCES standing (vehicle_id),
    place INTEGER NOT NULL,
    kind TEXT NOT NULL,
    part TEXT NOT NULL,
    part_role TEXT NOT NULL,
    chance DOUBLE PRECISION NOT NULL,
    change_db DOUBLE PRECISION,
    sentence TEXT NOT NULL,
    PRIMARY KEY (vehicle_id, place)
);

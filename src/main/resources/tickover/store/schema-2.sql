-- When a quality note held; a note without a row here is about its whole capture.
CREATE TABLE quality_range (
    finding_id BIGINT NOT NULL,
    note_place INTEGER NOT NULL,
    place INTEGER NOT NULL,
    from_s DOUBLE PRECISION NOT NULL,
    to_s DOUBLE PRECISION NOT NULL,
    PRIMARY KEY (finding_id, note_place, place),
    FOREIGN KEY (finding_id, note_place) REFERENCES quality_note (finding_id, place)
);

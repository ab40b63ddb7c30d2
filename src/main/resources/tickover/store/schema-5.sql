-- A raw recording that was removed by rule to make room. Its row in kept_file stays, so that it can be told from a lost one.
CREATE TABLE removal (
    visit_id TEXT NOT NULL,
    name TEXT NOT NULL,
    removed_at_ms BIGINT NOT NULL,
    rule TEXT NOT NULL,
    PRIMARY KEY (visit_id, name),
    FOREIGN KEY (visit_id, name) REFERENCES kept_file (visit_id, name)
);

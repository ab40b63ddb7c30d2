-- What version 1 has on PostgreSQL beside schema-1.sql. Released: never changed again.
CREATE TABLE schema_version (
    version INTEGER NOT NULL
);

-- The bytes of the files in kept_file, in pieces. They are sent before their rows, in the same transaction.
CREATE TABLE recording (
    visit_id TEXT COLLATE "C" NOT NULL,
    name TEXT COLLATE "C" NOT NULL,
    place INTEGER NOT NULL,
    bytes BYTEA NOT NULL,
    PRIMARY KEY (visit_id, name, place),
    FOREIGN KEY (visit_id, name) REFERENCES kept_file (visit_id, name) DEFERRABLE INITIALLY DEFERRED
);

-- Samples hardly shrink; trying to would cost the server time.
ALTER TABLE recording ALTER COLUMN bytes SET STORAGE EXTERNAL;

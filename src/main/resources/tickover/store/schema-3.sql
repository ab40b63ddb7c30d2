-- The drive of a vehicle as it is now, saved without a visit; what it was on a day stands with that day's visit.
ALTER TABLE vehicle ADD COLUMN drive_toml TEXT;

ALTER TABLE vehicle ADD COLUMN drive_saved_at_ms BIGINT;

-- The record: one row an entry, only ever added to.
CREATE TABLE entry (
    -- The order in which entries came here, without gaps: a missing number shows that a row was taken out.
    position INTEGER PRIMARY KEY AUTOINCREMENT,
    -- SHA-256 of the line.
    hash     BLOB NOT NULL UNIQUE CHECK (length(hash) = 32),
    -- What the entry is filed under; all of it is said by the line too.
    id       BLOB NOT NULL CHECK (length(id) = 16),
    survey   BLOB NOT NULL CHECK (length(survey) = 16),
    device   TEXT NOT NULL,
    time_ms  INTEGER NOT NULL CHECK (time_ms >= 0),
    time_n   INTEGER NOT NULL CHECK (time_n >= 0),
    -- The entry's exact line of JSON, without a line's end.
    line     TEXT NOT NULL
) STRICT;

CREATE INDEX entry_by_survey ON entry (survey, position);
CREATE INDEX entry_by_name ON entry (survey, id);
CREATE INDEX entry_by_device ON entry (survey, device, time_ms, time_n, id);
CREATE INDEX entry_by_time ON entry (survey, time_ms, time_n);

CREATE TRIGGER entry_is_not_changed BEFORE UPDATE ON entry
BEGIN
    SELECT RAISE(ABORT, 'entries are append-only');
END;

CREATE TRIGGER entry_is_not_removed BEFORE DELETE ON entry
BEGIN
    SELECT RAISE(ABORT, 'entries are append-only');
END;

-- INSERT OR REPLACE would remove a row without asking the trigger above.
CREATE TRIGGER entry_is_not_replaced BEFORE INSERT ON entry
WHEN EXISTS (SELECT 1 FROM entry WHERE hash = NEW.hash OR position = NEW.position)
BEGIN
    SELECT RAISE(ABORT, 'entries are append-only');
END;

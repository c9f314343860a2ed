-- Engines whose geometry the shop keeps for next time.

CREATE TABLE known_engines (
    id INTEGER PRIMARY KEY CHECK (id > 0),
    name TEXT NOT NULL CHECK (name <> ''),
    version INTEGER NOT NULL CHECK (version >= 1),
    measured_by TEXT CHECK (measured_by <> ''),
    measured_on TEXT CHECK (measured_on GLOB '[0-9][0-9][0-9][0-9]-[0-9][0-9]-[0-9][0-9]'),
    note TEXT CHECK (note <> '')
) STRICT;

CREATE TABLE known_engine_fields (
    known_engine_id INTEGER NOT NULL REFERENCES known_engines (id),
    path TEXT NOT NULL CHECK (instr(path, '/') > 0),
    text TEXT NOT NULL CHECK (text <> ''),
    unit TEXT CHECK (unit <> '' AND instr(unit, ' ') = 0),
    PRIMARY KEY (known_engine_id, path)
) STRICT, WITHOUT ROWID;

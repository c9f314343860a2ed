-- The first shop file: builds with their set-ups, plans, readings and photos, and the history of every act.

-- An absent value is NULL and never an empty text, so that 'nothing' has one form in the history too.

CREATE TABLE builds (
    id INTEGER PRIMARY KEY CHECK (id > 0),
    name TEXT NOT NULL CHECK (name <> ''),
    customer TEXT CHECK (customer <> ''),
    engine TEXT CHECK (engine <> ''),
    promised TEXT CHECK (promised GLOB '[0-9][0-9][0-9][0-9]-[0-9][0-9]-[0-9][0-9]'),
    note TEXT CHECK (note <> ''),
    archived TEXT CHECK (archived GLOB
        '[0-9][0-9][0-9][0-9]-[0-9][0-9]-[0-9][0-9]T[0-9][0-9]:[0-9][0-9]:[0-9][0-9]Z')
) STRICT;

-- UNIQUE (id, build_id) lets a reading or a photo point only inside its own build.
CREATE TABLE set_ups (
    id INTEGER PRIMARY KEY CHECK (id > 0),
    build_id INTEGER NOT NULL REFERENCES builds (id),
    name TEXT NOT NULL CHECK (name <> ''),
    UNIQUE (id, build_id)
) STRICT;
CREATE INDEX set_ups_of_build ON set_ups (build_id);

CREATE TABLE set_up_fields (
    set_up_id INTEGER NOT NULL REFERENCES set_ups (id),
    path TEXT NOT NULL CHECK (instr(path, '/') > 0),
    text TEXT NOT NULL CHECK (text <> ''),
    unit TEXT CHECK (unit <> '' AND instr(unit, ' ') = 0),
    PRIMARY KEY (set_up_id, path)
) STRICT, WITHOUT ROWID;

CREATE TABLE stages (
    id INTEGER PRIMARY KEY CHECK (id > 0),
    build_id INTEGER NOT NULL REFERENCES builds (id),
    ordinal INTEGER NOT NULL CHECK (ordinal >= 0),
    title TEXT NOT NULL CHECK (title <> ''),
    caution TEXT CHECK (caution <> ''),
    UNIQUE (id, build_id)
) STRICT;
CREATE INDEX stages_of_build ON stages (build_id, ordinal);

CREATE TABLE steps (
    id INTEGER PRIMARY KEY CHECK (id > 0),
    stage_id INTEGER NOT NULL REFERENCES stages (id),
    ordinal INTEGER NOT NULL CHECK (ordinal >= 0),
    title TEXT NOT NULL CHECK (title <> ''),
    ticked_by TEXT CHECK (ticked_by <> ''),
    ticked_at TEXT CHECK (ticked_at GLOB
        '[0-9][0-9][0-9][0-9]-[0-9][0-9]-[0-9][0-9]T[0-9][0-9]:[0-9][0-9]:[0-9][0-9]Z'),
    CHECK ((ticked_by IS NULL) = (ticked_at IS NULL))
) STRICT;
CREATE INDEX steps_of_stage ON steps (stage_id, ordinal);

CREATE TABLE readings (
    id INTEGER PRIMARY KEY CHECK (id > 0),
    build_id INTEGER NOT NULL REFERENCES builds (id),
    set_up_id INTEGER,
    quantity TEXT NOT NULL CHECK (quantity <> ''),
    position TEXT CHECK (position <> ''),
    text TEXT CHECK (text <> ''),
    unit TEXT CHECK (unit <> ''),
    status TEXT NOT NULL CHECK (status IN
        ('measured', 'from_the_box', 'assumed', 'not_measured', 'same', 'see_photo')),
    taken_by TEXT NOT NULL CHECK (taken_by <> ''),
    taken_at TEXT NOT NULL CHECK (taken_at GLOB
        '[0-9][0-9][0-9][0-9]-[0-9][0-9]-[0-9][0-9]T[0-9][0-9]:[0-9][0-9]:[0-9][0-9]Z'),
    FOREIGN KEY (set_up_id, build_id) REFERENCES set_ups (id, build_id),
    CHECK (text IS NOT NULL OR status IN ('not_measured', 'same', 'see_photo'))
) STRICT;
CREATE INDEX readings_of_build ON readings (build_id, quantity, position);
CREATE INDEX readings_of_set_up ON readings (set_up_id);

CREATE TABLE photos (
    id INTEGER PRIMARY KEY CHECK (id > 0),
    build_id INTEGER NOT NULL REFERENCES builds (id),
    stage_id INTEGER,
    digest TEXT NOT NULL CHECK (length(digest) = 64 AND digest NOT GLOB '*[^0-9a-f]*'),
    file_name TEXT NOT NULL CHECK (file_name <> ''),
    caption TEXT CHECK (caption <> ''),
    added_at TEXT NOT NULL CHECK (added_at GLOB
        '[0-9][0-9][0-9][0-9]-[0-9][0-9]-[0-9][0-9]T[0-9][0-9]:[0-9][0-9]:[0-9][0-9]Z'),
    FOREIGN KEY (stage_id, build_id) REFERENCES stages (id, build_id)
) STRICT;
CREATE INDEX photos_of_build ON photos (build_id);
CREATE INDEX photos_of_stage ON photos (stage_id);

-- AUTOINCREMENT: an act's number is never given twice.
CREATE TABLE acts (
    number INTEGER PRIMARY KEY AUTOINCREMENT,
    who TEXT NOT NULL CHECK (who <> ''),
    when_utc TEXT NOT NULL CHECK (when_utc GLOB
        '[0-9][0-9][0-9][0-9]-[0-9][0-9]-[0-9][0-9]T[0-9][0-9]:[0-9][0-9]:[0-9][0-9]Z'),
    undoes INTEGER REFERENCES acts (number) CHECK (undoes < number)
) STRICT;
CREATE INDEX acts_undoing ON acts (undoes) WHERE undoes IS NOT NULL;

-- No foreign key to the record: the history outlives what it tells of.
CREATE TABLE edits (
    act INTEGER NOT NULL REFERENCES acts (number),
    ordinal INTEGER NOT NULL CHECK (ordinal >= 0),
    record_kind TEXT NOT NULL CHECK (record_kind IN
        ('build', 'set_up', 'stage', 'step', 'reading', 'photo')),
    record_id INTEGER NOT NULL CHECK (record_id > 0),
    field TEXT NOT NULL CHECK (field <> ''),
    before TEXT CHECK (before <> ''),
    after TEXT CHECK (after <> ''),
    PRIMARY KEY (act, ordinal)
) STRICT, WITHOUT ROWID;
CREATE INDEX edits_of_record ON edits (record_kind, record_id, act);

-- What was done stays written: a change of mind is a further act.
CREATE TRIGGER acts_stay BEFORE UPDATE ON acts BEGIN
    SELECT RAISE(ABORT, 'acts are never changed');
END;
CREATE TRIGGER acts_remain BEFORE DELETE ON acts BEGIN
    SELECT RAISE(ABORT, 'acts are never removed');
END;
CREATE TRIGGER edits_stay BEFORE UPDATE ON edits BEGIN
    SELECT RAISE(ABORT, 'edits are never changed');
END;
CREATE TRIGGER edits_remain BEFORE DELETE ON edits BEGIN
    SELECT RAISE(ABORT, 'edits are never removed');
END;

-- Records for everything a build holds, and a history that is sealed act by act.

CREATE TABLE shop_details (
    id INTEGER PRIMARY KEY CHECK (id > 0),
    name TEXT NOT NULL CHECK (name <> ''),
    content TEXT NOT NULL CHECK (content <> '')
) STRICT;

CREATE TABLE shop_sheet_kinds (
    id INTEGER PRIMARY KEY CHECK (id > 0),
    word TEXT NOT NULL CHECK (word <> ''),
    title TEXT NOT NULL CHECK (title <> ''),
    note TEXT CHECK (note <> '')
) STRICT;

CREATE TABLE shop_quantities (
    id INTEGER PRIMARY KEY CHECK (id > 0),
    sheet_kind_id INTEGER NOT NULL REFERENCES shop_sheet_kinds (id),
    word TEXT NOT NULL CHECK (word <> ''),
    title TEXT NOT NULL CHECK (title <> ''),
    form TEXT NOT NULL CHECK (form <> ''),
    unit TEXT CHECK (unit <> ''),
    positions TEXT CHECK (positions <> '')
) STRICT;
CREATE INDEX shop_quantities_of_sheet_kind ON shop_quantities (sheet_kind_id);

CREATE TABLE people (
    id INTEGER PRIMARY KEY CHECK (id > 0),
    name TEXT NOT NULL CHECK (name <> ''),
    initials TEXT CHECK (initials <> ''),
    role TEXT CHECK (role <> ''),
    left TEXT CHECK (left GLOB '[0-9][0-9][0-9][0-9]-[0-9][0-9]-[0-9][0-9]'),
    note TEXT CHECK (note <> '')
) STRICT;

CREATE TABLE customers (
    id INTEGER PRIMARY KEY CHECK (id > 0),
    name TEXT NOT NULL CHECK (name <> ''),
    phone TEXT CHECK (phone <> ''),
    email TEXT CHECK (email <> ''),
    address TEXT CHECK (address <> ''),
    note TEXT CHECK (note <> ''),
    erased TEXT CHECK (erased GLOB
        '[0-9][0-9][0-9][0-9]-[0-9][0-9]-[0-9][0-9]T[0-9][0-9]:[0-9][0-9]:[0-9][0-9]Z')
) STRICT;

CREATE TABLE instruments (
    id INTEGER PRIMARY KEY CHECK (id > 0),
    name TEXT NOT NULL CHECK (name <> ''),
    measures TEXT CHECK (measures <> ''),
    resolution TEXT CHECK (resolution <> ''),
    serial_number TEXT CHECK (serial_number <> ''),
    calibrated TEXT CHECK (calibrated GLOB '[0-9][0-9][0-9][0-9]-[0-9][0-9]-[0-9][0-9]'),
    calibration_due TEXT CHECK (calibration_due GLOB '[0-9][0-9][0-9][0-9]-[0-9][0-9]-[0-9][0-9]'),
    retired TEXT CHECK (retired GLOB '[0-9][0-9][0-9][0-9]-[0-9][0-9]-[0-9][0-9]'),
    note TEXT CHECK (note <> '')
) STRICT;

CREATE TABLE products (
    id INTEGER PRIMARY KEY CHECK (id > 0),
    name TEXT NOT NULL CHECK (name <> ''),
    purpose TEXT CHECK (purpose <> ''),
    handling_minutes INTEGER CHECK (handling_minutes >= 0),
    full_minutes INTEGER CHECK (full_minutes >= 0),
    note TEXT CHECK (note <> '')
) STRICT;

ALTER TABLE builds ADD COLUMN customer_id INTEGER REFERENCES customers (id);
ALTER TABLE builds ADD COLUMN job_number TEXT CHECK (job_number <> '');
ALTER TABLE builds ADD COLUMN use TEXT CHECK (use <> '');
ALTER TABLE builds ADD COLUMN fuel TEXT CHECK (fuel <> '');
ALTER TABLE builds ADD COLUMN speed_range TEXT CHECK (speed_range <> '');
ALTER TABLE builds ADD COLUMN target_power TEXT CHECK (target_power <> '');
ALTER TABLE builds ADD COLUMN scope TEXT CHECK (scope <> '');
ALTER TABLE builds ADD COLUMN exclusions TEXT CHECK (exclusions <> '');
ALTER TABLE builds ADD COLUMN state TEXT CHECK (state <> '');
ALTER TABLE builds ADD COLUMN terms TEXT CHECK (terms <> '');

CREATE INDEX builds_of_customer ON builds (customer_id) WHERE customer_id IS NOT NULL;

CREATE TABLE casting_numbers (
    id INTEGER PRIMARY KEY CHECK (id > 0),
    build_id INTEGER NOT NULL REFERENCES builds (id),
    position TEXT NOT NULL CHECK (position <> ''),
    number TEXT NOT NULL CHECK (number <> ''),
    date_code TEXT CHECK (date_code <> ''),
    note TEXT CHECK (note <> '')
) STRICT;
CREATE INDEX casting_numbers_of_build ON casting_numbers (build_id);

CREATE TABLE promises (
    id INTEGER PRIMARY KEY CHECK (id > 0),
    build_id INTEGER NOT NULL REFERENCES builds (id),
    promised TEXT NOT NULL CHECK (promised GLOB '[0-9][0-9][0-9][0-9]-[0-9][0-9]-[0-9][0-9]'),
    reason TEXT CHECK (reason <> ''),
    told_at TEXT NOT NULL CHECK (told_at GLOB
        '[0-9][0-9][0-9][0-9]-[0-9][0-9]-[0-9][0-9]T[0-9][0-9]:[0-9][0-9]:[0-9][0-9]Z')
) STRICT;
CREATE INDEX promises_of_build ON promises (build_id);

CREATE TABLE visits (
    id INTEGER PRIMARY KEY CHECK (id > 0),
    build_id INTEGER NOT NULL REFERENCES builds (id),
    visited TEXT NOT NULL CHECK (visited GLOB '[0-9][0-9][0-9][0-9]-[0-9][0-9]-[0-9][0-9]'),
    reason TEXT NOT NULL CHECK (reason <> ''),
    found TEXT CHECK (found <> ''),
    done TEXT CHECK (done <> '')
) STRICT;
CREATE INDEX visits_of_build ON visits (build_id);

CREATE TABLE hand_offs (
    id INTEGER PRIMARY KEY CHECK (id > 0),
    build_id INTEGER NOT NULL REFERENCES builds (id),
    version INTEGER NOT NULL CHECK (version >= 0),
    book_digest TEXT CHECK (length(book_digest) = 64 AND book_digest NOT GLOB '*[^0-9a-f]*'),
    history_head TEXT NOT NULL CHECK (length(history_head) = 64 AND history_head NOT GLOB '*[^0-9a-f]*'),
    program_version TEXT NOT NULL CHECK (program_version <> ''),
    given_to TEXT CHECK (given_to <> ''),
    given_at TEXT NOT NULL CHECK (given_at GLOB
        '[0-9][0-9][0-9][0-9]-[0-9][0-9]-[0-9][0-9]T[0-9][0-9]:[0-9][0-9]:[0-9][0-9]Z'),
    settings TEXT CHECK (settings <> ''),
    service_dates TEXT CHECK (service_dates <> ''),
    signature TEXT CHECK (signature <> ''),
    note TEXT CHECK (note <> '')
) STRICT;
CREATE INDEX hand_offs_of_build ON hand_offs (build_id);

ALTER TABLE stages ADD COLUMN plan_item TEXT CHECK (plan_item <> '');

ALTER TABLE steps ADD COLUMN detail TEXT CHECK (detail <> '');
ALTER TABLE steps ADD COLUMN caution TEXT CHECK (caution <> '');
ALTER TABLE steps ADD COLUMN sheet_kind TEXT CHECK (sheet_kind <> '');
ALTER TABLE steps ADD COLUMN not_needed TEXT CHECK (not_needed <> '');
ALTER TABLE steps ADD COLUMN plan_item TEXT CHECK (plan_item <> '');

CREATE TABLE gates (
    id INTEGER PRIMARY KEY CHECK (id > 0),
    stage_id INTEGER NOT NULL REFERENCES stages (id),
    ordinal INTEGER NOT NULL CHECK (ordinal >= 0),
    title TEXT NOT NULL CHECK (title <> ''),
    needs TEXT CHECK (needs <> ''),
    plan_item TEXT CHECK (plan_item <> '')
) STRICT;
CREATE INDEX gates_of_stage ON gates (stage_id);

CREATE TABLE waivers (
    id INTEGER PRIMARY KEY CHECK (id > 0),
    build_id INTEGER NOT NULL REFERENCES builds (id),
    gate_id INTEGER REFERENCES gates (id),
    subject TEXT NOT NULL CHECK (subject <> ''),
    reason TEXT NOT NULL CHECK (reason <> ''),
    customer_told TEXT CHECK (customer_told = '1'),
    waived_by TEXT NOT NULL CHECK (waived_by <> ''),
    waived_at TEXT NOT NULL CHECK (waived_at GLOB
        '[0-9][0-9][0-9][0-9]-[0-9][0-9]-[0-9][0-9]T[0-9][0-9]:[0-9][0-9]:[0-9][0-9]Z'),
    until TEXT CHECK (until GLOB '[0-9][0-9][0-9][0-9]-[0-9][0-9]-[0-9][0-9]')
) STRICT;
CREATE INDEX waivers_of_build ON waivers (build_id);
CREATE INDEX waivers_of_gate ON waivers (gate_id) WHERE gate_id IS NOT NULL;

CREATE TABLE cures (
    id INTEGER PRIMARY KEY CHECK (id > 0),
    build_id INTEGER NOT NULL REFERENCES builds (id),
    product_id INTEGER REFERENCES products (id),
    step_id INTEGER REFERENCES steps (id),
    place TEXT NOT NULL CHECK (place <> ''),
    handling_minutes INTEGER CHECK (handling_minutes >= 0),
    full_minutes INTEGER CHECK (full_minutes >= 0),
    applied_by TEXT NOT NULL CHECK (applied_by <> ''),
    applied_at TEXT NOT NULL CHECK (applied_at GLOB
        '[0-9][0-9][0-9][0-9]-[0-9][0-9]-[0-9][0-9]T[0-9][0-9]:[0-9][0-9]:[0-9][0-9]Z'),
    ended TEXT CHECK (ended GLOB
        '[0-9][0-9][0-9][0-9]-[0-9][0-9]-[0-9][0-9]T[0-9][0-9]:[0-9][0-9]:[0-9][0-9]Z'),
    note TEXT CHECK (note <> '')
) STRICT;
CREATE INDEX cures_of_build ON cures (build_id);
CREATE INDEX cures_of_product ON cures (product_id) WHERE product_id IS NOT NULL;
CREATE INDEX cures_of_step ON cures (step_id) WHERE step_id IS NOT NULL;

CREATE TABLE open_items (
    id INTEGER PRIMARY KEY CHECK (id > 0),
    build_id INTEGER NOT NULL REFERENCES builds (id),
    step_id INTEGER REFERENCES steps (id),
    gate_id INTEGER REFERENCES gates (id),
    kind TEXT NOT NULL CHECK (kind IN ('temporary_part', 'watch', 'decision', 'risk', 'question', 'other')),
    title TEXT NOT NULL CHECK (title <> ''),
    detail TEXT CHECK (detail <> ''),
    position TEXT CHECK (position <> ''),
    if_it_goes_wrong TEXT CHECK (if_it_goes_wrong <> ''),
    customer_told TEXT CHECK (customer_told = '1'),
    due TEXT CHECK (due GLOB '[0-9][0-9][0-9][0-9]-[0-9][0-9]-[0-9][0-9]'),
    opened_by TEXT NOT NULL CHECK (opened_by <> ''),
    opened_at TEXT NOT NULL CHECK (opened_at GLOB
        '[0-9][0-9][0-9][0-9]-[0-9][0-9]-[0-9][0-9]T[0-9][0-9]:[0-9][0-9]:[0-9][0-9]Z'),
    closed_by TEXT CHECK (closed_by <> ''),
    closed_at TEXT CHECK (closed_at GLOB
        '[0-9][0-9][0-9][0-9]-[0-9][0-9]-[0-9][0-9]T[0-9][0-9]:[0-9][0-9]:[0-9][0-9]Z'),
    outcome TEXT CHECK (outcome <> ''),
    CHECK ((closed_by IS NULL) = (closed_at IS NULL))
) STRICT;
CREATE INDEX open_items_of_build ON open_items (build_id);
CREATE INDEX open_items_of_step ON open_items (step_id) WHERE step_id IS NOT NULL;
CREATE INDEX open_items_of_gate ON open_items (gate_id) WHERE gate_id IS NOT NULL;

CREATE TABLE decisions (
    id INTEGER PRIMARY KEY CHECK (id > 0),
    build_id INTEGER NOT NULL REFERENCES builds (id),
    question TEXT NOT NULL CHECK (question <> ''),
    choice TEXT NOT NULL CHECK (choice <> ''),
    reason TEXT CHECK (reason <> ''),
    decided_by TEXT NOT NULL CHECK (decided_by <> ''),
    decided_at TEXT NOT NULL CHECK (decided_at GLOB
        '[0-9][0-9][0-9][0-9]-[0-9][0-9]-[0-9][0-9]T[0-9][0-9]:[0-9][0-9]:[0-9][0-9]Z')
) STRICT;
CREATE INDEX decisions_of_build ON decisions (build_id);

CREATE TABLE approvals (
    id INTEGER PRIMARY KEY CHECK (id > 0),
    build_id INTEGER NOT NULL REFERENCES builds (id),
    subject TEXT NOT NULL CHECK (subject <> ''),
    amount TEXT CHECK (amount GLOB '*[0-9].[0-9][0-9]'),
    answer TEXT NOT NULL CHECK (answer IN ('asked', 'approved', 'declined')),
    by_whom TEXT CHECK (by_whom <> ''),
    manner TEXT CHECK (manner <> ''),
    asked_at TEXT NOT NULL CHECK (asked_at GLOB
        '[0-9][0-9][0-9][0-9]-[0-9][0-9]-[0-9][0-9]T[0-9][0-9]:[0-9][0-9]:[0-9][0-9]Z'),
    answered_at TEXT CHECK (answered_at GLOB
        '[0-9][0-9][0-9][0-9]-[0-9][0-9]-[0-9][0-9]T[0-9][0-9]:[0-9][0-9]:[0-9][0-9]Z'),
    note TEXT CHECK (note <> '')
) STRICT;
CREATE INDEX approvals_of_build ON approvals (build_id);

CREATE TABLE worked_times (
    id INTEGER PRIMARY KEY CHECK (id > 0),
    build_id INTEGER NOT NULL REFERENCES builds (id),
    person_id INTEGER REFERENCES people (id),
    day TEXT NOT NULL CHECK (day GLOB '[0-9][0-9][0-9][0-9]-[0-9][0-9]-[0-9][0-9]'),
    minutes INTEGER NOT NULL CHECK (minutes >= 0),
    work TEXT NOT NULL CHECK (work <> '')
) STRICT;
CREATE INDEX worked_times_of_build ON worked_times (build_id);
CREATE INDEX worked_times_of_person ON worked_times (person_id) WHERE person_id IS NOT NULL;

CREATE TABLE account_lines (
    id INTEGER PRIMARY KEY CHECK (id > 0),
    build_id INTEGER NOT NULL REFERENCES builds (id),
    approval_id INTEGER REFERENCES approvals (id),
    paper TEXT NOT NULL CHECK (paper IN ('estimate', 'extra', 'deposit', 'invoice')),
    ordinal INTEGER NOT NULL CHECK (ordinal >= 0),
    text TEXT NOT NULL CHECK (text <> ''),
    amount TEXT NOT NULL CHECK (amount GLOB '*[0-9].[0-9][0-9]'),
    dated TEXT CHECK (dated GLOB '[0-9][0-9][0-9][0-9]-[0-9][0-9]-[0-9][0-9]')
) STRICT;
CREATE INDEX account_lines_of_build ON account_lines (build_id);
CREATE INDEX account_lines_of_approval ON account_lines (approval_id) WHERE approval_id IS NOT NULL;

CREATE TABLE parts (
    id INTEGER PRIMARY KEY CHECK (id > 0),
    build_id INTEGER NOT NULL REFERENCES builds (id),
    step_id INTEGER REFERENCES steps (id),
    replaces_id INTEGER REFERENCES parts (id),
    item TEXT NOT NULL CHECK (item <> ''),
    size TEXT CHECK (size <> ''),
    marking TEXT CHECK (marking <> ''),
    count INTEGER CHECK (count >= 0),
    position TEXT CHECK (position <> ''),
    owner TEXT NOT NULL CHECK (owner IN ('shop', 'customer')),
    supplier TEXT CHECK (supplier <> ''),
    order_number TEXT CHECK (order_number <> ''),
    cost TEXT CHECK (cost GLOB '*[0-9].[0-9][0-9]'),
    weight TEXT CHECK (weight <> ''),
    needed TEXT CHECK (needed GLOB '[0-9][0-9][0-9][0-9]-[0-9][0-9]-[0-9][0-9]'),
    ordered TEXT CHECK (ordered GLOB '[0-9][0-9][0-9][0-9]-[0-9][0-9]-[0-9][0-9]'),
    promised TEXT CHECK (promised GLOB '[0-9][0-9][0-9][0-9]-[0-9][0-9]-[0-9][0-9]'),
    received TEXT CHECK (received GLOB '[0-9][0-9][0-9][0-9]-[0-9][0-9]-[0-9][0-9]'),
    measured TEXT CHECK (measured GLOB '[0-9][0-9][0-9][0-9]-[0-9][0-9]-[0-9][0-9]'),
    fitted TEXT CHECK (fitted GLOB '[0-9][0-9][0-9][0-9]-[0-9][0-9]-[0-9][0-9]'),
    returned TEXT CHECK (returned GLOB '[0-9][0-9][0-9][0-9]-[0-9][0-9]-[0-9][0-9]'),
    kept_until TEXT CHECK (kept_until GLOB '[0-9][0-9][0-9][0-9]-[0-9][0-9]-[0-9][0-9]'),
    failed TEXT CHECK (failed <> ''),
    note TEXT CHECK (note <> '')
) STRICT;
CREATE INDEX parts_of_build ON parts (build_id);
CREATE INDEX parts_of_step ON parts (step_id) WHERE step_id IS NOT NULL;
CREATE INDEX parts_of_replaces ON parts (replaces_id) WHERE replaces_id IS NOT NULL;

CREATE TABLE sheets (
    id INTEGER PRIMARY KEY CHECK (id > 0),
    build_id INTEGER NOT NULL REFERENCES builds (id),
    step_id INTEGER REFERENCES steps (id),
    kind TEXT NOT NULL CHECK (kind <> ''),
    title TEXT CHECK (title <> ''),
    opened_at TEXT NOT NULL CHECK (opened_at GLOB
        '[0-9][0-9][0-9][0-9]-[0-9][0-9]-[0-9][0-9]T[0-9][0-9]:[0-9][0-9]:[0-9][0-9]Z'),
    note TEXT CHECK (note <> '')
) STRICT;
CREATE INDEX sheets_of_build ON sheets (build_id);
CREATE INDEX sheets_of_step ON sheets (step_id) WHERE step_id IS NOT NULL;

CREATE TABLE limits (
    id INTEGER PRIMARY KEY CHECK (id > 0),
    build_id INTEGER REFERENCES builds (id),
    quantity TEXT NOT NULL CHECK (quantity <> ''),
    position TEXT CHECK (position <> ''),
    low TEXT CHECK (low <> ''),
    high TEXT CHECK (high <> ''),
    unit TEXT CHECK (unit <> ''),
    source TEXT NOT NULL CHECK (source <> ''),
    note TEXT CHECK (note <> ''),
    CHECK (low IS NOT NULL OR high IS NOT NULL)
) STRICT;
CREATE INDEX limits_of_build ON limits (build_id) WHERE build_id IS NOT NULL;

ALTER TABLE readings ADD COLUMN sheet_id INTEGER REFERENCES sheets (id);
ALTER TABLE readings ADD COLUMN instrument_id INTEGER REFERENCES instruments (id);
ALTER TABLE readings ADD COLUMN resolution TEXT CHECK (resolution <> '');
ALTER TABLE readings ADD COLUMN method TEXT CHECK (method <> '');
ALTER TABLE readings ADD COLUMN temperature TEXT CHECK (temperature <> '');
ALTER TABLE readings ADD COLUMN note TEXT CHECK (note <> '');

CREATE INDEX readings_of_sheet ON readings (sheet_id) WHERE sheet_id IS NOT NULL;
CREATE INDEX readings_of_instrument ON readings (instrument_id) WHERE instrument_id IS NOT NULL;

CREATE TABLE sign_offs (
    id INTEGER PRIMARY KEY CHECK (id > 0),
    build_id INTEGER NOT NULL REFERENCES builds (id),
    gate_id INTEGER REFERENCES gates (id),
    step_id INTEGER REFERENCES steps (id),
    reading_id INTEGER REFERENCES readings (id),
    subject TEXT NOT NULL CHECK (subject <> ''),
    value TEXT CHECK (value <> ''),
    limit_text TEXT CHECK (limit_text <> ''),
    limit_source TEXT CHECK (limit_source <> ''),
    verdict TEXT NOT NULL CHECK (verdict <> ''),
    program_version TEXT NOT NULL CHECK (program_version <> ''),
    signed_by TEXT NOT NULL CHECK (signed_by <> ''),
    signed_at TEXT NOT NULL CHECK (signed_at GLOB
        '[0-9][0-9][0-9][0-9]-[0-9][0-9]-[0-9][0-9]T[0-9][0-9]:[0-9][0-9]:[0-9][0-9]Z'),
    note TEXT CHECK (note <> ''),
    withdrawn_by TEXT CHECK (withdrawn_by <> ''),
    withdrawn_at TEXT CHECK (withdrawn_at GLOB
        '[0-9][0-9][0-9][0-9]-[0-9][0-9]-[0-9][0-9]T[0-9][0-9]:[0-9][0-9]:[0-9][0-9]Z'),
    withdrawn_reason TEXT CHECK (withdrawn_reason <> ''),
    CHECK ((withdrawn_by IS NULL) = (withdrawn_at IS NULL))
) STRICT;
CREATE INDEX sign_offs_of_build ON sign_offs (build_id);
CREATE INDEX sign_offs_of_gate ON sign_offs (gate_id) WHERE gate_id IS NOT NULL;
CREATE INDEX sign_offs_of_step ON sign_offs (step_id) WHERE step_id IS NOT NULL;
CREATE INDEX sign_offs_of_reading ON sign_offs (reading_id) WHERE reading_id IS NOT NULL;

CREATE TABLE notes (
    id INTEGER PRIMARY KEY CHECK (id > 0),
    build_id INTEGER NOT NULL REFERENCES builds (id),
    stage_id INTEGER REFERENCES stages (id),
    step_id INTEGER REFERENCES steps (id),
    sheet_id INTEGER REFERENCES sheets (id),
    position TEXT CHECK (position <> ''),
    text TEXT NOT NULL CHECK (text <> ''),
    in_book TEXT CHECK (in_book = '1'),
    written_by TEXT NOT NULL CHECK (written_by <> ''),
    written_at TEXT NOT NULL CHECK (written_at GLOB
        '[0-9][0-9][0-9][0-9]-[0-9][0-9]-[0-9][0-9]T[0-9][0-9]:[0-9][0-9]:[0-9][0-9]Z')
) STRICT;
CREATE INDEX notes_of_build ON notes (build_id);
CREATE INDEX notes_of_stage ON notes (stage_id) WHERE stage_id IS NOT NULL;
CREATE INDEX notes_of_step ON notes (step_id) WHERE step_id IS NOT NULL;
CREATE INDEX notes_of_sheet ON notes (sheet_id) WHERE sheet_id IS NOT NULL;

ALTER TABLE photos ADD COLUMN step_id INTEGER REFERENCES steps (id);
ALTER TABLE photos ADD COLUMN reading_id INTEGER REFERENCES readings (id);
ALTER TABLE photos ADD COLUMN position TEXT CHECK (position <> '');
ALTER TABLE photos ADD COLUMN in_book TEXT CHECK (in_book = '1');
ALTER TABLE photos ADD COLUMN added_by TEXT CHECK (added_by <> '');
ALTER TABLE photos ADD COLUMN taken_at TEXT CHECK (taken_at GLOB
        '[0-9][0-9][0-9][0-9]-[0-9][0-9]-[0-9][0-9]T[0-9][0-9]:[0-9][0-9]:[0-9][0-9]Z');

CREATE INDEX photos_of_step ON photos (step_id) WHERE step_id IS NOT NULL;
CREATE INDEX photos_of_reading ON photos (reading_id) WHERE reading_id IS NOT NULL;

CREATE INDEX builds_in_hand ON builds (id) WHERE archived IS NULL;

-- A salt for each act: what an edit said can't be guessed from its digest once text and salt are gone.
ALTER TABLE acts ADD COLUMN salt BLOB CHECK (length(salt) = 16);

-- Kinds of record are checked by the program, so that a new one needs no new table of edits. An edit has a salt
-- of its own only where a neighbour was erased, and a digest only where it was erased itself.
CREATE TABLE edits_2 (
    act INTEGER NOT NULL REFERENCES acts (number),
    ordinal INTEGER NOT NULL CHECK (ordinal >= 0),
    build_id INTEGER CHECK (build_id > 0),
    record_kind TEXT NOT NULL CHECK (record_kind <> ''),
    record_id INTEGER NOT NULL CHECK (record_id > 0),
    field TEXT NOT NULL CHECK (field <> ''),
    before TEXT CHECK (before <> ''),
    after TEXT CHECK (after <> ''),
    salt BLOB CHECK (length(salt) = 16),
    erased_digest BLOB CHECK (length(erased_digest) = 32),
    PRIMARY KEY (act, ordinal),
    CHECK (erased_digest IS NULL OR (before IS NULL AND after IS NULL AND salt IS NULL))
) STRICT, WITHOUT ROWID;
INSERT INTO edits_2 (act, ordinal, build_id, record_kind, record_id, field, before, after)
    SELECT act, ordinal,
        CASE record_kind
            WHEN 'build' THEN record_id
            WHEN 'step' THEN (SELECT CAST(s.after AS INTEGER) FROM edits o JOIN edits s ON s.record_kind = 'stage'
                AND s.record_id = CAST(o.after AS INTEGER) AND s.field = 'build_id' AND s.after IS NOT NULL
                WHERE o.record_kind = 'step' AND o.record_id = e.record_id AND o.field = 'stage_id'
                AND o.after IS NOT NULL LIMIT 1)
            ELSE (SELECT CAST(o.after AS INTEGER) FROM edits o WHERE o.record_kind = e.record_kind
                AND o.record_id = e.record_id AND o.field = 'build_id' AND o.after IS NOT NULL LIMIT 1)
        END,
        record_kind, record_id, field, before, after FROM edits e;
DROP TABLE edits;
ALTER TABLE edits_2 RENAME TO edits;
CREATE INDEX edits_of_record ON edits (record_kind, record_id, act);

-- One link for each build that an act touches; build 0 is the shop as a whole.
CREATE TABLE history_links (
    build_id INTEGER NOT NULL CHECK (build_id >= 0),
    act INTEGER NOT NULL REFERENCES acts (number),
    digest BLOB NOT NULL CHECK (length(digest) = 32),
    PRIMARY KEY (build_id, act)
) STRICT, WITHOUT ROWID;

CREATE INDEX history_links_of_act ON history_links (act);

-- What was done stays written: a change of mind is a further act. Only personal texts may go, and leave their
-- digest; salts may move from an act to its edits, or go with a text. The program gives an old act its salt once.
DROP TRIGGER acts_stay;
CREATE TRIGGER acts_stay BEFORE UPDATE ON acts
WHEN NOT (NEW.number = OLD.number AND NEW.who = OLD.who AND NEW.when_utc = OLD.when_utc
    AND NEW.undoes IS OLD.undoes AND (NEW.salt IS NULL OR OLD.salt IS NULL)) BEGIN
    SELECT RAISE(ABORT, 'acts are never changed');
END;
CREATE TRIGGER edits_stay BEFORE UPDATE ON edits
WHEN NOT (NEW.act = OLD.act AND NEW.ordinal = OLD.ordinal AND NEW.build_id IS OLD.build_id
    AND NEW.record_kind = OLD.record_kind AND NEW.record_id = OLD.record_id AND NEW.field = OLD.field
    AND OLD.erased_digest IS NULL
    AND ((NEW.before IS OLD.before AND NEW.after IS OLD.after AND OLD.salt IS NULL AND NEW.erased_digest IS NULL)
        OR NEW.erased_digest IS NOT NULL)) BEGIN
    SELECT RAISE(ABORT, 'edits are never changed');
END;
CREATE TRIGGER edits_remain BEFORE DELETE ON edits BEGIN
    SELECT RAISE(ABORT, 'edits are never removed');
END;
CREATE TRIGGER history_links_stay BEFORE UPDATE ON history_links BEGIN
    SELECT RAISE(ABORT, 'links of the history are never changed');
END;
CREATE TRIGGER history_links_remain BEFORE DELETE ON history_links BEGIN
    SELECT RAISE(ABORT, 'links of the history are never removed');
END;

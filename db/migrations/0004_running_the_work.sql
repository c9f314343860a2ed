-- A shop's own plans, what a part is in its engine, fasteners, and limits of used parts.

CREATE TABLE shop_plans (
    id INTEGER PRIMARY KEY CHECK (id > 0),
    word TEXT NOT NULL CHECK (word <> ''),
    title TEXT NOT NULL CHECK (title <> ''),
    content TEXT NOT NULL CHECK (content <> ''),
    note TEXT CHECK (note <> '')
) STRICT;

ALTER TABLE builds ADD COLUMN plan TEXT CHECK (plan <> '');

ALTER TABLE steps ADD COLUMN part_roles TEXT CHECK (part_roles <> '');

ALTER TABLE waivers ADD COLUMN hold TEXT CHECK (hold <> '');

ALTER TABLE parts ADD COLUMN role TEXT CHECK (role <> '');
ALTER TABLE parts ADD COLUMN temporary TEXT CHECK (temporary = '1');
ALTER TABLE parts ADD COLUMN condition TEXT CHECK (condition <> '');
ALTER TABLE parts ADD COLUMN thread TEXT CHECK (thread <> '');
ALTER TABLE parts ADD COLUMN length TEXT CHECK (length <> '');
ALTER TABLE parts ADD COLUMN drive TEXT CHECK (drive <> '');
ALTER TABLE parts ADD COLUMN lubricant TEXT CHECK (lubricant <> '');
ALTER TABLE parts ADD COLUMN tightening TEXT CHECK (tightening <> '');

ALTER TABLE limits ADD COLUMN serviceable TEXT CHECK (serviceable = '1');

ALTER TABLE sign_offs ADD COLUMN stage_id INTEGER REFERENCES stages (id);
CREATE INDEX sign_offs_of_stage ON sign_offs (stage_id) WHERE stage_id IS NOT NULL;

ALTER TABLE open_items ADD COLUMN part_id INTEGER REFERENCES parts (id);
CREATE INDEX open_items_of_part ON open_items (part_id) WHERE part_id IS NOT NULL;

ALTER TABLE notes ADD COLUMN part_id INTEGER REFERENCES parts (id);
CREATE INDEX notes_of_part ON notes (part_id) WHERE part_id IS NOT NULL;

ALTER TABLE photos ADD COLUMN part_id INTEGER REFERENCES parts (id);
ALTER TABLE photos ADD COLUMN sheet_id INTEGER REFERENCES sheets (id);
CREATE INDEX photos_of_part ON photos (part_id) WHERE part_id IS NOT NULL;
CREATE INDEX photos_of_sheet ON photos (sheet_id) WHERE sheet_id IS NOT NULL;

-- What each build waits for is asked of all builds at once.
CREATE INDEX parts_awaited ON parts (build_id, promised) WHERE received IS NULL;
CREATE INDEX cures_running ON cures (build_id) WHERE ended IS NULL;
CREATE INDEX open_items_open ON open_items (build_id) WHERE closed_at IS NULL;

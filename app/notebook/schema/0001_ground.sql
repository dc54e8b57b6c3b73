-- Schema 1: the notebook's own tables.
-- Words of the glossary are stored as they are read ("as found", "new old stock"). Dates are ISO 8601
-- text, money is minor units with a currency, lengths in a region are pixels of the upright picture.

CREATE TABLE vehicles (
    id INTEGER PRIMARY KEY,
    name TEXT NOT NULL UNIQUE,
    maker TEXT NOT NULL DEFAULT '',
    year INTEGER,
    note TEXT NOT NULL DEFAULT ''
) STRICT;

CREATE TABLE positions (
    id INTEGER PRIMARY KEY,
    vehicle_id INTEGER NOT NULL REFERENCES vehicles(id),
    parts_group TEXT NOT NULL,
    number TEXT NOT NULL,
    name TEXT NOT NULL,
    quantity INTEGER NOT NULL DEFAULT 1 CHECK (quantity > 0),
    spec TEXT NOT NULL DEFAULT '',
    UNIQUE (vehicle_id, number)
) STRICT;

CREATE TABLE contacts (
    id INTEGER PRIMARY KEY,
    name TEXT NOT NULL UNIQUE,
    note TEXT NOT NULL DEFAULT ''
) STRICT;

CREATE TABLE makers (
    id INTEGER PRIMARY KEY,
    name TEXT NOT NULL UNIQUE,
    sign TEXT NOT NULL DEFAULT '',
    note TEXT NOT NULL DEFAULT ''
) STRICT;

CREATE TABLE parts (
    id INTEGER PRIMARY KEY,
    tag TEXT NOT NULL UNIQUE COLLATE NOCASE,
    name TEXT NOT NULL,
    position_id INTEGER REFERENCES positions(id),
    vehicle_id INTEGER REFERENCES vehicles(id),
    origin TEXT NOT NULL,
    condition TEXT NOT NULL,
    decision TEXT NOT NULL,
    maker_id INTEGER REFERENCES makers(id),
    place TEXT NOT NULL DEFAULT '',
    contact_id INTEGER REFERENCES contacts(id),
    cost_minor INTEGER,
    currency TEXT,
    quantity INTEGER NOT NULL DEFAULT 1 CHECK (quantity > 0),
    acquired TEXT,
    note TEXT NOT NULL DEFAULT '',
    CHECK ((cost_minor IS NULL) = (currency IS NULL))
) STRICT;
CREATE INDEX parts_by_position ON parts(position_id);

CREATE TABLE photos (
    id INTEGER PRIMARY KEY,
    hash TEXT NOT NULL UNIQUE,
    file TEXT NOT NULL,            -- below the notebook, or absolute when left in place
    in_place INTEGER NOT NULL DEFAULT 0,
    original_name TEXT NOT NULL,
    bytes INTEGER NOT NULL,
    format TEXT NOT NULL,
    width INTEGER NOT NULL,        -- upright
    height INTEGER NOT NULL,
    orientation INTEGER NOT NULL DEFAULT 1,
    taken TEXT,                    -- local time, sub-second and offset where known
    camera_make TEXT NOT NULL DEFAULT '',
    camera_model TEXT NOT NULL DEFAULT '',
    lens TEXT NOT NULL DEFAULT '',
    latitude REAL,
    longitude REAL,
    altitude REAL,
    damage TEXT NOT NULL DEFAULT '' -- why the picture is incomplete; empty when it is whole
) STRICT;
CREATE INDEX photos_by_time ON photos(taken);

CREATE TABLE tasks (
    id INTEGER PRIMARY KEY,
    vehicle_id INTEGER REFERENCES vehicles(id),
    title TEXT NOT NULL,
    note TEXT NOT NULL DEFAULT '',
    state TEXT NOT NULL DEFAULT 'open',
    estimate_hours REAL,
    least_temperature_c REAL,
    waits_for TEXT NOT NULL DEFAULT '', -- a delivery, an answer: in words, emptied when it has come
    done_on TEXT
) STRICT;

CREATE TABLE task_needs (
    task_id INTEGER NOT NULL REFERENCES tasks(id),
    needs_id INTEGER NOT NULL REFERENCES tasks(id),
    PRIMARY KEY (task_id, needs_id),
    CHECK (task_id <> needs_id)
) STRICT, WITHOUT ROWID;

CREATE TABLE task_positions (
    task_id INTEGER NOT NULL REFERENCES tasks(id),
    position_id INTEGER NOT NULL REFERENCES positions(id),
    condition TEXT NOT NULL,
    PRIMARY KEY (task_id, position_id)
) STRICT, WITHOUT ROWID;

CREATE TABLE entries (
    id INTEGER PRIMARY KEY,
    on_date TEXT NOT NULL,
    hours REAL,
    text TEXT NOT NULL,
    written TEXT NOT NULL
) STRICT;
CREATE INDEX entries_by_date ON entries(on_date);

CREATE TABLE entry_parts (
    entry_id INTEGER NOT NULL REFERENCES entries(id),
    part_id INTEGER NOT NULL REFERENCES parts(id),
    PRIMARY KEY (entry_id, part_id)
) STRICT, WITHOUT ROWID;
CREATE INDEX entry_parts_by_part ON entry_parts(part_id);

CREATE TABLE entry_tasks (
    entry_id INTEGER NOT NULL REFERENCES entries(id),
    task_id INTEGER NOT NULL REFERENCES tasks(id),
    PRIMARY KEY (entry_id, task_id)
) STRICT, WITHOUT ROWID;
CREATE INDEX entry_tasks_by_task ON entry_tasks(task_id);

CREATE TABLE worked_results (
    id INTEGER PRIMARY KEY,
    entry_id INTEGER NOT NULL REFERENCES entries(id),
    sheet TEXT NOT NULL,
    plugin_version TEXT NOT NULL,
    answer TEXT NOT NULL           -- JSON as app/calc writes it: inputs, outputs, working, notes
) STRICT;
CREATE INDEX worked_results_by_entry ON worked_results(entry_id);

-- A photo belongs to a part, a task or an entry; one row a tie, exactly one of the three set.
CREATE TABLE ties (
    id INTEGER PRIMARY KEY,
    photo_id INTEGER NOT NULL REFERENCES photos(id),
    part_id INTEGER REFERENCES parts(id),
    task_id INTEGER REFERENCES tasks(id),
    entry_id INTEGER REFERENCES entries(id),
    stage TEXT NOT NULL,
    CHECK ((part_id IS NOT NULL) + (task_id IS NOT NULL) + (entry_id IS NOT NULL) = 1)
) STRICT;
CREATE UNIQUE INDEX ties_once ON ties(photo_id, ifnull(part_id, 0), ifnull(task_id, 0),
                                      ifnull(entry_id, 0));
CREATE INDEX ties_by_part ON ties(part_id);
CREATE INDEX ties_by_task ON ties(task_id);
CREATE INDEX ties_by_entry ON ties(entry_id);

CREATE TABLE marks (
    id INTEGER PRIMARY KEY,
    photo_id INTEGER NOT NULL REFERENCES photos(id),
    x INTEGER NOT NULL,
    y INTEGER NOT NULL,
    w INTEGER NOT NULL CHECK (w > 0),
    h INTEGER NOT NULL CHECK (h > 0),
    reading TEXT NOT NULL,
    maker_id INTEGER REFERENCES makers(id),
    sure TEXT NOT NULL,
    part_id INTEGER REFERENCES parts(id)
) STRICT;
CREATE INDEX marks_by_photo ON marks(photo_id);

-- The day's weather, typed once, used by tasks and sheets.
CREATE TABLE day_conditions (
    on_date TEXT PRIMARY KEY,
    temperature_c REAL,
    humidity REAL                  -- relative, 0 to 1
) STRICT, WITHOUT ROWID;

-- Text typed and not yet saved. Not part of undo: it is the user's next act in the making.
CREATE TABLE drafts (
    name TEXT PRIMARY KEY,
    body TEXT NOT NULL,
    changed TEXT NOT NULL
) STRICT, WITHOUT ROWID;

-- Every act: its words, its changes as SQLite's session extension records them, and the step it
-- belongs to (the acts of one step are undone together).
CREATE TABLE history (
    id INTEGER PRIMARY KEY,
    step INTEGER NOT NULL,
    words TEXT NOT NULL,
    made TEXT NOT NULL,
    schema INTEGER NOT NULL,
    undone INTEGER NOT NULL DEFAULT 0,
    changes BLOB NOT NULL
) STRICT;
CREATE INDEX history_by_step ON history(step);

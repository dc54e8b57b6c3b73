-- Schema 5: one notebook on two machines. Nothing below is filled before it is first carried.

-- Which side this copy is. Rows made here have ids that leave the remainder `side` when divided by 4,
-- so that two machines never give one id to two things.
CREATE TABLE here (
    one INTEGER PRIMARY KEY CHECK (one = 1),
    notebook TEXT NOT NULL,        -- the same on every machine
    side INTEGER NOT NULL,
    base TEXT NOT NULL DEFAULT ''  -- the state both sides are known to hold: met/BASE.db
) STRICT;

-- The copies there are, and how much of what each wrote is known here: all up to the moment `seen`.
CREATE TABLE sides (
    side INTEGER PRIMARY KEY,
    copy TEXT NOT NULL,            -- tells a copy of the folder from the folder; empty: not heard of yet
    name TEXT NOT NULL,
    seen INTEGER NOT NULL DEFAULT 0,
    met INTEGER NOT NULL DEFAULT 0 -- the moment the last set met from there was carried
) STRICT;

-- States that were carried and not yet heard back about, and the base: met/STATE.db.
CREATE TABLE states (
    state TEXT PRIMARY KEY,
    carried INTEGER NOT NULL,      -- when, as a moment of the side that carried it
    schema INTEGER NOT NULL
) STRICT;

-- Who wrote what when: for each record made or removed since the first carrying one row with an empty
-- field, for each field changed in an older record one with the field's name. The moment is in
-- milliseconds since 1970, moved on where a clock goes backwards, so that a later act has a later one.
CREATE TABLE stamps (
    tab TEXT NOT NULL,
    row ANY NOT NULL,              -- the record's id, or its key's parts with commas between
    field TEXT NOT NULL,
    side INTEGER NOT NULL,
    moment INTEGER NOT NULL,
    gone INTEGER NOT NULL DEFAULT 0,
    PRIMARY KEY (tab, row, field)
) STRICT, WITHOUT ROWID;

-- Records that both sides made of the same thing and that became one.
CREATE TABLE same_rows (
    tab TEXT NOT NULL,
    row INTEGER NOT NULL,
    same_as INTEGER NOT NULL,
    PRIMARY KEY (tab, row)
) STRICT, WITHOUT ROWID;

-- What both sides changed differently: the value that stands and the other one, until the user has
-- settled it. Values are JSON: field to value.
CREATE TABLE differences (
    id INTEGER PRIMARY KEY,
    tab TEXT NOT NULL,
    row ANY NOT NULL,
    field TEXT NOT NULL,
    kind TEXT NOT NULL,            -- changed, same tag, removed, circle
    other_side INTEGER NOT NULL,
    other_moment INTEGER NOT NULL,
    stands_side INTEGER NOT NULL,
    stands_moment INTEGER NOT NULL,
    before TEXT NOT NULL,          -- as both sides last had it; empty: not known
    other TEXT NOT NULL,
    stands TEXT NOT NULL,
    settled TEXT NOT NULL DEFAULT '', -- how, in words
    UNIQUE (tab, row, field, other_side, other_moment)
) STRICT;

-- A meeting stands in history, but is not taken back.
ALTER TABLE history ADD COLUMN met INTEGER NOT NULL DEFAULT 0;

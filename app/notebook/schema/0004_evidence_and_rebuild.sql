-- Schema 4: measured parts, what is seen in photos, and the rebuild itself: what is out, what it is
-- made of, what it cost.

-- What may be measured on the part at a position, and the limits it is held against. `typed` holds
-- the inputs of fit.wear as typed, JSON: input id to text.
CREATE TABLE position_features (
    id INTEGER PRIMARY KEY,
    position_id INTEGER NOT NULL REFERENCES positions(id),
    feature TEXT NOT NULL,         -- "pin diameter"
    typed TEXT NOT NULL DEFAULT '{}',
    UNIQUE (position_id, feature)
) STRICT;

-- Readings of one feature of a part on one day, judged: the whole answer of fit.wear, as on entries.
CREATE TABLE measurements (
    id INTEGER PRIMARY KEY,
    part_id INTEGER NOT NULL REFERENCES parts(id),
    feature TEXT NOT NULL,
    on_date TEXT NOT NULL,
    sheet TEXT NOT NULL,
    plugin_version TEXT NOT NULL,
    answer TEXT NOT NULL,          -- JSON as app/calc writes it
    verdict TEXT NOT NULL DEFAULT '',
    note TEXT NOT NULL DEFAULT ''
) STRICT;
CREATE INDEX measurements_by_part ON measurements(part_id);

-- What decoding found besides the pixels, for pointing out blurred shots and near-duplicates.
ALTER TABLE photos ADD COLUMN sharpness REAL;
ALTER TABLE photos ADD COLUMN likeness INTEGER; -- 64 bits of light against dark, near when alike
-- How the stamp was made legible: JSON of filters and how the picture was turned.
ALTER TABLE marks ADD COLUMN seen_with TEXT NOT NULL DEFAULT '';

-- Whose marks belong on the parts of a vehicle; with none told, anybody's do.
CREATE TABLE vehicle_makers (
    id INTEGER PRIMARY KEY,
    vehicle_id INTEGER NOT NULL REFERENCES vehicles(id),
    maker_id INTEGER NOT NULL REFERENCES makers(id),
    UNIQUE (vehicle_id, maker_id)
) STRICT;

-- Two photos laid on each other by matching points, pixels of the upright pictures, JSON.
CREATE TABLE photo_pairs (
    id INTEGER PRIMARY KEY,
    photo_id INTEGER NOT NULL REFERENCES photos(id),
    onto_id INTEGER NOT NULL REFERENCES photos(id),
    points TEXT NOT NULL DEFAULT '[]',
    UNIQUE (photo_id, onto_id)
) STRICT;

-- What a length or a rectangle in a photo is in truth, and what was measured by it, JSON.
CREATE TABLE photo_scales (
    id INTEGER PRIMARY KEY,
    photo_id INTEGER NOT NULL UNIQUE REFERENCES photos(id),
    known TEXT NOT NULL,
    measured TEXT NOT NULL DEFAULT '[]'
) STRICT;

-- A batch sent out to a firm, or on its way in from a seller.
CREATE TABLE consignments (
    id INTEGER PRIMARY KEY,
    inward INTEGER NOT NULL DEFAULT 0,
    contact_id INTEGER REFERENCES contacts(id),
    purpose TEXT NOT NULL,
    destroys_finish INTEGER NOT NULL DEFAULT 0, -- blasting, stripping, plating
    carrier TEXT NOT NULL DEFAULT '',
    carrier_number TEXT NOT NULL DEFAULT '',
    value_minor INTEGER,
    currency TEXT,
    sent_on TEXT,
    due_on TEXT,
    settled_on TEXT,
    settled_how TEXT NOT NULL DEFAULT '',
    note TEXT NOT NULL DEFAULT '',
    CHECK ((value_minor IS NULL) = (currency IS NULL))
) STRICT;

CREATE TABLE consignment_items (
    id INTEGER PRIMARY KEY,
    consignment_id INTEGER NOT NULL REFERENCES consignments(id),
    part_id INTEGER NOT NULL REFERENCES parts(id),
    quantity INTEGER NOT NULL DEFAULT 1 CHECK (quantity > 0),
    condition_out TEXT NOT NULL,
    value_minor INTEGER,
    currency TEXT,
    back INTEGER NOT NULL DEFAULT 0,  -- pieces that came back
    back_on TEXT,
    condition_back TEXT,
    settled_how TEXT NOT NULL DEFAULT '', -- why what is missing is no longer waited for
    note TEXT NOT NULL DEFAULT '',
    UNIQUE (consignment_id, part_id),
    CHECK ((value_minor IS NULL) = (currency IS NULL))
) STRICT;
CREATE INDEX consignment_items_by_part ON consignment_items(part_id);

-- Papers of a consignment: delivery notes, receipts, photographed.
CREATE TABLE consignment_photos (
    id INTEGER PRIMARY KEY,
    consignment_id INTEGER NOT NULL REFERENCES consignments(id),
    photo_id INTEGER NOT NULL REFERENCES photos(id),
    UNIQUE (consignment_id, photo_id)
) STRICT;

-- What a photo of a part shows of how it was found, as the user says; or, without a photo, why there
-- is nothing to show ("cast without marks").
CREATE TABLE evidence (
    id INTEGER PRIMARY KEY,
    part_id INTEGER NOT NULL REFERENCES parts(id),
    shows TEXT NOT NULL,           -- original finish, marks, one side, other side
    photo_id INTEGER REFERENCES photos(id),
    none_because TEXT NOT NULL DEFAULT '',
    CHECK ((photo_id IS NULL) = (none_because <> ''))
) STRICT;
CREATE UNIQUE INDEX evidence_once ON evidence(part_id, shows, ifnull(photo_id, 0));

-- What a task waits for, besides other tasks and positions.
CREATE TABLE task_consignments (
    id INTEGER PRIMARY KEY,
    task_id INTEGER NOT NULL REFERENCES tasks(id),
    consignment_id INTEGER NOT NULL REFERENCES consignments(id),
    UNIQUE (task_id, consignment_id)
) STRICT;

-- That what came back was looked at, where nothing else in the notebook says so.
CREATE TABLE arrival_looks (
    id INTEGER PRIMARY KEY,
    consignment_id INTEGER NOT NULL REFERENCES consignments(id),
    part_id INTEGER NOT NULL REFERENCES parts(id),
    on_date TEXT NOT NULL,
    UNIQUE (consignment_id, part_id)
) STRICT;

-- How many hours one has for the workshop on a day.
ALTER TABLE day_conditions ADD COLUMN hours REAL;

-- Which of the alternates the user has chosen for a position; lots of which some are used; pieces
-- of an assembly; and the days on which a part got so far.
ALTER TABLE positions ADD COLUMN chosen_part_id INTEGER REFERENCES parts(id);
ALTER TABLE parts ADD COLUMN used INTEGER NOT NULL DEFAULT 0;
ALTER TABLE parts ADD COLUMN within_id INTEGER REFERENCES parts(id);
ALTER TABLE parts ADD COLUMN split_on TEXT; -- an assembly that lies in its pieces, since that day
CREATE INDEX parts_within ON parts(within_id);

CREATE TABLE condition_steps (
    id INTEGER PRIMARY KEY,
    part_id INTEGER NOT NULL REFERENCES parts(id),
    condition TEXT NOT NULL,
    on_date TEXT NOT NULL
) STRICT;
CREATE INDEX condition_steps_by_part ON condition_steps(part_id);

-- Money that went out for something other than buying a part, and what was reckoned with.
CREATE TABLE costs (
    id INTEGER PRIMARY KEY,
    on_date TEXT NOT NULL,
    amount_minor INTEGER NOT NULL,
    currency TEXT NOT NULL,
    what TEXT NOT NULL,
    part_id INTEGER REFERENCES parts(id),
    task_id INTEGER REFERENCES tasks(id),
    consignment_id INTEGER REFERENCES consignments(id),
    CHECK ((part_id IS NOT NULL) + (task_id IS NOT NULL) + (consignment_id IS NOT NULL) <= 1)
) STRICT;

CREATE TABLE estimates (
    id INTEGER PRIMARY KEY,
    vehicle_id INTEGER NOT NULL REFERENCES vehicles(id),
    parts_group TEXT NOT NULL,
    amount_minor INTEGER NOT NULL,
    currency TEXT NOT NULL,
    UNIQUE (vehicle_id, parts_group, currency)
) STRICT;

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
    contact_id INTEGER REFERENCES contacts(id), -- to whom it was paid
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

-- Whether a contact is named in the credits, and what they gave, sold, lent, machined or did, beside
-- what parts, consignments and costs say by themselves.
ALTER TABLE contacts ADD COLUMN in_credits INTEGER NOT NULL DEFAULT 1;
CREATE TABLE helps (
    id INTEGER PRIMARY KEY,
    contact_id INTEGER NOT NULL REFERENCES contacts(id),
    did TEXT NOT NULL,             -- gave, sold, lent, machined, helped
    what TEXT NOT NULL,
    on_date TEXT
) STRICT;
CREATE INDEX helps_by_contact ON helps(contact_id);

-- The search over everything, anew with more kinds: the rowid packs the record's id and its kind as
-- id * 16 + kind. Each view `says_KIND` gives the words of its records; triggers keep `words` in step.
DROP TRIGGER words_part_in;
DROP TRIGGER words_part_out;
DROP TRIGGER words_part_new;
DROP TRIGGER words_task_in;
DROP TRIGGER words_task_out;
DROP TRIGGER words_task_new;
DROP TRIGGER words_entry_in;
DROP TRIGGER words_entry_out;
DROP TRIGGER words_entry_new;
DROP TRIGGER words_mark_in;
DROP TRIGGER words_mark_out;
DROP TRIGGER words_mark_new;
DROP TRIGGER words_photo_in;
DROP TRIGGER words_photo_out;
DROP TRIGGER words_position_in;
DROP TRIGGER words_position_out;
DROP TRIGGER words_position_new;
DELETE FROM words;

CREATE VIEW says_part AS
SELECT id, tag || ' ' || name || ' ' || place || ' ' || note || ' ' ||
       ifnull((SELECT name FROM makers WHERE id = parts.maker_id), '') AS text
FROM parts;
CREATE TRIGGER words_part_in AFTER INSERT ON parts BEGIN
    INSERT INTO words(rowid, kind, text)
    SELECT id * 16 + 1, 'part', text FROM says_part WHERE id = new.id;
END;
CREATE TRIGGER words_part_out AFTER DELETE ON parts BEGIN
    DELETE FROM words WHERE rowid = old.id * 16 + 1;
END;
CREATE TRIGGER words_part_new AFTER UPDATE ON parts BEGIN
    UPDATE words SET text = (SELECT text FROM says_part WHERE id = new.id)
    WHERE rowid = new.id * 16 + 1;
END;
INSERT INTO words(rowid, kind, text) SELECT id * 16 + 1, 'part', text FROM says_part;

CREATE VIEW says_task AS
SELECT id, title || ' ' || note || ' ' || waits_for AS text
FROM tasks;
CREATE TRIGGER words_task_in AFTER INSERT ON tasks BEGIN
    INSERT INTO words(rowid, kind, text)
    SELECT id * 16 + 2, 'task', text FROM says_task WHERE id = new.id;
END;
CREATE TRIGGER words_task_out AFTER DELETE ON tasks BEGIN
    DELETE FROM words WHERE rowid = old.id * 16 + 2;
END;
CREATE TRIGGER words_task_new AFTER UPDATE ON tasks BEGIN
    UPDATE words SET text = (SELECT text FROM says_task WHERE id = new.id)
    WHERE rowid = new.id * 16 + 2;
END;
INSERT INTO words(rowid, kind, text) SELECT id * 16 + 2, 'task', text FROM says_task;

CREATE VIEW says_entry AS
SELECT id, text AS text
FROM entries;
CREATE TRIGGER words_entry_in AFTER INSERT ON entries BEGIN
    INSERT INTO words(rowid, kind, text)
    SELECT id * 16 + 3, 'entry', text FROM says_entry WHERE id = new.id;
END;
CREATE TRIGGER words_entry_out AFTER DELETE ON entries BEGIN
    DELETE FROM words WHERE rowid = old.id * 16 + 3;
END;
CREATE TRIGGER words_entry_new AFTER UPDATE ON entries BEGIN
    UPDATE words SET text = (SELECT text FROM says_entry WHERE id = new.id)
    WHERE rowid = new.id * 16 + 3;
END;
INSERT INTO words(rowid, kind, text) SELECT id * 16 + 3, 'entry', text FROM says_entry;

CREATE VIEW says_mark AS
SELECT id, reading || ' ' || ifnull((SELECT name FROM makers WHERE id = marks.maker_id), '') AS text
FROM marks;
CREATE TRIGGER words_mark_in AFTER INSERT ON marks BEGIN
    INSERT INTO words(rowid, kind, text)
    SELECT id * 16 + 4, 'mark', text FROM says_mark WHERE id = new.id;
END;
CREATE TRIGGER words_mark_out AFTER DELETE ON marks BEGIN
    DELETE FROM words WHERE rowid = old.id * 16 + 4;
END;
CREATE TRIGGER words_mark_new AFTER UPDATE ON marks BEGIN
    UPDATE words SET text = (SELECT text FROM says_mark WHERE id = new.id)
    WHERE rowid = new.id * 16 + 4;
END;
INSERT INTO words(rowid, kind, text) SELECT id * 16 + 4, 'mark', text FROM says_mark;

CREATE VIEW says_photo AS
SELECT id, original_name AS text
FROM photos;
CREATE TRIGGER words_photo_in AFTER INSERT ON photos BEGIN
    INSERT INTO words(rowid, kind, text)
    SELECT id * 16 + 5, 'photo', text FROM says_photo WHERE id = new.id;
END;
CREATE TRIGGER words_photo_out AFTER DELETE ON photos BEGIN
    DELETE FROM words WHERE rowid = old.id * 16 + 5;
END;
INSERT INTO words(rowid, kind, text) SELECT id * 16 + 5, 'photo', text FROM says_photo;

CREATE VIEW says_position AS
SELECT id, number || ' ' || name || ' ' || spec || ' ' || parts_group AS text
FROM positions;
CREATE TRIGGER words_position_in AFTER INSERT ON positions BEGIN
    INSERT INTO words(rowid, kind, text)
    SELECT id * 16 + 6, 'position', text FROM says_position WHERE id = new.id;
END;
CREATE TRIGGER words_position_out AFTER DELETE ON positions BEGIN
    DELETE FROM words WHERE rowid = old.id * 16 + 6;
END;
CREATE TRIGGER words_position_new AFTER UPDATE ON positions BEGIN
    UPDATE words SET text = (SELECT text FROM says_position WHERE id = new.id)
    WHERE rowid = new.id * 16 + 6;
END;
INSERT INTO words(rowid, kind, text) SELECT id * 16 + 6, 'position', text FROM says_position;

CREATE VIEW says_consignment AS
SELECT id, purpose || ' ' || carrier || ' ' || carrier_number || ' ' || note || ' ' || settled_how ||
       ' ' || ifnull((SELECT name FROM contacts WHERE id = consignments.contact_id), '') AS text
FROM consignments;
CREATE TRIGGER words_consignment_in AFTER INSERT ON consignments BEGIN
    INSERT INTO words(rowid, kind, text)
    SELECT id * 16 + 7, 'consignment', text FROM says_consignment WHERE id = new.id;
END;
CREATE TRIGGER words_consignment_out AFTER DELETE ON consignments BEGIN
    DELETE FROM words WHERE rowid = old.id * 16 + 7;
END;
CREATE TRIGGER words_consignment_new AFTER UPDATE ON consignments BEGIN
    UPDATE words SET text = (SELECT text FROM says_consignment WHERE id = new.id)
    WHERE rowid = new.id * 16 + 7;
END;
INSERT INTO words(rowid, kind, text) SELECT id * 16 + 7, 'consignment', text FROM says_consignment;

CREATE VIEW says_measurement AS
SELECT id, feature || ' ' || verdict || ' ' || note AS text
FROM measurements;
CREATE TRIGGER words_measurement_in AFTER INSERT ON measurements BEGIN
    INSERT INTO words(rowid, kind, text)
    SELECT id * 16 + 8, 'measurement', text FROM says_measurement WHERE id = new.id;
END;
CREATE TRIGGER words_measurement_out AFTER DELETE ON measurements BEGIN
    DELETE FROM words WHERE rowid = old.id * 16 + 8;
END;
CREATE TRIGGER words_measurement_new AFTER UPDATE ON measurements BEGIN
    UPDATE words SET text = (SELECT text FROM says_measurement WHERE id = new.id)
    WHERE rowid = new.id * 16 + 8;
END;
INSERT INTO words(rowid, kind, text) SELECT id * 16 + 8, 'measurement', text FROM says_measurement;

CREATE VIEW says_cost AS
SELECT id, what || ' ' || ifnull((SELECT name FROM contacts WHERE id = costs.contact_id), '') AS text
FROM costs;
CREATE TRIGGER words_cost_in AFTER INSERT ON costs BEGIN
    INSERT INTO words(rowid, kind, text)
    SELECT id * 16 + 9, 'cost', text FROM says_cost WHERE id = new.id;
END;
CREATE TRIGGER words_cost_out AFTER DELETE ON costs BEGIN
    DELETE FROM words WHERE rowid = old.id * 16 + 9;
END;
CREATE TRIGGER words_cost_new AFTER UPDATE ON costs BEGIN
    UPDATE words SET text = (SELECT text FROM says_cost WHERE id = new.id)
    WHERE rowid = new.id * 16 + 9;
END;
INSERT INTO words(rowid, kind, text) SELECT id * 16 + 9, 'cost', text FROM says_cost;

CREATE VIEW says_contact AS
SELECT id, name || ' ' || note || ' ' ||
       ifnull((SELECT group_concat(what, ' ') FROM helps WHERE contact_id = contacts.id), '') AS text
FROM contacts;
CREATE TRIGGER words_contact_in AFTER INSERT ON contacts BEGIN
    INSERT INTO words(rowid, kind, text)
    SELECT id * 16 + 10, 'contact', text FROM says_contact WHERE id = new.id;
END;
CREATE TRIGGER words_contact_out AFTER DELETE ON contacts BEGIN
    DELETE FROM words WHERE rowid = old.id * 16 + 10;
END;
CREATE TRIGGER words_contact_new AFTER UPDATE ON contacts BEGIN
    UPDATE words SET text = (SELECT text FROM says_contact WHERE id = new.id)
    WHERE rowid = new.id * 16 + 10;
END;
INSERT INTO words(rowid, kind, text) SELECT id * 16 + 10, 'contact', text FROM says_contact;

CREATE VIEW says_result AS
SELECT id, sheet || ' ' || ifnull(json_extract(told, '$.sheet.title'), '') || ' ' ||
       ifnull((SELECT group_concat(value, ' ') FROM json_each(told, '$.working')), '') || ' ' ||
       ifnull((SELECT group_concat(value ->> 'text', ' ') FROM json_each(told, '$.outputs')), '') AS text
FROM (SELECT id, sheet, iif(json_valid(answer), answer, '{}') AS told FROM worked_results);
CREATE TRIGGER words_result_in AFTER INSERT ON worked_results BEGIN
    INSERT INTO words(rowid, kind, text)
    SELECT id * 16 + 11, 'result', text FROM says_result WHERE id = new.id;
END;
CREATE TRIGGER words_result_out AFTER DELETE ON worked_results BEGIN
    DELETE FROM words WHERE rowid = old.id * 16 + 11;
END;
INSERT INTO words(rowid, kind, text) SELECT id * 16 + 11, 'result', text FROM says_result;

-- A contact's words hold what they did; those of consignments and costs hold the contact's name.
CREATE TRIGGER words_help_in AFTER INSERT ON helps BEGIN
    UPDATE words SET text = (SELECT text FROM says_contact WHERE id = new.contact_id)
    WHERE rowid = new.contact_id * 16 + 10;
END;
CREATE TRIGGER words_help_out AFTER DELETE ON helps BEGIN
    UPDATE words SET text = (SELECT text FROM says_contact WHERE id = old.contact_id)
    WHERE rowid = old.contact_id * 16 + 10;
END;
CREATE TRIGGER words_help_new AFTER UPDATE ON helps BEGIN
    UPDATE words SET text = (SELECT text FROM says_contact WHERE id = new.contact_id)
    WHERE rowid = new.contact_id * 16 + 10;
END;
CREATE TRIGGER words_contact_renamed AFTER UPDATE OF name ON contacts BEGIN
    UPDATE words SET text = (SELECT text FROM says_consignment WHERE id = words.rowid / 16)
    WHERE rowid IN (SELECT id * 16 + 7 FROM consignments WHERE contact_id = new.id);
    UPDATE words SET text = (SELECT text FROM says_cost WHERE id = words.rowid / 16)
    WHERE rowid IN (SELECT id * 16 + 9 FROM costs WHERE contact_id = new.id);
END;

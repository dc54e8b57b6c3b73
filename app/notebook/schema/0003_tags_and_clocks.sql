-- Schema 3: tags read in photos and the runs of photos they start; camera clocks that went wrong;
-- times that were guessed.

-- The time as the camera wrote it; `taken` is that time with the camera's clock put right.
ALTER TABLE photos ADD COLUMN taken_by_camera TEXT;
-- Where `taken` comes from: camera, file name, neighbours.
ALTER TABLE photos ADD COLUMN taken_from TEXT NOT NULL DEFAULT 'camera';
-- The photo a time guessed from neighbours hangs on; it moves with that photo's time.
ALTER TABLE photos ADD COLUMN taken_near INTEGER REFERENCES photos(id);
-- `taken` as milliseconds since 1970 UTC, for putting photos in order: a time without an offset
-- counts as local time.
ALTER TABLE photos ADD COLUMN at INTEGER;
UPDATE photos SET
    taken_by_camera = taken,
    at = CAST(round((julianday(taken, CASE WHEN taken GLOB '*[+-][0-9][0-9]:[0-9][0-9]'
                                           THEN '+0 days' ELSE 'utc' END)
                     - 2440587.5) * 86400000.0) AS INTEGER);
CREATE INDEX photos_by_moment ON photos(at);
CREATE INDEX photos_by_camera ON photos(camera_make, camera_model);

-- How far a camera's clock is ahead of the time, and the zone it is set to where the camera does
-- not write one.
CREATE TABLE clocks (
    id INTEGER PRIMARY KEY,
    camera_make TEXT NOT NULL,
    camera_model TEXT NOT NULL,
    ahead_ms INTEGER NOT NULL,
    zone_min INTEGER,
    UNIQUE (camera_make, camera_model)
) STRICT;

-- What take-in read in a photo. The photo is tied once, as soon as there is a part with the tag; a
-- tie taken off by hand does not come back.
CREATE TABLE tag_reads (
    id INTEGER PRIMARY KEY,
    photo_id INTEGER NOT NULL REFERENCES photos(id),
    tag TEXT NOT NULL COLLATE NOCASE,
    tied INTEGER NOT NULL DEFAULT 0,
    UNIQUE (photo_id, tag)
) STRICT;

-- Photos that are held to show one part, because they follow its tag.
CREATE TABLE runs (
    id INTEGER PRIMARY KEY,
    part_id INTEGER NOT NULL REFERENCES parts(id),
    state TEXT NOT NULL,           -- proposed, accepted, dismissed
    stage TEXT NOT NULL DEFAULT 'during'
) STRICT;
CREATE INDEX runs_by_state ON runs(state);

CREATE TABLE run_photos (
    id INTEGER PRIMARY KEY,
    run_id INTEGER NOT NULL REFERENCES runs(id),
    photo_id INTEGER NOT NULL UNIQUE REFERENCES photos(id),
    is_out INTEGER NOT NULL DEFAULT 0, -- taken out by hand: not to be proposed again
    made_tie INTEGER NOT NULL DEFAULT 0
) STRICT;
CREATE INDEX run_photos_by_run ON run_photos(run_id);

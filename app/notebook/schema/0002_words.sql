-- Schema 2: one search over everything. Triggers keep the words in step with the records, whether
-- they change by an act, by undo or by redo. The rowid packs the record's id and its kind.

CREATE VIRTUAL TABLE words USING fts5(kind UNINDEXED, text, tokenize = 'unicode61 remove_diacritics 2');

CREATE TRIGGER words_part_in AFTER INSERT ON parts BEGIN
    INSERT INTO words(rowid, kind, text)
    VALUES (new.id * 8 + 1, 'part', new.tag || ' ' || new.name || ' ' || new.place || ' ' || new.note);
END;
CREATE TRIGGER words_part_out AFTER DELETE ON parts BEGIN
    DELETE FROM words WHERE rowid = old.id * 8 + 1;
END;
CREATE TRIGGER words_part_new AFTER UPDATE ON parts BEGIN
    UPDATE words SET text = new.tag || ' ' || new.name || ' ' || new.place || ' ' || new.note
    WHERE rowid = new.id * 8 + 1;
END;

CREATE TRIGGER words_task_in AFTER INSERT ON tasks BEGIN
    INSERT INTO words(rowid, kind, text)
    VALUES (new.id * 8 + 2, 'task', new.title || ' ' || new.note || ' ' || new.waits_for);
END;
CREATE TRIGGER words_task_out AFTER DELETE ON tasks BEGIN
    DELETE FROM words WHERE rowid = old.id * 8 + 2;
END;
CREATE TRIGGER words_task_new AFTER UPDATE ON tasks BEGIN
    UPDATE words SET text = new.title || ' ' || new.note || ' ' || new.waits_for
    WHERE rowid = new.id * 8 + 2;
END;

CREATE TRIGGER words_entry_in AFTER INSERT ON entries BEGIN
    INSERT INTO words(rowid, kind, text) VALUES (new.id * 8 + 3, 'entry', new.text);
END;
CREATE TRIGGER words_entry_out AFTER DELETE ON entries BEGIN
    DELETE FROM words WHERE rowid = old.id * 8 + 3;
END;
CREATE TRIGGER words_entry_new AFTER UPDATE ON entries BEGIN
    UPDATE words SET text = new.text WHERE rowid = new.id * 8 + 3;
END;

CREATE TRIGGER words_mark_in AFTER INSERT ON marks BEGIN
    INSERT INTO words(rowid, kind, text)
    VALUES (new.id * 8 + 4, 'mark',
            new.reading || ' ' || ifnull((SELECT name FROM makers WHERE id = new.maker_id), ''));
END;
CREATE TRIGGER words_mark_out AFTER DELETE ON marks BEGIN
    DELETE FROM words WHERE rowid = old.id * 8 + 4;
END;
CREATE TRIGGER words_mark_new AFTER UPDATE ON marks BEGIN
    UPDATE words
    SET text = new.reading || ' ' || ifnull((SELECT name FROM makers WHERE id = new.maker_id), '')
    WHERE rowid = new.id * 8 + 4;
END;

CREATE TRIGGER words_photo_in AFTER INSERT ON photos BEGIN
    INSERT INTO words(rowid, kind, text) VALUES (new.id * 8 + 5, 'photo', new.original_name);
END;
CREATE TRIGGER words_photo_out AFTER DELETE ON photos BEGIN
    DELETE FROM words WHERE rowid = old.id * 8 + 5;
END;

CREATE TRIGGER words_position_in AFTER INSERT ON positions BEGIN
    INSERT INTO words(rowid, kind, text)
    VALUES (new.id * 8 + 6, 'position', new.number || ' ' || new.name || ' ' || new.spec);
END;
CREATE TRIGGER words_position_out AFTER DELETE ON positions BEGIN
    DELETE FROM words WHERE rowid = old.id * 8 + 6;
END;
CREATE TRIGGER words_position_new AFTER UPDATE ON positions BEGIN
    UPDATE words SET text = new.number || ' ' || new.name || ' ' || new.spec
    WHERE rowid = new.id * 8 + 6;
END;

INSERT INTO words(rowid, kind, text)
SELECT id * 8 + 1, 'part', tag || ' ' || name || ' ' || place || ' ' || note FROM parts;
INSERT INTO words(rowid, kind, text)
SELECT id * 8 + 2, 'task', title || ' ' || note || ' ' || waits_for FROM tasks;
INSERT INTO words(rowid, kind, text) SELECT id * 8 + 3, 'entry', text FROM entries;
INSERT INTO words(rowid, kind, text)
SELECT m.id * 8 + 4, 'mark', m.reading || ' ' || ifnull(k.name, '')
FROM marks m LEFT JOIN makers k ON k.id = m.maker_id;
INSERT INTO words(rowid, kind, text) SELECT id * 8 + 5, 'photo', original_name FROM photos;
INSERT INTO words(rowid, kind, text)
SELECT id * 8 + 6, 'position', number || ' ' || name || ' ' || spec FROM positions;

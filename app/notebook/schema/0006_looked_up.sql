-- Schema 6: indexes alone, for what is looked up by a column that had none. Whatever removes a record,
-- as undo does, has to see that nothing refers to it: without the first, taking back a take-in of
-- sixty photos reads all photos sixty times. Partial where few rows have a value.
CREATE INDEX photos_near ON photos(taken_near) WHERE taken_near IS NOT NULL;
CREATE INDEX positions_by_chosen ON positions(chosen_part_id) WHERE chosen_part_id IS NOT NULL;
CREATE INDEX marks_by_part ON marks(part_id) WHERE part_id IS NOT NULL;
CREATE INDEX costs_by_part ON costs(part_id) WHERE part_id IS NOT NULL;
CREATE INDEX costs_by_task ON costs(task_id) WHERE task_id IS NOT NULL;

-- The words anew, with an index of their first one and first two letters: what is found while a word
-- is being typed would otherwise be put together from all words that begin so, at every key.
-- The triggers on the records' tables fill it as before.
DROP TABLE words;
CREATE VIRTUAL TABLE words USING fts5(kind UNINDEXED, text,
                                      tokenize = 'unicode61 remove_diacritics 2', prefix = '1 2');
INSERT INTO words(rowid, kind, text) SELECT id * 16 + 1, 'part', text FROM says_part;
INSERT INTO words(rowid, kind, text) SELECT id * 16 + 2, 'task', text FROM says_task;
INSERT INTO words(rowid, kind, text) SELECT id * 16 + 3, 'entry', text FROM says_entry;
INSERT INTO words(rowid, kind, text) SELECT id * 16 + 4, 'mark', text FROM says_mark;
INSERT INTO words(rowid, kind, text) SELECT id * 16 + 5, 'photo', text FROM says_photo;
INSERT INTO words(rowid, kind, text) SELECT id * 16 + 6, 'position', text FROM says_position;
INSERT INTO words(rowid, kind, text) SELECT id * 16 + 7, 'consignment', text FROM says_consignment;
INSERT INTO words(rowid, kind, text) SELECT id * 16 + 8, 'measurement', text FROM says_measurement;
INSERT INTO words(rowid, kind, text) SELECT id * 16 + 9, 'cost', text FROM says_cost;
INSERT INTO words(rowid, kind, text) SELECT id * 16 + 10, 'contact', text FROM says_contact;
INSERT INTO words(rowid, kind, text) SELECT id * 16 + 11, 'result', text FROM says_result;

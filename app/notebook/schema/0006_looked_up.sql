-- Schema 6: indexes alone, for what is looked up by a column that had none. Whatever removes a record,
-- as undo does, has to see that nothing refers to it: without the first, taking back a take-in of
-- sixty photos reads all photos sixty times. Partial where few rows have a value.
CREATE INDEX photos_near ON photos(taken_near) WHERE taken_near IS NOT NULL;
CREATE INDEX positions_by_chosen ON positions(chosen_part_id) WHERE chosen_part_id IS NOT NULL;
CREATE INDEX marks_by_part ON marks(part_id) WHERE part_id IS NOT NULL;
CREATE INDEX costs_by_part ON costs(part_id) WHERE part_id IS NOT NULL;
CREATE INDEX costs_by_task ON costs(task_id) WHERE task_id IS NOT NULL;

"""Fails on an INSERT into a recorded table that numbers its row without next_id(): two machines would
give one number to two things (app/notebook/stamps.h)."""
import re

from tracked import read, root, tracked, verdict

TABLES = "app/notebook/recorded_tables.cpp"
INSERT = re.compile(r'INSERT (?:OR \w+ )?INTO (\w+|"\s*\+\s*(?:store::in_quotes\()?table)')


def with_ids(top):
    """Recorded tables whose rows have an id."""
    recorded = re.findall(r'RecordedTable\{\.name = "(\w+)"', read(top, TABLES))
    made = "".join(read(top, name) for name in tracked(top, (".sql",)))
    return {table for table in recorded
            if re.search(r"CREATE TABLE " + table + r" \(\s*id INTEGER PRIMARY KEY", made)}


def faults(top):
    tables = with_ids(top)
    if len(tables) < 20:
        yield f"{TABLES}: only {len(tables)} tables with ids were found"
    for name in tracked(top, (".cpp", ".h")):
        # What merging writes has its ids already.
        if not name.startswith("app/notebook/") or "/merge" in name or name.endswith("meeting.cpp"):
            continue
        text = read(top, name)
        for insert in INSERT.finditer(text):
            table = insert.group(1)
            if table not in tables and not table.startswith('"'):
                continue
            statement = text[insert.start():insert.start() + 600].split(";")[0]
            if "next_id(" not in statement:
                line = text.count("\n", 0, insert.start()) + 1
                yield f"{name}:{line}: a row of {table} is numbered without next_id()"


if __name__ == "__main__":
    verdict(list(faults(root())))

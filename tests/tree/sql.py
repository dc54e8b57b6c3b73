"""Fails where a statement of SQL is put together from text that nobody has vouched for.

A statement handed to SQLite is one constant, or constants joined with: other constants (kName), numbers
(std::to_string), names in quotes (in_quotes, listed), or one of the few words below, each of which holds a
name out of the schema or one of our own constants. Values are always bound ("?")."""
import os
import re

from tracked import read, root, tracked, verdict

# What hands a statement to SQLite; the statement is the argument of that number.
CALLS = {"query": 0, "run": 0, "run_script": 0, "prepared": 1, "sqlite3_exec": 1,
         "sqlite3_prepare_v2": 1, "sqlite3_prepare_v3": 1}
CALL = re.compile(r"\b(" + "|".join(CALLS) + r")\s*\(|\bStatement\s+\w+\s*\(")
OPENS, CLOSES = "([{", ")]}"
SOUND = re.compile(r'^(?:"|std::to_string\(|in_quotes\(|store::in_quotes\(|listed\(|'
                   r'(?:std::string\()?k[A-Z]\w*\)?$)')
# Parts of statements that are themselves made of constants and of names out of the schema: the columns of
# a table's key (TableShape), lists of columns that were looked up there, names that in_quotes gave, and
# conditions chosen from constants.
VOUCHED = {
    "'.'", "row", "named", "where", "of_source", "field", "name", "none", "places",
    "shape.row()", "shape.where_row()", "shape(table).where_row()", "ground_.shape(table).where_row()",
    "ground_.shape(reference.table).where_row()", "reference.to",
    'join(values, ", ")', 'join(sets, ", ")', 'join(once, ", ")', 'join(lines, ", ")',
    'join(empty, " AND ")', 'fettle::join(pairs, ", ")',
    "where.sql()", "unseen(ground_.ask.theirs_seen)", "unseen(ground.ask.mine_seen)",
    "refers_to_none(database, column)", '(table.key.empty() ? "" : " ORDER BY " + listed(table.key))',
    "word_rows(kind)",
}


def literal_end(text, at):
    """Past the string or character literal that begins at `at`."""
    raw = re.match(r'R"(\w*)\(', text[max(at - 1, 0):at + 20]) if text[at - 1:at] == "R" else None
    if raw:
        return text.index(")" + raw.group(1) + '"', at) + len(raw.group(1)) + 2
    quote = text[at]
    at += 1
    while text[at] != quote:
        at += 2 if text[at] == "\\" else 1
    return at + 1


def pieces(text, at, separator):
    """The parts between separators from `at` to the bracket that closes, comments left out."""
    parts, depth, part = [], 0, ""
    while at < len(text):
        letter = text[at]
        if text.startswith("//", at):
            at = text.index("\n", at)
            continue
        if letter == '"' or (letter == "'" and not text[at - 1].isalnum()):
            end = literal_end(text, at)
            part += text[at:end]
            at = end
            continue
        if letter in OPENS:
            depth += 1
        elif letter in CLOSES:
            if depth == 0:
                break
            depth -= 1
        elif letter == separator and depth == 0:
            parts.append(part.strip())
            part = ""
            at += 1
            continue
        part += letter
        at += 1
    return parts + [part.strip()]


def faults(top):
    calls = 0
    for name in tracked(top, (".cpp", ".h")):
        if not name.startswith("app/"):
            continue
        text = read(top, name)
        for call in CALL.finditer(text):
            which = CALLS.get(call.group(1) or "", 1)
            arguments = pieces(text, call.end(), ",")
            if len(arguments) <= which:
                continue
            operands = pieces(arguments[which] + ")", 0, "+")
            line = text.count("\n", 0, call.start()) + 1
            calls += len(operands) > 1
            if len(operands) < 2:
                if re.match(r"(?:std::)?format\(", arguments[which]):
                    yield f"{name}:{line}: SQL is put together by a format"
                continue
            for operand in operands:
                operand = re.sub(r"\s+", " ", operand)
                if not SOUND.match(operand) and operand not in VOUCHED:
                    yield f"{name}:{line}: SQL is put together from {operand}"
    if calls < 20 and os.path.isdir(os.path.join(top, "app", "store")):
        yield f"only {calls} statements put together were found: has the way of calling SQLite changed?"


if __name__ == "__main__":
    verdict(list(faults(root())))

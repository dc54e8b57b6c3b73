"""Fails on a file over 600 lines or a function over 80; prints how long they are on the whole."""
import re

from tracked import read, root, tracked, verdict

MOST_FILE_LINES = 600
MOST_FUNCTION_LINES = 80

# Literals and comments may hold braces; they are blanked with their line ends kept.
NOISE = re.compile(r'R"([^()\s]*)\(.*?\)\1"|"(?:\\.|[^"\\\n])*"|\'(?:\\.|[^\'\\\n])+\'|//[^\n]*|/\*.*?\*/',
                   re.DOTALL)
TYPE_OR_SPACE = re.compile(r"\b(namespace|class|struct|union|enum)\b|extern\s*\"\s*\"|\bextern\b")
# "A::A(int a) : a_{" : the brace is a member's initialiser, the body is still to come.
INITIALISER = re.compile(r"\).*(?:(?<!:):|,)\s+\w+\s*$", re.DOTALL)
DIGIT_MARK = re.compile(r"(?<=[0-9a-fA-F])'(?=[0-9a-fA-F])")


def blanked(text):
    return NOISE.sub(lambda found: '""' + "\n" * found[0].count("\n"), DIGIT_MARK.sub("", text))


def opens_scope(head):
    """Whether the brace behind `head` opens a namespace or a type, whose inside holds functions."""
    flat = re.sub(r"\([^()]*\)|<[^<>]*>", "", head)
    return TYPE_OR_SPACE.search(flat) is not None and "(" not in flat


def functions(text):
    """(first line, lines) of every function body, told by braces; scopes are looked into."""
    found = []
    stack = []  # for each open brace: the head's first line for a function, a mark for the others
    head = ""
    head_line = line = 1
    for char in blanked(text):
        if char == "\n":
            line += 1
        in_function = any(isinstance(entry, int) for entry in stack)
        if char == "{" and not in_function and INITIALISER.search(head):
            stack.append("initialiser")
        elif char == "{":
            function = not in_function and not opens_scope(head) and ")" in head
            stack.append(head_line if function else "scope")
            head = ""
        elif char == "}":
            closed = stack.pop() if stack else "scope"
            if isinstance(closed, int):
                found.append((closed, line - closed + 1))
            head = head + "{}" if closed == "initialiser" else ""
        elif char == ";":
            head = ""
        else:
            if not head.strip():
                head_line = line
            head += char
    return found


def spread(name, lengths):
    lengths = sorted(lengths)
    at = lambda share: lengths[min(len(lengths) - 1, int(share * len(lengths)))]
    return f"{name}: {len(lengths)}, p50 {at(0.5)}, p90 {at(0.9)}, max {lengths[-1]} lines"


def main():
    top = root()
    faults, files, bodies = [], [], []
    for name in tracked(top, (".cpp", ".h", ".c", ".py")):
        text = read(top, name)
        files.append(text.count("\n"))
        if files[-1] > MOST_FILE_LINES:
            faults.append(f"{name}: {files[-1]} lines, at most {MOST_FILE_LINES}")
        if name.endswith(".py"):
            continue
        for first, lines in functions(text):
            bodies.append(lines)
            if lines > MOST_FUNCTION_LINES:
                faults.append(f"{name}:{first}: function of {lines} lines, at most "
                              f"{MOST_FUNCTION_LINES}")
    if not files or not bodies:
        verdict(["no function found: the check looked at nothing"])
    print(spread("files", files))
    print(spread("functions", bodies))
    verdict(faults)


main()

"""Fails on an include that points up: see the map of rooms in DEVELOPERS.md."""
import re

from tracked import read, root, tracked, verdict

# What each room may include of the others, and of the wrapped libraries that have one home.
BELOW = {
    "base": set(),
    "store": {"base"},
    "notebook": {"base", "store"},
    "photos": {"base", "store"},
    "calc": {"base"},
    "relief": {"base"},
    "desk": {"base", "store", "notebook", "photos", "calc", "relief"},
    "cli": {"base", "store", "notebook", "photos", "calc", "relief", "desk"},
    "ui": {"base", "store", "notebook", "photos", "calc", "relief", "desk"},
}
# What each folder of the window's room may include of the others; the rest of the room may include all.
UI_BELOW = {
    "frame": set(),
    "beside": set(),
    "widgets": {"frame"},
    "worked": {"frame", "widgets", "beside"},
    "pictures": {"frame", "widgets", "beside"},
}
# The window's folders that know no notebook.
UI_GROUND = {"frame", "widgets", "worked"}
# What two plugins share, a library of its own; all others stand alone.
SHARED_BY = {"torque": {"screw_threads"}, "thread": {"screw_threads"}}
STORE_READERS = {"store", "notebook", "photos"}
WINDOW = re.compile(r"^(imgui|backends/imgui|GLFW/|GL/|GLES|KHR/|misc/freetype/imgui)")
QUOTED = re.compile(r'^\s*#\s*include\s*"([^"]+)"')
ANY = re.compile(r'^\s*#\s*include\s*["<]([^">]+)[">]')
# The C and C++ standard headers have no ending, or are C's own.
STANDARD_C = {"assert.h", "ctype.h", "errno.h", "float.h", "limits.h", "math.h", "stdbool.h",
              "stddef.h", "stdint.h", "stdio.h", "stdlib.h", "string.h"}


def room_fault(room, included):
    target = included.split("/")[0]
    if target in BELOW and target != room and target not in BELOW[room]:
        return f"room {room} may not include {target}"
    if target == "store" and room not in STORE_READERS:
        return "only notebook and photos may include the store"
    if included == "sqlite3.h" and room not in STORE_READERS:
        return "only notebook and photos may include SQLite"
    if WINDOW.match(included) and room != "ui":
        return "only ui may include the window libraries"
    return None


def window_fault(folder, included):
    if folder not in UI_BELOW:
        return None
    target = included.split("/")
    if target[0] == "ui" and target[1] != folder and target[1] not in UI_BELOW[folder]:
        return f"{folder} of the window may not include ui/{target[1]}"
    if target[0] not in ("ui", "base", "calc") and target[0] in BELOW and folder in UI_GROUND:
        return f"{folder} of the window knows no {target[0]}"
    return None


def plugin_fault(plugin, included, quoted):
    if quoted:
        own = included.startswith(plugin + "/") or "/" not in included
        own = own or included.split("/")[0] in SHARED_BY.get(plugin, set())
        return None if own or included.endswith("fettle_plugin.h") else "plugins stand alone"
    standard = re.fullmatch(r"[a-z0-9_]+", included) or included in STANDARD_C
    return None if standard else "plugins include the contract, their own headers and std only"


def main():
    top = root()
    faults = []
    seen = 0
    for name in tracked(top, (".cpp", ".h", ".c", ".cpp.in")):
        place = name.split("/")
        if len(place) < 3 or place[0] not in ("app", "plugins"):
            continue
        for number, line in enumerate(read(top, name).splitlines(), 1):
            found = ANY.match(line)
            if not found:
                continue
            seen += 1
            quoted = QUOTED.match(line) is not None
            if place[0] == "plugins":
                fault = plugin_fault(place[1], found[1], quoted)
            elif place[1] in BELOW:
                fault = room_fault(place[1], found[1])
                if not fault and place[1] == "ui":
                    fault = window_fault(place[2], found[1])
            else:
                fault = f"unknown room {place[1]}: add it to tests/tree/layering.py"
            if fault:
                faults.append(f"{name}:{number}: {line.strip()}: {fault}")
    print(f"{seen} includes looked at")
    if seen == 0:
        faults.append("no include found: the check looked at nothing")
    verdict(faults)


main()

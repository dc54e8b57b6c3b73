"""Fails on what stands at the top of the tree and has no business there, as a folder drawn into by mistake."""
from tracked import root, tracked, verdict

FOLDERS = {".ci", "app", "assets", "plugins", "tests", "third_party"}
FILES = {".clang-format", ".clang-tidy", ".gitignore", "CMakeLists.txt", "CMakePresets.json",
         "DEVELOPERS.md", "LICENSE", "README.md"}


def main():
    names = tracked(root())
    found = {name.split("/")[0] + ("/" if "/" in name else "") for name in names}
    known = FILES | {folder + "/" for folder in FOLDERS}
    print(f"{len(found)} at the top looked at")
    if not names:
        verdict(["no file found: the check looked at nothing"])
    verdict([f"{name}: not known at the top of the tree: move it, or add it to tests/tree/top.py"
             for name in sorted(found - known)])


main()

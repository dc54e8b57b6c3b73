"""The tracked files of a tree, for the checks beside this file."""
import os
import subprocess
import sys


def root():
    """The tree to check: first argument, else the one this file lies in."""
    here = os.path.dirname(os.path.abspath(__file__))
    return sys.argv[1] if len(sys.argv) > 1 else os.path.dirname(os.path.dirname(here))


def tracked(top, endings=()):
    """Paths relative to `top`: what git tracks, or every file where `top` is no git tree."""
    try:
        listed = subprocess.run(["git", "-C", top, "ls-files", "-z"], capture_output=True, check=True)
        names = [os.fsdecode(name) for name in listed.stdout.split(b"\0") if name]
        names = [name for name in names if os.path.isfile(os.path.join(top, name))]
    except (subprocess.CalledProcessError, FileNotFoundError):
        names = [os.path.relpath(os.path.join(folder, file), top)
                 for folder, _, files in os.walk(top) for file in files]
        names = [name for name in names if not name.startswith((".git/", "build/"))]
    return sorted(name for name in names if not endings or name.endswith(tuple(endings)))


def read(top, name):
    with open(os.path.join(top, name), encoding="utf-8", errors="replace") as file:
        return file.read()


def verdict(faults):
    """Prints the faults and ends the program: 0 without any, else 1."""
    for fault in faults:
        print(fault)
    sys.exit(1 if faults else 0)

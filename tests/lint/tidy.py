"""clang-tidy over the tree's C++ by the checks of /.clang-tidy; fails when it finds anything.

usage: tidy.py BUILD [--each] [--checks=...] FOLDER...
  BUILD   a build folder with compile_commands.json, which says where headers are found
  --each  every file by itself, as a compiler sees it; without, files are read many together, which is
          three times as fast: what a file costs are the headers that all of them include

Files whose own names would clash are not put together; where they clash all the same, the files are
read again in two halves.
"""
import concurrent.futures
import functools
import json
import os
import re
import shlex
import shutil
import subprocess
import sys

TOP = os.path.dirname(os.path.dirname(os.path.dirname(os.path.abspath(__file__))))
sys.path.insert(0, os.path.join(TOP, "tests/tree"))
from tracked import tracked  # noqa: E402

TIDY = "clang-tidy-22"
TOGETHER = 30
INCLUDED_FROM = [os.path.join(TOP, folder) for folder in ("app", "plugins", "plugins/sdk", "tests")]
# What a line at the outermost level declares: the name before its parameters, value or body.
DECLARED = re.compile(r"(\w+)(?=\(| ?=|\[|;| ?\{| : )")

CONSTANT = re.compile(r"\b(k[A-Z]\w*)(?= =|\[)")

USED = re.compile(r"using [\w:]+;")


def flags_of(build):
    """Where all of the build's files together look for headers, and what is defined for them."""
    found = {}
    with open(os.path.join(build, "compile_commands.json"), encoding="utf-8") as commands:
        for entry in json.load(commands):
            words = iter(shlex.split(entry["command"]))
            for word in words:
                if word == "-isystem":
                    found[(word, next(words))] = None
                elif re.match(r"-I|-D(?!FETTLE_SANITIZED|fettle_plugin)", word):
                    found[(word,)] = None
    return [word for flag in found for word in flag]


@functools.cache
def declared(path):
    """Names that a file declares for itself alone, in anonymous namespaces or outside of any, and others."""
    own, others, within = set(), set(), []
    with open(path, encoding="utf-8") as lines:
        for line in lines:
            opened = re.match(r"(?:inline )?namespace ?([\w:]*) ?\{$", line)
            if opened:
                within.append(opened.group(1))
            elif re.match(r"\} // namespace", line) and within:
                within.pop()
            elif line.startswith("#define "):
                own.add(line.split()[1])
            elif line[0].isalpha() and not USED.match(line):
                for_itself = not within or "" in within
                names = set(CONSTANT.findall(line)) | set(DECLARED.findall(line)[:1])
                (own if for_itself else others).update("::".join([*filter(None, within), name])
                                                       for name in names)
    return own, others


@functools.cache
def seen(path):
    """Names that a file gets from the tree's headers."""
    names = set()
    with open(path, encoding="utf-8") as file:
        for header in re.findall(r'^#include "([^"]+)"', file.read(), re.MULTILINE):
            for folder in (os.path.dirname(path), *INCLUDED_FROM):
                full = os.path.normpath(os.path.join(folder, header))
                if os.path.isfile(full):
                    names |= declared(full)[1] | seen(full)
                    break
    return names


def grouped(files):
    """Groups of files that do not clash, of about the same length."""
    groups = [(set(), set(), []) for _ in range(-(-len(files) // TOGETHER))]
    for file in sorted(files, key=lambda file: -len(declared(file)[0])):
        own, got = declared(file)[0], seen(file)
        fitting = [group for group in groups if not own & (group[0] | group[1]) and not got & group[0]]
        if not fitting:
            fitting = [(set(), set(), [])]
            groups += fitting
        least = min(fitting, key=lambda group: sum(map(os.path.getsize, group[2])))
        least[0].update(own)
        least[1].update(got)
        least[2].append(file)
    return [files for _, _, files in groups if files]


class Linter:
    def __init__(self, build, options, folders):
        self.work = os.path.join(build, "lint")
        shutil.rmtree(self.work, ignore_errors=True)
        os.makedirs(self.work)
        self.options = [f"--config-file={TOP}/.clang-tidy", "--quiet", *options,
                        f"--header-filter={re.escape(TOP)}/({'|'.join(folders)})/"]
        self.flags = ["-std=c++20", *flags_of(build)]

    def findings(self, files):
        """What clang-tidy says of the files, read as one."""
        if len(files) == 1:
            return self.said(files[0])[1]
        one = os.path.join(self.work, f"{abs(hash(tuple(files)))}.cpp")
        with open(one, "w", encoding="utf-8") as together:
            together.writelines(f'#include "{file}"\n' for file in files)
        clash, said = self.said(one)
        os.remove(one)
        if not clash:
            return said
        print(f"{len(files)} files clash, {clash.group(0)}: {' '.join(map(os.path.basename, files))}")
        half = len(files) // 2
        return self.findings(files[:half]) + self.findings(files[half:])

    def said(self, file):
        run = subprocess.run([TIDY, *self.options, file, "--", *self.flags],
                             capture_output=True, text=True, check=False)
        clash = re.search(r".*\[clang-diagnostic-error\]", run.stdout)
        return clash, run.stdout or (run.stderr if run.returncode else "")


def main():
    options = [word for word in sys.argv[1:] if word.startswith("--")]
    build, *folders = [word for word in sys.argv[1:] if not word.startswith("--")]
    build = os.path.abspath(build)
    files = [os.path.join(TOP, name) for name in tracked(TOP, (".cpp",))
             if name.split("/")[0] in folders]
    groups = [[file] for file in files] if "--each" in options else grouped(files)
    linter = Linter(build, [word for word in options if word != "--each"], folders)
    with concurrent.futures.ThreadPoolExecutor(os.cpu_count()) as pool:
        found = False
        for said in pool.map(linter.findings, groups):
            found = found or bool(said)
            print(said, end="", flush=True)
    print(f"{len(files)} files looked at in {len(groups)} groups")
    return 1 if found or not files else 0


if __name__ == "__main__":
    sys.exit(main())

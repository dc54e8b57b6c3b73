"""The build under test, installed: shared by the tests beside this file.

FETTLEBOOK_BUILD and FETTLEBOOK_SOURCE come from tests/package/CMakeLists.txt."""
import os
import shutil
import subprocess
import tempfile
import unittest

BUILD = os.environ["FETTLEBOOK_BUILD"]
SOURCE = os.environ["FETTLEBOOK_SOURCE"]


def run(*command, code=0, **further):
    """Runs a command; fails unless it exits with `code`. Gives what it printed."""
    done = subprocess.run([str(word) for word in command], capture_output=True, text=True,
                          timeout=120, **further)
    if done.returncode != code:
        raise AssertionError(f"{command} exits {done.returncode}:\n{done.stdout}{done.stderr}")
    return done.stdout + done.stderr


def text_of(*place):
    with open(os.path.join(*place), encoding="utf-8") as file:
        return file.read()


class Installed(unittest.TestCase):
    """self.prefix: installed under an open umask and then moved, so that what stands where it was
    installed to at first is gone; self.home: an empty home folder."""

    @classmethod
    def setUpClass(cls):
        cls.top = tempfile.mkdtemp(prefix="fettlebook-installed-")
        cls.addClassCleanup(shutil.rmtree, cls.top)
        cls.prefix = os.path.join(cls.top, "moved elsewhere")
        cls.home = os.path.join(cls.top, "home")
        os.mkdir(cls.home)
        first = os.path.join(cls.top, "prefix")
        before = os.umask(0o002)
        try:
            run("cmake", "--install", BUILD, "--prefix", first)
        finally:
            os.umask(before)
        os.rename(first, cls.prefix)
        cls.environment = {"PATH": "/usr/bin:/bin", "LANG": "C.UTF-8", "HOME": cls.home,
                           "ASAN_OPTIONS": "detect_leaks=0"}

    def at(self, *place):
        return os.path.join(self.prefix, *place)

    def fettlebook(self, *arguments, code=0, cwd=None):
        return run(self.at("bin/fettlebook"), *arguments, code=code, cwd=cwd or self.home,
                   env=self.environment)

"""The Debian package of a release build: sound for lintian, complete, and made for installing."""
import glob
import os
import re
import shutil
import subprocess
import tempfile
import unittest

from built import BUILD, SOURCE, run, text_of


class Package(unittest.TestCase):
    @classmethod
    def setUpClass(cls):
        cls.top = tempfile.mkdtemp(prefix="fettlebook-deb-")
        cls.addClassCleanup(shutil.rmtree, cls.top)
        environment = {**os.environ, "LC_ALL": "C.UTF-8"}
        before = os.umask(0o022)
        try:
            run("cpack", "--config", os.path.join(BUILD, "CPackConfig.cmake"), "-G", "DEB", "-B", cls.top,
                env=environment)
        finally:
            os.umask(before)
        cls.deb, = glob.glob(os.path.join(cls.top, "*.deb"))

    def field(self, name):
        return run("dpkg-deb", "-f", self.deb, name).strip()

    def test_lintian_finds_neither_errors_nor_warnings(self):
        root = ["--allow-root"] if os.geteuid() == 0 else []
        said = subprocess.run(["lintian", *root, "--fail-on", "error,warning", self.deb],
                              capture_output=True, text=True)
        self.assertEqual(said.returncode, 0, said.stdout + said.stderr)

    def test_it_depends_on_the_libraries_it_is_linked_with_and_the_fonts_it_reads(self):
        depends = self.field("Depends")
        recommends = self.field("Recommends")
        fonts = re.findall(r"\b(fonts-[a-z-]+[a-z])(, if it is there)?",
                           text_of(SOURCE, "app/ui/frame/fonts.cpp"))
        self.assertTrue(fonts)
        for package, at_will in fonts:
            self.assertIn(package, recommends if at_will else depends)
        for package in ("libc6", "libsqlite3-0", "libglfw3", "libexiv2-27", "libheif1", "libcairo2",
                        "libmd4c0"):
            self.assertRegex(depends, rf"(^|, ){package} ")

    def test_what_it_holds_belongs_to_root_and_stands_where_it_is_looked_for(self):
        listing = [line.split(None, 5) for line in run("dpkg-deb", "-c", self.deb).splitlines()]
        held = {name: (mode, owner) for mode, owner, _, _, _, name in listing}
        self.assertEqual({owner for _, owner in held.values()}, {"root/root"})
        for name in ("usr/bin/fettlebook", "usr/lib/fettlebook/fettlebook-decode",
                     "usr/lib/fettlebook/fettlebook-calc"):
            self.assertEqual(held["./" + name][0], "-rwxr-xr-x")
        self.assertEqual(held["./usr/lib/fettlebook/plugins/"][0], "drwxr-xr-x")
        for name in ("usr/lib/fettlebook/plugins/spring.so", "usr/share/fettlebook/demo/scenario.json",
                     "usr/share/applications/fettlebook.desktop", "usr/share/mime/packages/fettlebook.xml",
                     "usr/share/icons/hicolor/scalable/apps/fettlebook.svg",
                     "usr/share/man/man1/fettlebook.1.gz", "usr/share/doc/fettlebook/copyright",
                     "usr/share/doc/fettlebook/changelog.Debian.gz",
                     "usr/share/bash-completion/completions/fettlebook",
                     "usr/share/zsh/vendor-completions/_fettlebook",
                     "usr/share/fish/vendor_completions.d/fettlebook.fish"):
            self.assertEqual(held["./" + name][0], "-rw-r--r--", name)

    def test_no_file_of_it_names_the_folder_it_was_built_in(self):
        whole = os.path.join(self.top, "unpacked")
        run("dpkg-deb", "-x", self.deb, whole)
        files = [os.path.join(folder, name) for folder, _, names in os.walk(whole) for name in names]
        self.assertGreater(len(files), 50)
        for file in files:
            with open(file, "rb") as content:
                text = content.read()
            for folder in (SOURCE, BUILD):
                self.assertNotIn(os.fsencode(folder), text, file)

    def test_the_licences_of_what_became_part_of_the_programs_are_in_it(self):
        whole = os.path.join(self.top, "licences")
        run("dpkg-deb", "-x", self.deb, whole)
        told = os.listdir(os.path.join(whole, "usr/share/doc/fettlebook/licences"))
        listed = text_of(SOURCE, "third_party/packages.txt").split()
        # Packages without a library to link at the start: headers or a static library alone. doctest
        # is for tests only, libgl-dev leads to its libraries by dependencies.
        compiled_in = {name for name in listed if name.endswith("-dev")
                       and not re.search(r"\.so$", run("dpkg", "-L", name), re.M)}
        self.assertLessEqual(compiled_in - {"doctest-dev", "libgl-dev"}, set(told))


unittest.main()

"""An installed program finds all it needs from where it stands, and the desktop finds the program."""
import json
import os
import re
import shutil
import sqlite3
import stat
import struct
import unittest

from built import SOURCE, Installed, run, text_of


class Program(Installed):
    def test_the_demo_is_made_from_what_was_installed(self):
        book = os.path.join(self.home, "drover")
        made = json.loads(self.fettlebook("demo", book, "--json"))
        pictures = os.listdir(os.path.join(SOURCE, "assets/demo/photos"))
        self.assertEqual(made["photos"], len(pictures))
        again = self.at("share/fettlebook/demo/scenario.json")
        os.rename(again, again + ".away")
        refused = self.fettlebook("demo", os.path.join(self.home, "other"), code=1)
        os.rename(again + ".away", again)
        self.assertIn(again, refused)

    def test_sheets_are_worked_by_the_installed_plugins_alone(self):
        # 20 + 8 + 3.5 thou, a thou being 25.4 micrometres by the definition of the inch.
        shims = ("calc", "shim.stack", "target=31.5 thou", "tin=20 8 3.5 thou")
        answer = json.loads(self.fettlebook(*shims, "--json"))
        self.assertAlmostEqual(answer["outputs"]["sum"]["value"], 31.5 * 25.4e-6, 12)
        sheets = json.loads(self.fettlebook("calc", "--list", "--json"))
        plugins = {sheet["sheet"].split(".")[0] for sheet in sheets}
        named = re.findall(r"fettle_plugin\((\w+)", "".join(
            text_of(folder, "CMakeLists.txt")
            for folder, _, files in os.walk(os.path.join(SOURCE, "plugins"))
            if "CMakeLists.txt" in files))
        self.assertEqual(plugins, set(named))
        os.rename(self.at("lib/fettlebook/plugins"), self.at("lib/fettlebook/away"))
        refused = self.fettlebook(*shims, code=1)
        os.rename(self.at("lib/fettlebook/away"), self.at("lib/fettlebook/plugins"))
        self.assertIn("no calculation plugin is installed", refused)

    def test_nobody_else_may_write_to_what_was_installed(self):
        for folder, folders, files in os.walk(self.prefix):
            for name in folders + files:
                mode = os.stat(os.path.join(folder, name)).st_mode
                self.assertEqual(mode & (stat.S_IWGRP | stat.S_IWOTH), 0, name)

    def test_a_notebook_is_opened_by_its_database_file(self):
        book = os.path.join(self.home, "by-file")
        self.fettlebook("start", book, "--vehicle", "Quernmore Drover")
        file = os.path.join(book, "notebook.db")
        self.fettlebook("part", "add", "spring hanger", "--tag", "H7", "--notebook", file)
        self.assertIn("H7", self.fettlebook("part", "list", "--notebook", "notebook.db", cwd=book))
        # Without a display the notebook is found, and only the window is missing.
        for typed, cwd in ((file, self.home), ("notebook.db", book)):
            self.assertIn("display", self.fettlebook(typed, code=1, cwd=cwd))
        # Menus start it in the home folder, where no notebook should be strewn.
        self.assertIn(os.path.join(self.home, "Fettlebook"), self.fettlebook(code=1))
        shutil.copy(file, os.path.join(self.home, "copy.db"))
        self.assertIn("copy.db", self.fettlebook("copy.db", code=2))

    def test_opened_from_a_file_manager_the_window_comes_under_the_name_the_desktop_knows(self):
        book = os.path.join(self.home, "window")
        self.fettlebook("start", book, "--vehicle", "Quernmore Drover")
        entry = text_of(self.at("share/applications/fettlebook.desktop"))
        known = re.search(r"^StartupWMClass=(.*)$", entry, re.M)[1]
        typed = re.search(r"^Exec=(.*)$", entry, re.M)[1]
        self.assertEqual(typed, "fettlebook %f")
        script = ('"$1" "$2" & program=$!; timeout 60 xdotool search --sync --onlyvisible --class '
                  '"^$3$" >/dev/null; found=$?; kill $program; exit $found')
        run("xvfb-run", "-a", "-s", "-screen 0 1280x800x24 -noreset", "bash", "-c", script, "bash",
            self.at("bin/fettlebook"), os.path.join(book, "notebook.db"), known,
            env=self.environment)


class Desktop(Installed):
    def test_the_desktop_entry_and_what_software_centres_read_are_valid(self):
        self.assertEqual(run("desktop-file-validate",
                             self.at("share/applications/fettlebook.desktop")), "")
        run("appstreamcli", "validate", "--no-net",
            self.at("share/metainfo/org.example.fettlebook.metainfo.xml"))
        run("xmllint", "--noout", self.at("share/mime/packages/fettlebook.xml"),
            self.at("share/icons/hicolor/scalable/apps/fettlebook.svg"))

    def test_icons_have_the_size_of_their_folder(self):
        sizes = 0
        for folder in os.listdir(self.at("share/icons/hicolor")):
            if folder == "scalable":
                continue
            with open(self.at("share/icons/hicolor", folder, "apps/fettlebook.png"), "rb") as file:
                width, height = struct.unpack(">II", file.read(24)[16:])
            self.assertEqual(folder, f"{width}x{height}")
            sizes += 1
        self.assertGreaterEqual(sizes, 5)

    def kind_of(self, file):
        data = {"XDG_DATA_DIRS": self.at("share") + ":/usr/share", **self.environment}
        return run("mimetype", "--brief", file, env=data).strip()

    def test_a_notebook_is_told_from_other_databases_by_what_stands_in_it(self):
        run("update-mime-database", self.at("share/mime"))
        book = os.path.join(self.home, "kinds")
        self.fettlebook("start", book, "--vehicle", "Quernmore Drover")
        os.rename(os.path.join(book, "notebook.db"), os.path.join(book, "renamed"))
        self.assertEqual(self.kind_of(os.path.join(book, "renamed")),
                         "application/x-fettlebook-notebook")
        foreign = sqlite3.connect(os.path.join(book, "notebook.db"))
        foreign.execute("CREATE TABLE a (b)")
        foreign.close()
        self.assertEqual(self.kind_of(os.path.join(book, "notebook.db")),
                         "application/vnd.sqlite3")
        entry = text_of(self.at("share/applications/fettlebook.desktop"))
        self.assertIn("MimeType=application/x-fettlebook-notebook;", entry)


unittest.main()

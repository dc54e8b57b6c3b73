"""Each check of the tree must find the fault it is there for, and leave a sound tree alone."""
import os
import subprocess
import sys
import tempfile
import unittest

HERE = os.path.dirname(os.path.abspath(__file__))


def run(check, files):
    """Exit code and output of a check over a tree with these files."""
    with tempfile.TemporaryDirectory() as top:
        for name, text in files.items():
            path = os.path.join(top, name)
            os.makedirs(os.path.dirname(path), exist_ok=True)
            with open(path, "w", encoding="utf-8") as file:
                file.write(text)
        done = subprocess.run([sys.executable, os.path.join(HERE, check), top],
                              capture_output=True, text=True)
        return done.returncode, done.stdout + done.stderr


def function_of(lines):
    return "int f() {\n" + "    ;\n" * (lines - 2) + "}\n"


class Numbered(unittest.TestCase):
    def tree(self, insert):
        tables = "".join(f'RecordedTable{{.name = "t{n}"}},\n' for n in range(20))
        made = "".join(f"CREATE TABLE t{n} (\n    id INTEGER PRIMARY KEY);\n" for n in range(20))
        return {"app/notebook/recorded_tables.cpp": tables,
                "app/notebook/schema/0001_ground.sql": made, "app/notebook/a.cpp": insert}

    def test_a_row_that_sqlite_numbers_is_found(self):
        code, output = run("numbered.py", self.tree('run("INSERT INTO t3(name) VALUES (?)");\n'))
        self.assertEqual(code, 1, output)
        self.assertIn("app/notebook/a.cpp:1", output)

    def test_a_row_of_this_side_is_left_alone(self):
        insert = 'run("INSERT INTO t3(id, name) VALUES (next_id(\'t3\'), ?)");\n'
        code, output = run("numbered.py", self.tree(insert))
        self.assertEqual(code, 0, output)


class Top(unittest.TestCase):
    def test_strays_at_the_top_are_found(self):
        for name in ["--help/a.jpg", "notes.txt"]:
            code, output = run("top.py", {"app/a.cpp": "", "README.md": "", name: ""})
            self.assertEqual(code, 1, output)
            self.assertIn(name.split("/")[0], output)
        self.assertEqual(run("top.py", {"app/a.cpp": "", "README.md": ""})[0], 0)
        self.assertEqual(run("top.py", {})[0], 1)


class Sql(unittest.TestCase):
    def test_text_in_a_statement_is_found(self):
        for statement in ['query("SELECT 1 FROM parts WHERE tag = \'" + tag + "\'")',
                          'run("DELETE FROM " + table, 1)', 'run(sql_head + "FROM parts")',
                          'Statement one(connection, "SELECT 1 FROM " + set.table)',
                          'query(std::format("SELECT {}", tag))']:
            code, output = run("sql.py", {"app/notebook/a.cpp": f"void f() {{ db.{statement}; }}\n"})
            self.assertEqual(code, 1, statement)
            self.assertIn("app/notebook/a.cpp:1", output)

    def test_constants_numbers_and_quoted_names_are_left_alone(self):
        for statement in ['query("SELECT 1 FROM parts " "WHERE tag = ?", "a" + tag)',
                          'run("DELETE FROM " + store::in_quotes(table))',
                          'query(std::string(kColumns) + "WHERE id = ?", id)',
                          'run("PRAGMA user_version = " + std::to_string(version))']:
            code, output = run("sql.py", {"app/notebook/a.cpp": f"void f() {{ db.{statement}; }}\n"})
            self.assertEqual(code, 0, output)


class Layering(unittest.TestCase):
    def fault(self, name, included):
        return run("layering.py", {name: f"#include {included}\n"})

    def test_upward_and_foreign_includes_are_found(self):
        for name, included in [
                ("app/base/a.cpp", '"store/database.h"'),
                ("app/notebook/a.h", '"photos/index.h"'),
                ("app/notebook/a.h", '"calc/host.h"'),
                ("app/photos/a.cpp", '"notebook/parts.h"'),
                ("app/calc/a.cpp", '"notebook/parts.h"'),
                ("app/relief/a.cpp", '"photos/grey.h"'),
                ("app/desk/a.cpp", '"store/database.h"'),
                ("app/desk/a.cpp", '"ui/window.h"'),
                ("app/cli/a.cpp", '"ui/window.h"'),
                ("app/ui/a.cpp", '"cli/verbs.h"'),
                ("app/ui/a.cpp", "<sqlite3.h>"),
                ("app/ui/frame/a.cpp", '"ui/widgets/a.h"'),
                ("app/ui/widgets/a.cpp", '"ui/shell.h"'),
                ("app/ui/widgets/a.cpp", '"notebook/parts.h"'),
                ("app/ui/pictures/a.cpp", '"ui/screens/photos/a.h"'),
                ("app/desk/a.cpp", "<imgui.h>"),
                ("app/photos/a.cpp", "<GL/gl.h>"),
                ("app/base/a.cpp", "<GLFW/glfw3.h>"),
                ("app/attic/a.cpp", "<vector>"),
                ("plugins/shim/a.cpp", '"base/quantity.h"'),
                ("plugins/shim/a.cpp", '"torque/threads.h"'),
                ("plugins/thread/a.cpp", '"torque/seats.h"'),
                ("plugins/shim/a.cpp", '"screw_threads/threads.h"'),
                ("plugins/shim/a.cpp", "<udunits2.h>")]:
            with self.subTest(name=name, included=included):
                code, output = self.fault(name, included)
                self.assertEqual(code, 1, output)
                self.assertIn(name, output)

    def test_downward_includes_are_left_alone(self):
        for name, included in [
                ("app/base/a.cpp", '"base/result.h"'),
                ("app/store/a.cpp", "<sqlite3.h>"),
                ("app/photos/a.cpp", '"store/database.h"'),
                ("app/notebook/a.cpp", '"store/database.h"'),
                ("app/notebook/a.cpp", '"notebook/photos.h"'),
                ("app/calc/a.cpp", '"sdk/fettle_plugin.h"'),
                ("app/desk/a.cpp", '"photos/index.h"'),
                ("app/desk/a.cpp", '"relief/look.h"'),
                ("app/ui/a.cpp", "<imgui.h>"),
                ("app/ui/a.cpp", '"desk/take_in.h"'),
                ("app/ui/widgets/a.cpp", '"ui/frame/a.h"'),
                ("app/ui/pictures/a.cpp", '"notebook/photos.h"'),
                ("app/ui/screens/parts/a.cpp", '"ui/shell.h"'),
                ("plugins/shim/a.cpp", '"sdk/fettle_plugin.h"'),
                ("plugins/shim/a.cpp", '"shim/stack.h"'),
                ("plugins/thread/a.cpp", '"screw_threads/threads.h"'),
                ("plugins/shim/a.cpp", "<vector>"),
                ("plugins/shim/a.cpp", "<stdint.h>")]:
            with self.subTest(name=name, included=included):
                code, output = self.fault(name, included)
                self.assertEqual(code, 0, output)

    def test_an_empty_tree_is_no_success(self):
        self.assertEqual(run("layering.py", {"readme.md": "x\n"})[0], 1)


class Sizes(unittest.TestCase):
    def test_long_functions_are_found_wherever_they_stand(self):
        long = function_of(81)
        for text in [long, "namespace a::b {\n" + long + "}\n",
                     "namespace {\nstruct S final : T {\n" + long + "};\n}\n",
                     'const char* brace = "}";\n// }\nchar c = \'{\';\nint n = 1\'000;\n' + long,
                     "template <class T>\n" + long,
                     'extern "C" {\n' + long + "}\n",
                     "auto f() -> std::string {\n" + "    ;\n" * 80 + "}\n",
                     "A::A(int a)\n    : a_{a}, b_{} {\n" + "    ;\n" * 80 + "}\n"]:
            with self.subTest(text=text[:60]):
                code, output = run("sizes.py", {"app/base/a.cpp": text})
                self.assertEqual(code, 1, output)
                self.assertIn("function of", output)

    def test_short_functions_and_long_tables_are_left_alone(self):
        table = "constexpr int kTable[] = {\n" + "    1,\n" * 200 + "};\n"
        code, output = run("sizes.py", {"app/base/a.cpp": function_of(80) + table})
        self.assertEqual(code, 0, output)
        self.assertIn("max 80 lines", output)

    def test_long_files_are_found(self):
        text = function_of(3) + "// line\n" * 598
        code, output = run("sizes.py", {"app/base/a.cpp": text})
        self.assertEqual(code, 1, output)
        self.assertIn("601 lines", output)


class Format(unittest.TestCase):
    def test_untidy_source_is_found_and_tidy_source_left_alone(self):
        style = {".clang-format": "BasedOnStyle: LLVM\n"}
        code, output = run("formatted.py", {"app/a.cpp": "int  f( ){return 1;}\n", **style})
        self.assertEqual(code, 1, output)
        self.assertIn("app/a.cpp", output)
        code, output = run("formatted.py", {"app/a.cpp": "int f() { return 1; }\n", **style})
        self.assertEqual(code, 0, output)


class Words(unittest.TestCase):
    def test_machine_paths_are_found(self):
        for folder in ("root", "work"):
            code, output = run("words.py", {"a/notes.md": f"see /{folder}/tree\n"})
            self.assertEqual(code, 1, output)
            self.assertIn("a/notes.md:1", output)
        self.assertEqual(run("words.py", {"a/notes.md": "see a/notes.md\n"})[0], 0)


unittest.main()

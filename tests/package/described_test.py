"""The manual page and the completions say what the program says itself, and are sound for those who
read them: man, mandoc, bash, zsh, fish."""
import fcntl
import os
import pty
import re
import select
import struct
import subprocess
import termios
import time
import unittest

from built import Installed, run, text_of


class Described(Installed):
    helps = {}  # by the verb: asked for once, sanitizers make each start slow

    def help_of(self, path):
        if path not in self.helps:
            self.helps[path] = self.fettlebook(*path, "--help")
        return self.helps[path]

    def verbs_below(self, *path):
        """Names of the verbs below one, out of its help; independent of the grammar's own walk."""
        text = self.help_of(path)
        block = re.search(r"^Verbs:\n((?:  .*\n|\n)+)", text, re.M)
        return re.findall(r"^  ([a-z][a-z-]*)", block[1], re.M) if block else []

    def leaves(self):
        """Every verb that does something, as the words that are typed."""
        for verb in self.verbs_below():
            below = self.verbs_below(verb)
            yield from ([verb, name] for name in below) if below else [[verb]]

    def options_of(self, path):
        text = self.help_of(tuple(path))
        return set(re.findall(r"^  (?:-\w,)?(--[a-z0-9-]+)", text, re.M)) - {"--help"}


class ManPage(Described):
    def test_it_is_free_of_faults_for_groff_mandoc_and_the_index_of_man(self):
        page = self.at("share/man/man1/fettlebook.1")
        read = subprocess.run(["man", "--warnings", "-Tutf8", "-Z", "-l", page], capture_output=True,
                              text=True, check=True, env=self.environment)
        self.assertEqual(read.stderr, "")
        drawn = subprocess.run(["groff", "-k", "-ww", "-man", "-T", "utf8", page],
                               capture_output=True, text=True, check=True)
        self.assertEqual(drawn.stderr, "")
        self.assertEqual(run("mandoc", "-T", "lint", "-W", "warning", page), "")
        self.assertIn("fettlebook - notebook for one person", run("lexgrog", page))

    def test_every_verb_and_each_of_its_options_stands_in_it(self):
        page = subprocess.run(["groff", "-k", "-man", "-rLL=200n", "-T", "ascii", "-P-c", "-P-b", "-P-u",
                               self.at("share/man/man1/fettlebook.1")],
                              capture_output=True, text=True, check=True).stdout
        sections = re.split(r"^ {2,4}(\S.*)$", page, flags=re.M)
        said = dict(zip(sections[1::2], sections[2::2]))
        leaves = list(self.leaves())
        self.assertGreater(len(leaves), 40)
        for path in leaves:
            with self.subTest(verb=path):
                section = said[" ".join(path)]
                self.assertIn("fettlebook " + " ".join(path), section)
                listed = set(re.findall(r"^ +(--[a-z0-9-]+)", section, re.M))
                self.assertEqual(listed, self.options_of(path))


class Completions(Described):
    def bash(self, *words):
        """What bash is offered for the last of these words."""
        script = ('compopt() { :; }; source "$1"; shift; COMP_WORDS=("$@"); COMP_CWORD=$(($# - 1)); '
                  '_fettlebook; printf "%s\\n" "${COMPREPLY[@]}"')
        file = self.at("share/bash-completion/completions/fettlebook")
        return set(run("bash", "-c", script, "bash", file, "fettlebook", *words,
                       cwd=self.home, env=self.environment).split("\n")) - {""}

    def fish(self, line):
        script = 'source $argv[1]; complete -C $argv[2]'
        file = self.at("share/fish/vendor_completions.d/fettlebook.fish")
        offered = run("fish", "--no-config", "-c", script, file, line, cwd=self.home, env=self.environment)
        return {each.split("\t")[0] for each in offered.splitlines()}

    def typed(self, shell, start, line):
        """What stands on the command line of an interactive shell after `line` and Tab."""
        process, terminal = pty.fork()
        if process == 0:
            os.chdir(self.home)
            os.execve(f"/usr/bin/{shell[0]}", shell,
                      {**self.environment, "TERM": "vt100", "INPUTRC": "/dev/null"})
        fcntl.ioctl(terminal, termios.TIOCSWINSZ, struct.pack("HHHH", 24, 200, 0, 0))
        seen = b""
        try:
            for what, awaited in ((start + "; echo begun-$((40 + 2))\r", rb"begun-42\r"),
                                  (line + "\t", None), ("\x01echo FOUND: \x05\r", rb"[\r\n]FOUND: [^\r]*\r")):
                os.write(terminal, what.encode())
                end = time.monotonic() + 30
                while time.monotonic() < end and not (awaited and re.search(awaited, seen)):
                    if select.select([terminal], [], [], 0.4)[0]:
                        seen += os.read(terminal, 65536)
                    elif not awaited:
                        break # what Tab does is done, or comes before what is typed next
        finally:
            os.kill(process, 9)
            os.waitpid(process, 0)
            os.close(terminal)
        found = re.search(rb"[\r\n]FOUND: ([^\r]*?)\s*\r", seen)
        self.assertTrue(found, seen)
        return found[1].decode()

    def test_bash_offers_verbs_options_choices_and_files(self):
        beginning_with_ta = {verb for verb in self.verbs_below() if verb.startswith("ta")}
        self.assertGreaterEqual(len(beginning_with_ta), 3)
        self.assertEqual(self.bash("ta"), beginning_with_ta)
        self.assertEqual(self.bash("part", ""), set(self.verbs_below("part")))
        self.assertEqual(self.bash("--notebook", "task", "task", "d"), {"done"})
        self.assertEqual(self.bash("tie", "1", "--stage", "a"), {"as-found", "after"})
        self.assertEqual(self.bash("tie", "1", "--stage", "=", "pr"), {"proof"})
        self.assertEqual(self.bash("people", "Ansel", "--credits", ""), {"yes", "no"})
        self.assertEqual(self.bash("log", "--hours", ""), set())
        os.makedirs(os.path.join(self.home, "phone photos"), exist_ok=True)
        open(os.path.join(self.home, "phone.jpg"), "w", encoding="utf-8").close()
        self.assertEqual(self.bash("take-in", "pho"), {"phone photos", "phone.jpg"})
        self.assertEqual(self.bash("calc", "--charts", "pho"), {"phone photos"})

    def test_all_verbs_and_options_are_offered_by_bash_and_fish(self):
        for path in self.leaves():
            with self.subTest(verb=path):
                expected = self.options_of(path) | {"--help", "--json", "--notebook"}
                self.assertEqual(self.bash(*path, "--"), expected)
        # One start of fish for all of them: it takes longer than the question.
        paths = [" ".join(path) for path in self.leaves()]
        script = ('source $argv[1]; for path in $argv[2..]; echo "@$path"; '
                  'complete -C "fettlebook $path --"; end')
        file = self.at("share/fish/vendor_completions.d/fettlebook.fish")
        said = run("fish", "--no-config", "-c", script, file, *paths, cwd=self.home, env=self.environment)
        offered = {}
        for line in said.splitlines():
            if line.startswith("@"):
                offered[line[1:]] = options = set()
            else:
                options.add(line.split("\t")[0])
        for path in paths:
            with self.subTest(fish=path):
                expected = self.options_of(path.split()) | {"--help", "--json", "--notebook"}
                self.assertEqual(offered[path], expected)

    def test_every_choice_offered_is_one_the_help_of_its_option_names(self):
        text = text_of(self.at("share/bash-completion/completions/fettlebook"))
        choices = re.findall(r"'([a-z -]+) (--[a-z0-9-]+)'\) takes='([^@'][^']*)'", text)
        self.assertGreater(len(choices), 15)
        for path, option, words in choices:
            help_text = " ".join(self.help_of(tuple(path.split())).split())
            about = help_text[help_text.index(" " + option + " "):]
            about = about[:about.find(" --", 3)] if " --" in about[3:] else about
            for word in words.split():
                with self.subTest(verb=path, option=option, word=word):
                    self.assertIn(word.replace("-", " "), about.replace("-", " "))

    def test_fish_offers_verbs_choices_and_files(self):
        self.assertTrue({verb for verb in self.verbs_below() if verb.startswith("ta")}
                        <= self.fish("fettlebook ta"))
        self.assertEqual(self.fish("fettlebook task d"), {"done"})
        self.assertEqual(self.fish("fettlebook tie 1 --stage pr"), {"proof"})
        self.assertEqual(self.fish("fettlebook --notebook task task d"), {"done"})
        open(os.path.join(self.home, "list.csv"), "w", encoding="utf-8").close()
        self.assertIn("list.csv", self.fish("fettlebook positions li"))
        self.assertEqual(self.fish("fettlebook undo li"), set())

    def test_tab_completes_verbs_choices_and_files_in_bash_and_zsh(self):
        folder = self.at("share/zsh/site-functions")
        run("zsh", "-n", os.path.join(folder, "_fettlebook"))
        bash = ["bash", "--norc", "-i"], f"source '{self.at('share/bash-completion/completions/fettlebook')}'"
        zsh = ["zsh", "-f", "-i"], f"fpath=('{folder}' $fpath); autoload -U compinit; compinit -u -D"
        open(os.path.join(self.home, "parts-list.csv"), "w", encoding="utf-8").close()
        for shell, start in (bash, zsh):
            for line, expected in (("fettlebook task d", "fettlebook task done"),
                                   ("fettlebook tie 1 --stage pr", "fettlebook tie 1 --stage proof"),
                                   ("fettlebook positions par",
                                    "fettlebook positions parts-list.csv")):
                with self.subTest(shell=shell[0], line=line):
                    self.assertEqual(self.typed(shell, start, line), expected)


unittest.main()

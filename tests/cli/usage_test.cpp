// What is no command is answered with exit code 2 and one sentence; help is there for every verb.
#include "run.h"

using namespace cli_tests;

TEST_CASE("what is no command gives exit code 2 and one sentence that says where help is") {
    TempFolder folder;
    const std::vector<std::vector<std::string>> wrong = {
        {"--colour"},
        {"polish"},
        {"start", "book"},
        {"take-in"},
        {"photos", "--colour"},
        {"part"},
        {"part", "polish"},
        {"part", "list", "axle", "--missing"},
        {"tie", "1"},
        {"tie", "1", "--part", "A1", "--task", "2"},
        {"log"},
        {"log", "Cleaned.", "--list"},
        {"mark", "1"},
        {"calc"},
        {"calc", "shim.stack", "--units", "furlongs"},
        {"find"},
        {"undo", "twice"},
        {"undo", "redo"},
    };
    for (const auto& arguments : wrong) {
        const Ran ran = run(folder.path(), arguments);
        CAPTURE(arguments.front());
        CAPTURE(arguments.back());
        CAPTURE(ran.err);
        CHECK(ran.code == 2);
        CHECK(ran.out.empty());
        CHECK(ran.one_sentence());
        CHECK(holds(ran.err, "--help`"));
    }
}

TEST_CASE(
    "a size of pictures or letters that cannot be is refused by name, value and what is accepted") {
    TempFolder folder;
    const auto refused = [&](std::vector<std::string> wish) {
        wish.insert(wish.begin(),
                    {folder.path().string(), "--pictures", (folder / "out").string()});
        const Ran ran = run(folder.path(), wish);
        CHECK(ran.code == 2);
        CHECK(ran.one_sentence());
        return ran.err;
    };
    for (const char* size : {"8x6", "1280", "1280x800x24", "wide", "1280x99999"}) {
        CAPTURE(size);
        CHECK(holds(refused({"--size", size}), "--size \"" + std::string(size) + "\""));
        CHECK(holds(refused({"--size", size}), "640x480 to 7680x4320"));
    }
    for (const char* percent : {"20", "251", "large"}) {
        CHECK(holds(refused({"--letters", percent}), "--letters \"" + std::string(percent) + "\""));
        CHECK(holds(refused({"--letters", percent}), "80 to 250"));
    }
    CHECK_FALSE(fs::exists(folder / "out"));
}

TEST_CASE("every verb has one line in the help and a help of its own") {
    TempFolder folder;
    const Ran help = run(folder.path(), {"--help"});
    CHECK(help.code == 0);
    for (const char* verb :
         {"start", "take-in", "photos", "tie", "part", "task", "log", "mark", "torch", "measure",
          "limits", "calc", "find", "undo", "redo", "demo"}) {
        CAPTURE(verb);
        CHECK(holds(help.out, "\n  " + std::string(verb) + " "));
        const Ran own = run(folder.path(), {verb, "--help"});
        CHECK(own.code == 0);
        CHECK(holds(own.out, "Usage: fettlebook " + std::string(verb)));
    }
    for (const char* group : {"part", "task"})
        for (const char* verb : {"add", "show", "list"})
            CHECK(holds(run(folder.path(), {group, verb, "--help"}).out, "JSON: "));
}

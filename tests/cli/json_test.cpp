// The fields of every verb's JSON, and that the verb's help names each of them.
#include "run.h"

#include <set>

using namespace cli_tests;

namespace {

std::set<std::string> fields(const json& record) {
    std::set<std::string> names;
    for (const auto& [name, value] : record.items())
        names.insert(name);
    return names;
}

} // namespace

TEST_CASE("a part says in JSON what was typed") {
    Bench bench;
    add_position(bench.book, "12-4", "spring hanger");
    const json added = bench.answer(
        {"part",          "add",      "spring hanger",   "--tag",       "H7",       "--position",
         "12-4",          "--origin", "new old stock",   "--condition", "as-found", "--decision",
         "repair",        "--maker",  "Orrinvale Forge", "--place",     "shelf 2",  "--from",
         "an autojumble", "--cost",   "12.50 GBP",       "--quantity",  "2",        "--on",
         "7 Mar 2026",    "--note",   "cracked"});
    const json expected = {{"tag", "H7"},
                           {"name", "spring hanger"},
                           {"vehicle", "Quernmore Drover"},
                           {"position", "12-4"},
                           {"origin", "new old stock"},
                           {"condition", "as found"},
                           {"decision", "repair"},
                           {"maker", "Orrinvale Forge"},
                           {"place", "shelf 2"},
                           {"from", "an autojumble"},
                           {"cost", "12.50 GBP"},
                           {"quantity", 2},
                           {"used", 0},
                           {"within", ""},
                           {"split", nullptr},
                           {"acquired", "2026-03-07"},
                           {"note", "cracked"}};
    CHECK(added == expected);
    CHECK(bench.answer({"part", "list"}) == json::array({expected}));
    CHECK(bench.answer({"part", "list", "--missing"}) == json::array());

    const json changed = bench.answer(
        {"part", "set", "h7", "condition=cleaned", "quantity=1", "note=", "place=shelf=3"});
    CHECK(changed.at("condition") == "cleaned");
    CHECK(changed.at("note") == "");
    CHECK(changed.at("place") == "shelf=3");
    const json missing = bench.answer({"part", "list", "--missing"});
    REQUIRE(missing.size() == 1);
    CHECK(missing[0] == json{{"vehicle", "Quernmore Drover"},
                             {"group", "Front suspension"},
                             {"position", "12-4"},
                             {"name", "spring hanger"},
                             {"spec", ""},
                             {"quantity", 2},
                             {"on_hand", 1},
                             {"in_place", 0},
                             {"out", 0},
                             {"on_its_way", 0},
                             {"missing", 1},
                             {"to_get", 1},
                             {"away", json::array()},
                             {"might_fit", json::array()}});
    // One act: one step back gives all fields back.
    CHECK(bench({"undo"}).code == 0);
    CHECK(bench.answer({"part", "list"}) == json::array({expected}));
}

TEST_CASE("a task says in JSON what it waits for") {
    Bench bench;
    add_position(bench.book, "12-4", "spring hanger");
    CHECK(bench({"task", "add", "strip the axle"}).code == 0);
    const json added = bench.answer({"task", "add", "fit the spring", "--needs", "1", "--position",
                                     "12-4=primed", "--hours", "90 min", "--least-temperature",
                                     "15 °C", "--waits-for", "the bushes", "--note", "two hands"});
    const auto wait = [](const char* on, const char* words, json task, const char* position) {
        return json{{"on", on},   {"words", words},        {"task", task}, {"position", position},
                    {"part", ""}, {"consignment", nullptr}};
    };
    CHECK(added == json{{"task", 2},
                        {"title", "fit the spring"},
                        {"state", "open"},
                        {"ready", false},
                        {"waits",
                         {"task 1, strip the axle",
                          "spring hanger, primed: 0 of 2, no part for it yet", "the bushes"}},
                        {"waits_on",
                         {wait("task", "task 1, strip the axle", 1, ""),
                          wait("position", "spring hanger, primed: 0 of 2, no part for it yet",
                               nullptr, "12-4"),
                          wait("words", "the bushes", nullptr, "")}},
                        {"needs", {1}},
                        {"positions", {{{"position", "12-4"}, {"condition", "primed"}}}},
                        {"deliveries", json::array()},
                        {"waits_for", "the bushes"},
                        {"least_temperature_c", 15.0},
                        {"hours", 1.5},
                        {"spent_hours", 0.0},
                        {"left_hours", 1.5},
                        {"unlocks", 0},
                        {"after_tasks", 0},
                        {"after_hours", 0.0},
                        {"earliest_start_hours", 1.0}, // after the hour counted for task 1
                        {"latest_start_hours", 1.0},
                        {"slack_hours", 0.0},
                        {"on_longest_chain", true},
                        {"done_on", nullptr},
                        {"note", "two hands"}});
    CHECK(bench.answer({"task", "done", "1", "--on", "2026-03-08"}).at("done_on") == "2026-03-08");
    const json shown = bench.answer({"task", "show", "2"});
    CHECK(shown.at("entries") == json::array());
    CHECK(shown.at("photos") == json::array());
    CHECK(shown.at("held_up_by").size() == 2);
}

TEST_CASE("photos, ties, marks, entries and finds say in JSON what the next command takes") {
    Bench bench;
    const std::string photo = bench.photo("stamp.png", 5);
    const json number = json::parse(photo);
    CHECK(bench({"part", "add", "axle", "--tag", "A1"}).code == 0);
    CHECK(bench.answer({"tie", photo, "--part", "a1"}) ==
          json{{"photos", {number}}, {"part", "A1"}, {"stage", "during"}});
    CHECK(bench.answer({"mark", photo, "--region", "10,20,30,40", "--reading", "OV", "--maker",
                        "Orrinvale Forge", "--sure", "certain"}) ==
          json{{"mark", 1},
               {"photo", number},
               {"region", {{"x", 10}, {"y", 20}, {"w", 30}, {"h", 40}}},
               {"reading", "OV"},
               {"maker", "Orrinvale Forge"},
               {"sure", "certain"},
               {"part", "A1"},
               {"seen_with", nullptr}});
    const json seen = {{"filters", {{"flatten", 0.5}, {"light_from", 45}}}, {"turn", 90}};
    const json kept = bench.answer(
        {"mark", photo, "--region", "50,20,30,40", "--reading", "QM", "--seen-with", seen.dump()});
    CHECK(kept["seen_with"]["turn"] == 90);
    CHECK(kept["seen_with"]["filters"]["flatten"] == 0.5);
    CHECK(kept["seen_with"]["filters"]["light_from"] == 45);
    CHECK(bench.answer({"mark", "--list", "--part", "A1"}).size() == 2);
    CHECK(bench.answer({"log", "Cleaned it.", "--on", "2026-03-07", "--photo", photo, "--part",
                        "A1"}) == json{{"entry", 1},
                                       {"date", "2026-03-07"},
                                       {"hours", nullptr},
                                       {"text", "Cleaned it."},
                                       {"parts", {"A1"}},
                                       {"tasks", json::array()},
                                       {"photos", {{{"photo", number}, {"stage", "during"}}}},
                                       {"worked_results", json::array()}});
    const json listed = bench.answer({"photos"});
    REQUIRE(listed.size() == 1);
    CHECK(listed[0].at("width") == 320);
    CHECK(listed[0].at("height") == 240);
    CHECK(listed[0].at("format") == "PNG");
    CHECK(listed[0].at("bytes") == fs::file_size(bench.folder / "stamp.png"));
    CHECK(file_text(listed[0].at("file").get<std::string>()) ==
          file_text(bench.folder / "stamp.png"));
    CHECK(listed[0].at("ties") ==
          json{{{"part", "A1"}, {"stage", "during"}}, {{"entry", 1}, {"stage", "during"}}});
    for (const auto& [word, kind] :
         {std::pair{"axle", "part"}, {"cleaned", "entry"}, {"ov", "mark"}, {"stamp", "photo"}}) {
        const json found = bench.answer({"find", word});
        REQUIRE(found.size() == 1);
        CHECK(found[0].at("kind") == kind);
        CHECK(found[0].contains(kind));
    }
    CHECK(bench.answer({"undo"}) == json{{"undone", "wrote the entry of 7 Mar 2026"}});
    CHECK(bench.answer({"redo"}) == json{{"redone", "wrote the entry of 7 Mar 2026"}});
}

TEST_CASE("the help of each verb names the fields of its JSON") {
    Bench bench;
    const std::string photo = bench.photo("a.png", 1);
    CHECK(bench({"part", "add", "axle", "--tag", "A1"}).code == 0);
    CHECK(bench({"task", "add", "strip it"}).code == 0);
    CHECK(bench({"log", "Stripped it."}).code == 0);
    CHECK(bench({"mark", photo, "--region", "1,1,9,9", "--reading", "QM"}).code == 0);
    const std::vector<std::vector<std::string>> commands = {
        {"photos"}, {"part", "list"}, {"task", "list"}, {"log", "--list"}, {"mark", "--list"}};
    for (const auto& command : commands) {
        auto verb = command;
        if (verb.back() == "--list") verb.pop_back();
        verb.emplace_back("--help");
        const std::string help = bench(verb).out;
        const json listed = bench.answer(command);
        REQUIRE_FALSE(listed.empty());
        for (const auto& field : fields(listed[0]))
            CHECK_MESSAGE(holds(help, field), command.front() << ": " << field);
    }
}

TEST_CASE("bytes that are not UTF-8 come out as valid JSON and valid text") {
    Bench bench;
    CHECK(bench({"part", "add", "axle \xff\x1b[31m", "--tag", "A1"}).code == 0);
    const json listed = bench.answer({"part", "list"});
    CHECK(holds(listed[0].at("name").get<std::string>(), "axle \xEF\xBF\xBD"));
    const Ran shown = bench({"part", "show", "A1"});
    CHECK(holds(shown.out, "axle \xEF\xBF\xBD"));
    CHECK_FALSE(holds(shown.out, "\x1b"));
}

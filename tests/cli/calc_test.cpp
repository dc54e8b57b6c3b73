// Worked sheets from the command line, against published values.
#include "run.h"

#include <algorithm>
#include <cmath>

using namespace cli_tests;

namespace {

bool within(double value, double wanted, double share) {
    return std::abs(value - wanted) <= share * std::abs(wanted);
}

const std::vector<std::string> kTighten = {"calc", "torque.tighten", "thread=M10x1.5",
                                           "grade=ISO 8.8"};

} // namespace

TEST_CASE("a tightened bolt has the stress area and proof load of the standard") {
    TempFolder folder;
    auto command = kTighten;
    command.emplace_back("--json");
    const Ran ran = run(folder.path(), command);
    REQUIRE_MESSAGE(ran.code == 0, ran.err);
    const json answer = ran.parsed();
    // ISO 898-1, coarse pitch: M10x1.5 has 58.0 mm2 and, in class 8.8, a proof load of 33700 N;
    // the table's loads are not strictly rounded, 0.6 % covers it.
    CHECK(within(answer.at("outputs").at("stress_area").at("value"), 58.0e-6, 0.001));
    CHECK(answer.at("outputs").at("stress_area").at("unit") == "m2");
    CHECK(within(answer.at("outputs").at("proof_load").at("value"), 33700, 0.006));
    for (const char* field :
         {"sheet", "plugin_version", "inputs", "tables", "working", "notes", "sources"})
        CHECK(answer.contains(field));
    CHECK_FALSE(answer.at("sources").empty());

    command.insert(command.end(), {"--units", "inch"});
    const json inches = run(folder.path(), command).parsed();
    // 1 in = 25.4 mm, exactly.
    CHECK(within(inches.at("outputs").at("stress_area").at("value").get<double>() * 25.4 * 25.4,
                 58.0, 0.001));
    CHECK(inches.at("outputs").at("stress_area").at("unit") == "in2");
}

TEST_CASE("the text of an answer has metric and inch, working, sources and cautions by word") {
    TempFolder folder;
    const Ran ran = run(folder.path(), kTighten);
    REQUIRE_MESSAGE(ran.code == 0, ran.err);
    for (const char* piece :
         {"58.0 mm", "lbf·ft", "N·m", "\nworking\n", "\nsources\n", "CAUTION: "})
        CHECK_MESSAGE(holds(ran.out, piece), piece);
}

TEST_CASE("a worked result is kept on its entry and can be worked again") {
    Bench bench;
    CHECK(bench({"log", "Tightened the hanger."}).code == 0);
    auto command = kTighten;
    command.insert(command.end(), {"--entry", "1"});
    const json kept = bench.answer(command);
    CHECK(kept.at("entry") == 1);
    CHECK(kept.at("worked_result") == 1);
    const json entry = bench.answer({"log", "--list"})[0];
    REQUIRE(entry.at("worked_results").size() == 1);
    CHECK(entry.at("worked_results")[0].at("sheet") == "torque.tighten");

    const json again = bench.answer({"calc", "--again", "1"});
    CHECK(again.at("agree") == true);
    CHECK(again.at("kept").at("outputs") == kept.at("outputs"));
    CHECK(again.at("fresh").at("outputs") == kept.at("outputs"));
    CHECK(holds(bench({"calc", "--again", "1"}).out, "the same answer"));

    // As if an earlier plugin had reckoned otherwise: change the kept text, not the plugin.
    output_of("sqlite3 " + shell_word(bench.book / "notebook.db") +
              " \"UPDATE worked_results SET answer = json_set(answer, '$.outputs[0].si', 1.0)\"");
    const Ran differs = bench({"calc", "--again", "1"});
    CHECK(differs.code == 0);
    CHECK(holds(differs.out, "DIFFER"));
    CHECK(bench.answer({"calc", "--again", "1"}).at("agree") == false);
}

TEST_CASE("a shim stack is found that adds up by hand") {
    TempFolder folder;
    // 10 + 25 = 35 thou, and no other choice of these does.
    const Ran ran = run(folder.path(),
                        {"calc", "shim.stack", "target=35 thou", "tin=10 12 25 40 thou", "--json"});
    REQUIRE_MESSAGE(ran.code == 0, ran.err);
    CHECK(within(ran.parsed().at("outputs").at("sum").at("value"), 0.035 * 0.0254, 1e-9));
}

TEST_CASE("the worked sheets are listed with what they take") {
    TempFolder folder;
    const Ran listed = run(folder.path(), {"calc", "--list", "--json"});
    REQUIRE_MESSAGE(listed.code == 0, listed.err);
    CHECK(listed.err.empty());
    std::vector<std::string> sheets;
    for (const auto& sheet : listed.parsed())
        sheets.push_back(sheet.at("sheet"));
    for (const char* sheet : {"spring.pack", "torque.tighten", "shim.stack", "thread.identify"})
        CHECK(std::ranges::find(sheets, sheet) != sheets.end());
    const Ran one = run(folder.path(), {"calc", "shim.stack", "--list"});
    CHECK(one.code == 0);
    CHECK(holds(one.out, "  tin "));
}

TEST_CASE("inputs that cannot be read are refused by name, and nothing is kept") {
    Bench bench;
    CHECK(bench({"log", "Tightened the hanger."}).code == 0);
    const std::vector<std::pair<std::vector<std::string>, std::string>> refusals = {
        {{"calc", "torque.tighten", "bearing_od=5/0 in", "--entry", "1"}, "5/0 in"},
        {{"calc", "torque.tighten", "wrench=12 parsecs", "--entry", "1"}, "12 parsecs"},
        {{"calc", "torque.tightn", "--entry", "1"}, "torque.tightn"},
        {{"calc", "torque.tighten", "colour=green", "--entry", "1"}, "colour"},
        {{"calc", "torque.tighten", "green", "--entry", "1"}, "green"},
        {{"calc", "torque.tighten", "use=0.7", "use=0.8", "--entry", "1"}, "use"},
        {{"calc", "torque.tighten", "--entry", "77"}, "77"},
        {{"calc", "--again", "77"}, "77"},
    };
    const std::string before = bench.dump();
    for (const auto& [arguments, named] : refusals) {
        const Ran ran = bench(arguments);
        CAPTURE(named);
        CAPTURE(ran.err);
        CHECK(ran.code == 1);
        CHECK(ran.one_sentence());
        CHECK(holds(ran.err, named));
    }
    CHECK(bench.dump() == before);
}

TEST_CASE(
    "a kernel that does not shut workers off is told where the sheets are listed, and all works") {
    Bench bench;
    make_picture(bench.folder / "a.jpg", 1);
    const std::string without = shell_word(FETTLEBOOK_BIN_DIR "/without_seccomp");
    const auto under_it = [&](const std::vector<std::string>& arguments) {
        return run(bench.folder.path(), arguments, {}, without);
    };
    const Ran listed = under_it({"calc", "--list"});
    CHECK(listed.code == 0);
    CHECK(listed.one_sentence());
    CHECK(
        holds(listed.err, "The kernel does not shut plugins and picture decoders off from files"));
    CHECK(holds(listed.out, "torque.tighten"));
    CHECK(under_it(kTighten).code == 0);
    const Ran taken = under_it({"take-in", "a.jpg", "--notebook", bench.book});
    CHECK_MESSAGE(taken.code == 0, taken.err);
}

TEST_CASE("a plugin of the user's that fails is named in one sentence, and the next sheet works") {
    TempFolder folder;
    const fs::path plugins = folder / "fettlebook/plugins";
    fs::create_directories(plugins);
    const auto library = plugins / "crash_at_compute.so";
    fs::copy_file(FETTLEBOOK_BAD_PLUGIN_DIR "/misbehaves.so", library);
    for (const auto& place : {plugins.parent_path(), plugins, library})
        fs::permissions(place, fs::perms::owner_all);
    const std::string at_home = "XDG_DATA_HOME=" + shell_word(folder.path());
    const Ran ran = run(folder.path(), {"calc", "crash_at_compute.square"}, {}, at_home);
    CHECK(ran.code == 1);
    CHECK(ran.out.empty());
    CHECK(ran.one_sentence());
    CHECK(holds(ran.err, "The plugin crash_at_compute failed in crash_at_compute.square: it "));
    CHECK(run(folder.path(), kTighten, {}, at_home).code == 0);

    // On an entry it is kept as one that failed, as the window keeps it.
    const auto in_book = [&](std::vector<std::string> arguments) {
        arguments.insert(arguments.end(), {"--notebook", "book"});
        return run(folder.path(), arguments, {}, at_home);
    };
    CHECK(run(folder.path(), {"start", "book", "--vehicle", "Drover"}).code == 0);
    CHECK(in_book({"log", "Squared."}).code == 0);
    const Ran kept = in_book({"calc", "crash_at_compute.square", "--entry", "1", "--json"});
    CHECK(kept.code == 1);
    CHECK(holds(kept.err, "This calculation failed, so it has no figures."));
    CHECK(kept.parsed().at("failed") == true);
    CHECK(kept.parsed().at("worked_result") == 1);
}

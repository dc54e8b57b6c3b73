// Where libraries may come from, and what the Catalogue lists.
#include "calc/plugin_folder.h"
#include "calc/run_sheet.h"

#include <unistd.h>

#include <cmath>

namespace fs = std::filesystem;
using namespace fettle;
using namespace fettle::calc;

TEST_CASE("a folder that others may write to is refused whole, with what to do about it") {
    for (const auto others : {fs::perms::others_write, fs::perms::group_write}) {
        const PluginFolder folder;
        folder.add("echo");
        fs::permissions(folder.path(), others, fs::perm_options::add);
        const Catalogue catalogue(kWorker, {folder.path()}, patient());
        CHECK(catalogue.plugins().empty());
        REQUIRE(catalogue.refused().size() == 1);
        CHECK(catalogue.refused()[0].path == folder.path());
        CHECK(contains(catalogue.refused()[0].reason, "may be written by others"));
        CHECK(contains(catalogue.refused()[0].reason, "chmod go-w"));
    }
}

TEST_CASE("a library that others may write to is refused, and the others in its folder are not") {
    const PluginFolder folder;
    folder.add("echo");
    const auto open = folder.add("misbehaves", "open");
    fs::permissions(open, fs::perms::others_write, fs::perm_options::add);
    const Catalogue catalogue(kWorker, {folder.path()}, patient());
    CHECK(catalogue.plugins().size() == 1);
    CHECK(contains(reason_for(catalogue, "open.so"), "may be written by others"));
}

TEST_CASE(
    "a folder above that others may write to is refused, unless each keeps what is his there") {
    const PluginFolder above;
    const auto folder = above.path() / "plugins" / "mine";
    fs::create_directories(folder);
    fs::copy_file(above.add("echo"), folder / "echo.so");
    fs::permissions(above.path() / "plugins", fs::perms::owner_all);
    fs::permissions(folder, fs::perms::owner_all);
    const auto loads = [&](fs::perms mode) {
        fs::permissions(above.path() / "plugins", mode);
        const Catalogue catalogue(kWorker, {folder}, patient());
        if (catalogue.plugins().size() == 1) return std::string("loaded");
        REQUIRE(catalogue.refused().size() == 1);
        return catalogue.refused()[0].reason;
    };
    const auto said = loads(fs::perms::all);
    CHECK(contains(said, (above.path() / "plugins").string() + " may be written by others"));
    CHECK(loads(fs::perms::all | fs::perms::sticky_bit) == "loaded");
    CHECK(loads(fs::perms::owner_all) == "loaded");
    if (geteuid() != 0) return; // only root can give a folder away
    REQUIRE(chown((above.path() / "plugins").c_str(), 12345, 12345) == 0);
    CHECK(contains(loads(fs::perms::owner_all), "belongs to another user"));
}

TEST_CASE("a link is judged by the file and the folder it leads to") {
    const PluginFolder safe, open;
    open.add("misbehaves", "linked");
    fs::permissions(open.path(), fs::perms::others_write, fs::perm_options::add);
    fs::create_symlink(open.path() / "linked.so", safe.path() / "linked.so");
    fs::create_symlink(open.path() / "gone.so", safe.path() / "gone.so");
    const Catalogue catalogue(kWorker, {safe.path()}, patient());
    CHECK(catalogue.plugins().empty());
    CHECK(contains(reason_for(catalogue, "linked.so"), open.path().string()));
    CHECK(contains(reason_for(catalogue, "linked.so"), "may be written by others"));
    CHECK(contains(reason_for(catalogue, "gone.so"), "cannot be found"));
}

TEST_CASE("a library that belongs to another user is refused") {
    if (geteuid() != 0) return; // only root can give a file away
    const PluginFolder folder;
    const auto given_away = folder.add("echo");
    REQUIRE(chown(given_away.c_str(), 12345, 12345) == 0);
    const Catalogue catalogue(kWorker, {folder.path()}, patient());
    CHECK(contains(reason_for(catalogue, "echo.so"), "belongs to another user"));
}

TEST_CASE("folders that do not exist are passed over") {
    const PluginFolder folder;
    folder.add("echo");
    const Catalogue catalogue(kWorker, {folder.path() / "nowhere", folder.path()}, patient());
    CHECK(catalogue.plugins().size() == 1);
    CHECK(catalogue.refused().empty());
}

TEST_CASE("of two libraries with one id the first counts") {
    const PluginFolder installed, own;
    const auto first = installed.add("echo");
    own.add("echo");
    const Catalogue catalogue(kWorker, {installed.path(), own.path()}, patient());
    REQUIRE(catalogue.plugins().size() == 1);
    CHECK(catalogue.plugins()[0].library == fs::canonical(first));
    REQUIRE(catalogue.refused().size() == 1);
    CHECK(contains(catalogue.refused()[0].reason, "already loaded from " + first.string()));
}

TEST_CASE("without the worker program every library is refused, with its name") {
    const PluginFolder folder;
    folder.add("echo");
    const Catalogue catalogue("/nonexistent/fettlebook-calc", {folder.path()}, patient());
    CHECK(catalogue.plugins().empty());
    CHECK(contains(reason_for(catalogue, "echo.so"), "/nonexistent/fettlebook-calc"));
}

TEST_CASE("plugins are listed by id, and a mistyped sheet brings up near ones") {
    const PluginFolder folder;
    folder.add("echo");
    folder.add("misbehaves", "brake");
    folder.add("misbehaves", "spring");
    const Catalogue catalogue(kWorker, {folder.path()}, patient());
    REQUIRE(catalogue.plugins().size() == 3);
    CHECK(catalogue.plugins()[0].id == "brake");
    CHECK(catalogue.plugins()[2].id == "spring");

    const auto found = catalogue.find_sheet("spring.square");
    REQUIRE(found.ok());
    CHECK(found->plugin->id == "spring");
    CHECK(found->sheet->title == "Square");

    const auto mistyped = catalogue.find_sheet("sprnig.square");
    REQUIRE_FALSE(mistyped.ok());
    CHECK(mistyped.failure().kind == FailureKind::not_found);
    CHECK(contains(mistyped.failure().sentence, "\"sprnig.square\". Near to it: spring.square"));
    const auto strange = catalogue.find_sheet("unheard.of.entirely");
    CHECK(contains(strange.failure().sentence, "There are: brake.square, echo.back"));
    const Catalogue empty(kWorker, {}, patient());
    CHECK(contains(empty.find_sheet("a.b").failure().sentence, "no calculation plugin"));
}

TEST_CASE("inputs of every shape arrive at the plugin in SI, blanks as blanks") {
    const PluginFolder folder;
    folder.add("echo");
    Catalogue catalogue(kWorker, {folder.path()}, patient());
    auto answer = run_sheet(catalogue, "echo.back",
                            {{"number", "18 lbf.ft"},
                             {"text", "  5/16-24 UNF "},
                             {"choice", "as R"},
                             {"list", "8 12 thou"},
                             {"table", "36in 40; 1-3/4"}});
    REQUIRE(answer.ok());
    // 1 lbf·ft = 0.3048 m x 4.4482216152605 N exactly, so 18 lbf·ft = 24.405 N·m
    CHECK(answer->outputs[0].text ==
          "5 inputs, number given 24.405, text 5/16-24 UNF, choice as rolled");
    const auto& cells = answer->tables[0].rows;
    REQUIRE(cells.size() == 6);
    const double inches[] = {0.008, 0.012, 36, 40, 1.75};
    for (std::size_t at = 0; at < 5; ++at)
        CHECK(*cells[at][1].si == doctest::Approx(inches[at] * 0.0254));
    CHECK(cells[4][0].text == "table row 1 column 0");
    CHECK_FALSE(cells[5][1].si); // blank
    CHECK(answer->notes[0].text == "Mind your ears.");
    CHECK(answer->notes[1].text == "not UTF-8: \xEF\xBF\xBD.");
    CHECK(answer->revision == 7);

    auto blank = run_sheet(catalogue, "echo.back", {{"choice", ""}});
    REQUIRE(blank.ok());
    CHECK(blank->outputs[0].text == "5 inputs, number blank 0.000, text blank, choice blank");
}

TEST_CASE("a library exchanged while the program runs is not asked under its old description") {
    const PluginFolder folder;
    folder.add("echo");
    folder.add("misbehaves", "crash_at_compute");
    Catalogue catalogue(kWorker, {folder.path()}, patient());
    CHECK_FALSE(run_sheet(catalogue, "crash_at_compute.square", {}).ok()); // its process is gone
    folder.add("echo", "crash_at_compute");
    const auto answer = run_sheet(catalogue, "crash_at_compute.square", {});
    REQUIRE_FALSE(answer.ok());
    CHECK(contains(answer.failure().sentence, "has changed since this program was started"));
}

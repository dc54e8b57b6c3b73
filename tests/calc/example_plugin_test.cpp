// The example plugin is built as its own comment says, outside the project's build, and computed.
#include "calc/display.h"
#include "calc/plugin_folder.h"
#include "calc/run_sheet.h"

#include <cstdlib>

namespace fs = std::filesystem;
using namespace fettle;
using namespace fettle::calc;

namespace {

// Copies the example to a folder of its own and builds it there with nothing but a C compiler.
void build_example(const PluginFolder& folder) {
    fs::copy(FETTLEBOOK_SOURCE_DIR "/tests/calc/example_plugin", folder.path());
    const std::string in = folder.path().string();
    const std::string command = "cc -std=c99 -Wall -Wextra -Wpedantic -Werror -shared -fPIC -I '" +
                                std::string(FETTLEBOOK_SOURCE_DIR) + "/plugins/sdk' '" + in +
                                "/drill.c' -o '" + in + "/drill.so' && chmod go-w '" + in +
                                "/drill.so'";
    REQUIRE(std::system(command.c_str()) == 0);
}

} // namespace

TEST_CASE(
    "a plugin built by somebody else from the header alone is found, described and computed") {
    const PluginFolder folder;
    build_example(folder);
    Catalogue catalogue(kWorker, {folder.path()}, patient());
    REQUIRE(catalogue.refused().empty());
    REQUIRE(catalogue.plugins().size() == 1);
    CHECK(catalogue.plugins()[0].name == "Drilling");
    CHECK(catalogue.plugins()[0].library == fs::canonical(folder.path() / "drill.so"));

    // N = 12 V / (pi D) with V in ft/min and D in inches, n = 1000 v / (pi d) with m/min and mm:
    // the formulae of every machinist's handbook (from memory), worked with a pocket calculator.
    struct Case {
        const char* speed;
        const char* diameter;
        double rpm;
    };
    for (const auto& [speed, diameter, rpm] :
         {Case{"25", "10", 795.775}, Case{"100 ft/min", "1/2 in", 763.944},
          Case{"30 m/min", "6 mm", 1591.549}}) {
        CAPTURE(diameter);
        auto answer = run_sheet(catalogue, "drill.speed",
                                {{"cutting_speed", speed}, {"diameters", diameter}});
        REQUIRE(answer.ok());
        CHECK(*output_si(*answer, "spindle") * 60 == doctest::Approx(rpm).epsilon(1e-6));
    }
}

TEST_CASE("the example's table has one row for each drill, and its caution comes first") {
    const PluginFolder folder;
    build_example(folder);
    Catalogue catalogue(kWorker, {folder.path()}, patient());
    auto answer = run_sheet(catalogue, "drill.speed",
                            {{"diameters", "5 10 20 mm"}, {"steps", "350; 600; 1100; 2000"}});
    REQUIRE(answer.ok());
    REQUIRE(answer->tables.size() == 1);
    REQUIRE(answer->tables[0].rows.size() == 3);
    // 1000 * 25 / (pi * 20), the preset cutting speed being 25 m/min
    CHECK(*answer->tables[0].rows[2][1].si * 60 == doctest::Approx(397.887).epsilon(1e-6));
    CHECK(*output_si(*answer, "set") * 60 == doctest::Approx(1100)); // below 1591.5
    REQUIRE_FALSE(answer->notes.empty());
    CHECK(answer->notes[0].level == NoteLevel::caution);
    CHECK(contains(answer->notes[0].text, "Clamp the work"));
    CHECK(answer->working.size() == 3);
    CHECK(answer->inputs[0].typed == "25");

    const auto rows = display_rows(*answer);
    CHECK(rows[1].metric == "1100 rpm");
    const auto tables = display_tables(*answer);
    CHECK(tables[0].headings[0] == "Drill, mm");
    CHECK(tables[0].rows[1][0] == "10.00");
    CHECK(tables[0].inch_headings[0] == "Drill, in");
    CHECK(tables[0].inch_rows[1][0] == "0.3937"); // 10 / 25.4
}

TEST_CASE("an output without a number says why instead") {
    const PluginFolder folder;
    build_example(folder);
    Catalogue catalogue(kWorker, {folder.path()}, patient());
    auto answer = run_sheet(catalogue, "drill.speed", {{"diameters", "10"}});
    REQUIRE(answer.ok());
    CHECK_FALSE(output_si(*answer, "set"));
    CHECK(display_rows(*answer)[1].metric == "stepless");
}

// The rebuild at a glance, as typed.
#include "run.h"

using namespace cli_tests;

TEST_CASE("the rebuild is told by group and month, as text and as JSON, of one vehicle or all") {
    Bench bench;
    add_position(bench.book, "F7", "hanger");
    add_position(bench.book, "F8", "pin");
    bench.answer({"part", "add", "hanger", "--tag", "H7", "--position", "F7", "--quantity", "2",
                  "--cost", "12.50 GBP", "--on", "2026-01-10"});
    bench.answer({"log", "began", "--on", "2025-12-31", "--hours", "1.5"});
    bench.answer({"log", "went on", "--on", "2026-02-01", "--hours", "2"});
    const json told = bench.answer({"rebuild"});
    // By hand: a hanger that is there and not fitted, a pin that is not; December and February.
    CHECK(told.at("positions") == json{{"fitted", 0}, {"there", 1}, {"missing", 1}});
    REQUIRE(told.at("groups").size() == 1);
    CHECK(told.at("groups")[0].at("positions") == told.at("positions"));
    REQUIRE(told.at("hours").size() == 3);
    CHECK(told.at("hours")[0] == json{{"month", "2025-12"}, {"hours", 1.5}, {"entries", 1}});
    CHECK(told.at("hours")[1].at("hours") == 0);
    CHECK(told.at("all_hours") == 3.5);
    CHECK(told.at("spent") == json{{{"month", "2026-01"}, {"spent", {{"GBP", 1250}}}}});
    CHECK(told.at("all_spent") == bench.answer({"costs"}).at("spent"));
    CHECK(told.at("positions").at("missing") == bench.answer({"missing"}).size());
    const std::string text = bench({"rebuild"}).out;
    CHECK(holds(text, "2026-01  0 h"));
    CHECK(holds(text, "all      3.5 h  2"));
    CHECK(holds(text, "all      12.50 GBP"));
    CHECK(holds(bench.refused({"rebuild", "--vehicle", "Tractor"}), "Tractor"));
}

TEST_CASE("an empty notebook is told of in words") {
    Bench bench;
    CHECK(bench({"rebuild"}).out == "no positions\n\nno entries\n\nnothing spent\n");
    CHECK(bench.answer({"rebuild"}).at("groups").empty());
}

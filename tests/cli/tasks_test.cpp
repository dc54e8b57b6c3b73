// Tasks as typed: what they wait for, who has it, what to do next.
#include "run.h"

using namespace cli_tests;

namespace {

// King pins at a machine shop, their bushes, and what can be done meanwhile.
struct Axle : Bench {
    Axle() {
        add_position(book, "A1", "King pin"); // two are needed
        must({"part", "add", "king pins", "--tag", "P3", "--quantity", "2", "--position", "A1",
              "--condition", "cleaned"});
        must({"task", "add", "strip the axle", "--hours", "2"});
        must({"task", "add", "ream the bushes", "--hours", "5", "--needs", "1", "--position",
              "A1=cleaned"});
        must({"task", "add", "fit the hubs", "--hours", "3", "--needs", "2"});
        must({"task", "add", "sort the bolts", "--hours", "1"});
    }
    std::string must(const std::vector<std::string>& typed) const {
        const Ran ran = (*this)(typed);
        CAPTURE(ran.err);
        REQUIRE(ran.code == 0);
        return ran.out;
    }
    std::vector<int> numbers(const std::vector<std::string>& typed) const {
        std::vector<int> all;
        for (const auto& task : answer(typed))
            all.push_back(task.at("task"));
        return all;
    }
};

} // namespace

TEST_CASE("a task waits for parts that are out, and is told who has them since when") {
    Axle axle;
    axle.must({"send", "--to", "Hebble Lane", "--for", "measuring", "--on", "2026-03-03", "--due",
               "2099-01-01", "P3"});
    axle.must({"task", "done", "1"});
    const std::string said = axle.must({"task", "show", "2"});
    CHECK(holds(said, "King pin, cleaned: 0 of 2, P3 is with Hebble Lane since 3 Mar 2026 for "
                      "measuring, due 1 Jan 2099"));
    const json shown = axle.answer({"task", "show", "2"});
    CHECK(shown.at("ready") == false);
    CHECK(shown.at("waits_on").at(0).at("part") == "P3");
    CHECK(shown.at("waits_on").at(0).at("consignment") == 1);
    // What comes after is held up by the same, and says so.
    CHECK(holds(axle.must({"task", "show", "3"}), "P3 is with Hebble Lane"));
    const json held = axle.answer({"task", "show", "3"}).at("held_up_by");
    REQUIRE(held.size() == 1);
    CHECK(held[0].at("at") == 2);
    CHECK(held[0].at("part") == "P3");
    axle.must({"receive", "1", "P3", "--on", "2026-03-10"});
    CHECK(axle.numbers({"task", "list", "--ready"}) == std::vector{2, 4});
}

TEST_CASE("a task waits for a consignment, and what it needs can be added and left out") {
    Axle axle;
    axle.must({"send", "--to", "Hebble Lane", "--for", "measuring", "--on", "2026-03-03", "P3"});
    const json changed = axle.answer({"task", "set", "4", "--delivery", "1", "--needs", "1"});
    CHECK(changed.at("deliveries") == json{1});
    CHECK(changed.at("needs") == json{1});
    CHECK(holds(axle.must({"task", "show", "4"}), "consignment 1, measuring by Hebble Lane: out"));
    CHECK(axle.answer({"task", "set", "4", "--without-delivery", "1", "--without-need", "1"})
              .at("ready") == true);
    axle.refused({"task", "set", "4", "--without-need", "1"}, "does not wait for task 1");
    axle.refused({"task", "set", "4", "--without-position", "A1"}, "does not need position A1");
    axle.refused({"task", "set", "4", "--delivery", "9"}, "no consignment \"9\"");
    axle.refused({"task", "set", "9", "--title", "x"}, "no task \"9\"");
    axle.refused({"task", "set", "4", "--state", "soon"}, "soon");
}

TEST_CASE("a circle is refused by name, and nothing of the change is kept") {
    Axle axle;
    axle.refused({"task", "set", "1", "--needs", "3", "--title", "never kept"},
                 "never kept (1) needs fit the hubs (3) needs ream the bushes (2) needs never "
                 "kept (1)");
    axle.refused({"task", "set", "1", "--needs", "1"}, "itself");
}

TEST_CASE("next gives what fits the hours and the warmth, what unlocks most first") {
    Axle axle;
    axle.must({"task", "add", "enamel", "--hours", "1", "--least-temperature", "15 °C"});
    CHECK(axle.numbers({"task", "next"}) == std::vector{1, 4, 5});
    const json next = axle.answer({"task", "next", "--hours", "90 min", "--temperature", "59 F"});
    // 59 °F is 15 °C: warm enough. Stripping takes two hours: after what fits.
    REQUIRE(next.size() == 3);
    CHECK(next[2].at("task") == 1);
    CHECK(next[2].at("fits") == false);
    CHECK(next[2].at("unlocks") == 1);
    CHECK(next[2].at("after_hours") == 8.0);
    CHECK(axle.numbers({"task", "next", "--temperature", "14 °C"}) == std::vector{1, 4});
    axle.refused({"task", "next", "--hours", "a while"}, "a while");
    axle.refused({"task", "next", "--temperature", "14 kg"}, "14 kg");
}

TEST_CASE("a task is dropped, opened again and its day of finishing follows") {
    Axle axle;
    CHECK(axle.must({"task", "set", "1", "--state", "dropped"}) == "task 1  dropped\n");
    CHECK(axle.answer({"task", "show", "2"}).at("ready") == true);
    CHECK(axle.answer({"task", "set", "1", "--state", "done"}).at("done_on").is_string());
    CHECK(axle.answer({"task", "set", "1", "--state", "open"}).at("done_on").is_null());
    CHECK(axle.answer({"task", "done", "1", "--on", "2026-02-28"}).at("done_on") == "2026-02-28");
    // ISO 8601: 2026 is no leap year, and weeks are not days.
    axle.refused({"task", "done", "1", "--on", "2026-02-29"}, "2026-02-29");
    axle.refused({"task", "done", "1", "--on", "2026-W10"}, "2026-W10");
    CHECK(axle.answer({"task", "done", "1", "--on", "2024-02-29"}).at("done_on") == "2024-02-29");
}

TEST_CASE("the bench says what fits today's hours and warmth, what waits and what needs a look") {
    Axle axle;
    axle.must({"task", "add", "enamel", "--hours", "1", "--least-temperature", "15 °C"});
    axle.must({"send", "--to", "Hebble Lane", "--for", "measuring", "--on", "2026-03-03", "--due",
               "2026-03-10", "P3"});
    const json bench = axle.answer({"bench", "--hours", "90 min", "--temperature", "59 F"});
    CHECK(bench.at("hours") == 1.5);
    CHECK(bench.at("temperature_c") == 15.0);
    REQUIRE(bench.at("ready").size() == 3);
    CHECK(bench.at("ready").at(0).at("fits") == true);
    CHECK(bench.at("ready").at(2).at("title") == "strip the axle"); // two hours: too long
    CHECK(bench.at("ready").at(2).at("fits") == false);
    CHECK(bench.at("waits").size() == 2);
    CHECK(bench.at("out").empty()); // it is overdue
    CHECK(bench.at("look").at("overdue").at(0).at("firm") == "Hebble Lane");
    axle.must({"receive", "1", "P3", "--on", "2026-03-12"});
    // What was kept for the day stands without being typed again.
    const json later = axle.answer({"bench"});
    CHECK(later.at("hours") == 1.5);
    CHECK(later.at("look").at("overdue").empty());
    CHECK(later.at("look").at("draft") == "");
    CHECK(
        later.at("look").at("arrivals") ==
        json{{{"consignment", 1}, {"part", "P3"}, {"firm", "Hebble Lane"}, {"on", "2026-03-12"}}});
    const std::string said = axle.must({"bench"});
    CHECK(holds(said, "can be done now"));
    CHECK(holds(said, "P3  "));
    axle.refused({"bench", "--hours", "25"}, "0 to 24");
    axle.refused({"bench", "--hours", "a while"}, "a while");
    const std::string help = axle.must({"bench", "--help"});
    for (const json& record : {later, later.at("look")})
        for (const auto& [field, value] : record.items())
            CHECK_MESSAGE(holds(help, field), field);
}

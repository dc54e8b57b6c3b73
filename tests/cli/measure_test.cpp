// Measuring parts from the command line: limits of a position, readings, verdicts, decisions.
#include "run.h"

#include <cmath>

using namespace cli_tests;

namespace {

struct PinBench : Bench {
    PinBench() {
        add_position(book, "A1", "king pin");
        CHECK((*this)({"part", "add", "king pin", "--tag", "P3", "--position", "A1"}).code == 0);
        CHECK((*this)({"limits", "A1", "pin diameter", "new_lower=0.9985 in", "new_upper=0.9995 in",
                       "wear_limit=0.9950 in"})
                  .code == 0);
    }
};

} // namespace

TEST_CASE("readings are judged by the limits of the position, listed and removed") {
    PinBench bench;
    // Least 0.9968 in lies 1.8 thou above the wear limit: by subtraction.
    const json kept = bench.answer({"measure", "p3", "pin diameter", "1 0.9982 0; 2 0.9968 90",
                                    "--on", "2026-02-21", "--note", "cold"});
    CHECK(kept.at("measurement") == 1);
    CHECK(kept.at("part") == "P3");
    CHECK(kept.at("day") == "2026-02-21");
    CHECK(kept.at("verdict") == "reuse");
    CHECK(kept.at("note") == "cold");
    const double least = kept.at("answer").at("outputs").at("least").at("value");
    CHECK(std::abs(least - 0.9968 * 0.0254) < 1e-12);
    const Ran worn = bench({"measure", "P3", "Pin diameter", "1 0.9940"});
    CHECK(worn.code == 0);
    CHECK(holds(worn.out, "Verdict: replace"));
    CHECK(holds(worn.out, "STOP: "));
    const json listed = bench.answer({"measure", "P3"});
    REQUIRE(listed.size() == 2);
    CHECK(listed[0].at("verdict") == "replace"); // the newest first
    CHECK(listed[1] == kept);
    CHECK(listed[0].at("feature") == "pin diameter");
    CHECK(holds(bench({"measure", "P3"}).out, "21 Feb 2026"));
    const json shown = bench.answer({"part", "show", "P3"}).at("measurements");
    REQUIRE(shown.size() == 2);
    CHECK(shown[1] == json{{"measurement", 1},
                           {"feature", "pin diameter"},
                           {"day", "2026-02-21"},
                           {"verdict", "reuse"}});
    CHECK(holds(bench({"part", "show", "P3"}).out, "measurement 1"));
    CHECK(bench({"measure", "P3", "--remove", "1"}).code == 0);
    CHECK(bench.answer({"measure", "P3"}).size() == 1);
    CHECK(bench({"undo"}).code == 0);
    CHECK(bench.answer({"measure", "P3"}).size() == 2);
}

TEST_CASE("the decision is taken over only when asked for") {
    PinBench bench;
    bench.answer({"measure", "P3", "pin diameter", "1 0.9940"});
    CHECK(bench.answer({"part", "show", "P3"}).at("decision") == "undecided");
    CHECK(bench.answer({"measure", "P3", "pin diameter", "1 0.9940", "--decide"}).at("decision") ==
          "replace");
    CHECK(bench.answer({"part", "show", "P3"}).at("decision") == "replace");
    // Half a thou above the limit by caliper proves nothing.
    const Ran doubtful =
        bench({"measure", "P3", "pin diameter", "1 0.9955", "instrument=caliper", "--decide"});
    CHECK(doubtful.code == 1);
    CHECK(doubtful.one_sentence());
    CHECK(holds(doubtful.err, "measure again"));
    CHECK(bench.answer({"part", "show", "P3"}).at("decision") == "replace");
    CHECK(bench.answer({"measure", "P3"}).size() == 3);
}

TEST_CASE("limits are listed as typed, changed one by one and taken away") {
    PinBench bench;
    const json changed =
        bench.answer({"limits", "king pin", "PIN diameter", "new_lower=", "ovality_limit=2 thou"});
    CHECK(changed == json{{{"position", "A1"},
                           {"feature", "pin diameter"},
                           {"limits",
                            {{"new_upper", "0.9995 in"},
                             {"ovality_limit", "2 thou"},
                             {"wear_limit", "0.9950 in"}}}}});
    CHECK(bench.answer({"limits", "A1"}) == changed);
    CHECK(holds(bench({"limits", "A1"}).out, "2 thou"));
    CHECK(bench.answer({"limits", "A1", "pin diameter", "--remove"}).empty());
    CHECK(bench.answer({"limits", "A1"}).empty());
    CHECK(bench({"undo"}).code == 0);
    CHECK(bench.answer({"limits", "A1"}) == changed);
}

TEST_CASE("the help of measure and limits names the fields of their JSON") {
    PinBench bench;
    bench.answer({"measure", "P3", "pin diameter", "1 0.9940"});
    for (const char* verb : {"measure", "limits"}) {
        const std::string help = bench({verb, "--help"}).out;
        const json listed = bench.answer({verb, verb == std::string("limits") ? "A1" : "P3"});
        REQUIRE_FALSE(listed.empty());
        for (const auto& [field, value] : listed[0].items())
            CHECK_MESSAGE(holds(help, field), verb << ": " << field);
    }
}

TEST_CASE("what cannot be measured is refused in one sentence and changes nothing") {
    PinBench bench;
    const std::string before = bench.dump();
    const std::vector<std::pair<std::vector<std::string>, std::string>> refused = {
        {{"measure", "Z9", "pin diameter", "1 0.99"}, "Z9"},
        {{"measure", "P3", " ", "1 0.99"}, "feature"},
        {{"measure", "P3", "pin diameter", "1 thin"}, "thin"},
        {{"measure", "P3", "pin diameter", "0.99"}, "0.99"},
        {{"measure", "P3", "pin diameter", "1 0.99", "colour=red"}, "colour"},
        {{"measure", "P3", "pin diameter", "1 0.99", "--on", "2026-02-30"}, "2026-02-30"},
        {{"measure", "P3", "--remove", "7"}, "7"},
        {{"limits", "Z9", "bore", "wear_limit=1"}, "Z9"},
        {{"limits", "A1", "bore", "wear_limit=thin"}, "thin"},
        {{"limits", "A1", "bore", "colour=red"}, "colour"},
        {{"limits", "A1", "bore", "--remove"}, "bore"}};
    for (const auto& [arguments, named] : refused) {
        const Ran ran = bench(arguments);
        CAPTURE(arguments.back());
        CAPTURE(ran.err);
        CHECK(ran.code == 1);
        CHECK(ran.one_sentence());
        CHECK(holds(ran.err, named));
    }
    CHECK(bench.dump() == before);
    CHECK(bench({"measure", "P3", "pin diameter"}).code == 2);
    CHECK(bench({"measure", "P3", "--decide"}).code == 2);
}

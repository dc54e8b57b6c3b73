// Costs, estimates, people and narrowed finds, as typed.
#include "run.h"

using namespace cli_tests;

namespace {

struct Paid : Bench {
    Paid() {
        add_position(book, "F7", "hanger");
        (*this)({"part", "add", "hanger", "--tag", "H7", "--position", "F7", "--cost", "12.50 GBP",
                 "--on", "2026-01-10", "--from", "Ansel Thrupp", "--maker", "Orrinvale Forge"});
        (*this)({"task", "add", "ream the bush"});
    }
};

} // namespace

TEST_CASE("costs are noted, summed by month with currencies apart, and removed") {
    const Paid bench;
    const json cost = bench.answer({"cost", "add", "20 GBP", "turning", "--part", "h7", "--on",
                                    "2026-02-03", "--paid-to", "Hebble Lane"});
    CHECK(cost.at("minor") == 2000);
    CHECK(cost.at("of") == "H7 hanger");
    bench.answer({"cost", "add", "1500 JPY", "oil", "--task", "1", "--on", "2026-02-28"});
    const json table = bench.answer({"costs", "--by", "month"});
    CHECK(table.at("spent") == json{{"GBP", 3250}, {"JPY", 1500}}); // 12.50 + 20.00
    REQUIRE(table.at("rows").size() == 2);
    CHECK(table.at("rows")[1].at("label") == "2026-02");
    CHECK(table.at("rows")[1].at("spent") == json{{"GBP", 2000}, {"JPY", 1500}});
    CHECK(bench.answer({"cost", "list"}).front().at("what") == "oil");
    bench.answer({"cost", "remove", "1"});
    CHECK(bench.answer({"costs"}).at("spent") == json{{"GBP", 1250}, {"JPY", 1500}});
    CHECK(bench({"undo"}).code == 0);
    CHECK(bench.answer({"cost", "list"}).size() == 2);
}

TEST_CASE("estimates stand beside what was spent in their group") {
    Paid bench;
    const std::string group = bench.answer({"costs"}).at("rows")[0].at("label");
    CHECK(bench.answer({"estimate", group, "10 GBP"}).size() == 1);
    const json row = bench.answer({"costs", "--by", "group"}).at("rows")[0];
    CHECK(row.at("estimate") == json{{"GBP", 1000}});
    CHECK(holds(bench({"costs"}).out, "over by 2.50 GBP"));
    CHECK(holds(bench.refused({"estimate", "Gearbox", "10 GBP"}), "Gearbox"));
    CHECK(bench({"estimate", group}).code == 2);
    CHECK(holds(bench.refused({"cost", "add", "12.345 GBP", "oil"}), "12.345 GBP"));
    CHECK(holds(bench.refused({"cost", "add", "1 GBP", "oil", "--part", "H7", "--task", "1"}),
                "one part, one task or one consignment"));
    CHECK(holds(bench.refused({"cost", "remove", "9"}), "cost \"9\""));
    CHECK(holds(bench.refused({"costs", "--by", "colour"}), "colour"));
}

TEST_CASE("people are told of, and the credits name them in their order") {
    Paid bench;
    bench.answer({"people", "Zora Pell", "--lent", "a press", "--on", "2026-01-01"});
    bench.answer({"people", "Bram", "--gave", "bolts", "--credits", "no"});
    const json credits = bench.answer({"credits"});
    REQUIRE(credits.size() == 2); // who lent, then who sold
    CHECK(credits[0].at("name") == "Zora Pell");
    CHECK(credits[1].at("deeds") == json::array({"sold H7 hanger"}));
    CHECK(holds(bench({"credits"}).out, "They lent\n  Zora Pell: lent a press\n"));
    for (const auto& person : bench.answer({"people"}))
        if (person.at("name") == "Bram") {
            const std::string help = std::to_string(person.at("deeds")[0].at("help").get<int>());
            bench.answer({"people", "Bram", "--forget", help, "--rename", "Bram Holloway"});
        }
    CHECK(holds(bench({"people"}).out, "Bram Holloway  (not named in the credits)"));
    CHECK(holds(bench.refused({"people", "Zora Pell", "--rename", "Ansel Thrupp"}),
                "another contact"));
    CHECK(bench({"people", "--lent", "a press"}).code == 2);
}

TEST_CASE("finds are narrowed by kind, days, part and maker") {
    Paid bench;
    bench.answer({"log", "hanger off", "--on", "2026-03-07", "--part", "H7"});
    bench.answer({"cost", "add", "1 GBP", "hanger paint", "--on", "2026-03-08"});
    const auto kinds = [&](std::vector<std::string> typed) {
        typed.insert(typed.begin(), "find");
        std::vector<std::string> found;
        for (const auto& one : bench.answer(typed))
            found.push_back(one.at("kind"));
        return found;
    };
    using Kinds = std::vector<std::string>;
    CHECK(kinds({"hanger", "--kind", "cost"}) == Kinds{"cost"});
    CHECK(kinds({"hanger", "--from", "2026-03-07", "--to", "2026-03-07"}) == Kinds{"entry"});
    CHECK(kinds({"--part", "H7", "--kind", "entry"}) == Kinds{"entry"});
    CHECK(kinds({"--maker", "orrin", "--kind", "part"}) == Kinds{"part"});
    CHECK(bench.answer({"find", "paint"}).front().at("on") == "2026-03-08");
    CHECK(holds(bench.refused({"find", "x", "--kind", "colour"}), "colour"));
    CHECK(holds(bench.refused({"find", "x", "--from", "30 Feb 2026"}), "30 Feb 2026"));
    CHECK(holds(bench.refused({"find", "x", "--maker", "Nobody"}), "Nobody"));
    CHECK(bench({"find"}).code == 2);
}

// Turning torque by a cord and end float against makers' published ranges and sums done by hand;
// what the stack sheet keeps back, proves and draws.
#include "plugins/shim_sheet.h"
#include "shim/drag_sheet.h"

#include <random>

using namespace fettle::test;

namespace {

constexpr double kPound = 4.4482216152605;     // N, by definition
constexpr double kInchPound = kPound * 0.0254; // N.m

Typed pounds(std::vector<double> forces) {
    for (double& each : forces)
        each *= kPound;
    return Typed::list(std::move(forces));
}

Typed inch_pounds(std::vector<double> torques) {
    for (double& each : torques)
        each *= kInchPound;
    return Typed::list(std::move(torques));
}

} // namespace

TEST_CASE("turning torque is the pull times half the drum and half the cord") {
    const ShimSheet sheet("shim.drag");
    TypedById typed{{"pull", pounds({10, 10})}, {"diameter", Typed::of(4 * 0.0254)}};
    typed["cord"] = Typed::of(0.0);
    CHECK(close_to(sheet.number(typed, "torque"), 20 * kInchPound, 1e-9));
    typed["cord"] = Typed::of(0.1 * 0.0254);
    CHECK(close_to(sheet.number(typed, "torque"), 20.5 * kInchPound, 1e-9));
    CHECK(close_to(sheet.number(typed, "pull_low"), 15 * kPound / 2.05, 1e-6));
}

TEST_CASE("usual turning torques are those of the makers' manuals") {
    using fettle::shim::usual_drag;
    // Makers' service manuals (seen); together: one of 1982 (seen). lbf.in.
    CHECK(close_to(usual_drag("pinion alone", "new").low, 15 * kInchPound, 1e-6));
    CHECK(close_to(usual_drag("pinion alone", "new").high, 35 * kInchPound, 1e-6));
    CHECK(close_to(usual_drag("pinion alone", "used").low, 8 * kInchPound, 1e-6));
    CHECK(close_to(usual_drag("pinion alone", "used").high, 15 * kInchPound, 1e-6));
    CHECK(close_to(usual_drag("pinion and carrier together", "new").low, 35 * kInchPound, 1e-6));
    CHECK(close_to(usual_drag("pinion and carrier together", "new").high, 40 * kInchPound, 1e-6));
    CHECK(close_to(usual_drag("pinion and carrier together", "used").low, 20 * kInchPound, 1e-6));
    CHECK(close_to(usual_drag("pinion and carrier together", "used").high, 25 * kInchPound, 1e-6));
}

TEST_CASE("preload outside the maker's range is marked stop, outside the usual one cautioned") {
    const ShimSheet sheet("shim.drag");
    TypedById typed{{"pull", pounds({20})}, {"diameter", Typed::of(4 * 0.0254)}};
    CHECK(sheet.answer(typed).has_note(FETTLE_CAUTION));
    CHECK(!sheet.answer(typed).has_note(FETTLE_STOP));
    CHECK(sheet.answer(typed).texts.at("verdict").rfind("Too tight", 0) == 0);
    typed["wanted"] = inch_pounds({16, 29});
    CHECK(sheet.answer(typed).has_note(FETTLE_STOP));
    typed["pull"] = pounds({10});
    CHECK(sheet.answer(typed).texts.at("verdict").rfind("Right", 0) == 0);
    CHECK(!sheet.answer(typed).has_note(FETTLE_STOP));
    typed["pull"] = pounds({2});
    CHECK(sheet.answer(typed).has_note(FETTLE_STOP));
    typed["pull"] = pounds({7, 12});
    CHECK(sheet.answer(typed).has_note(FETTLE_CAUTION, "varies"));
    typed["wanted"] = inch_pounds({29, 16});
    CHECK(sheet(typed).refused_field == "wanted");
    typed["wanted"] = inch_pounds({16});
    CHECK(sheet(typed).refused_field == "wanted");
}

TEST_CASE("the shim that takes up end float grows by what the tightest place has too much") {
    const ShimSheet sheet("shim.endfloat");
    const SheetAnswer answer = sheet.answer(
        {{"end_float", thous({15, 14, 16})}, {"shim", thou(12)}, {"wanted", thous({2, 8})}});
    CHECK(close_to(answer.numbers.at("new_shim"), 21 * kThou, 1e-12)); // 12 + 14 - 5
    CHECK(close_to(answer.numbers.at("end_float"), 14 * kThou, 1e-12));
    const double spacer = sheet.number({{"end_float", thous({14})},
                                        {"shim", thou(12)},
                                        {"wanted", thous({2, 8})},
                                        {"acts", Typed::of("gives float")}},
                                       "new_shim");
    CHECK(close_to(spacer, 3 * kThou, 1e-12)); // 12 - (14 - 5): thinner between the races closes it
    const SheetAnswer within = sheet.answer({{"end_float", thous({3, 7})}});
    CHECK(within.numbers.at("change") == 0);
    CHECK(within.texts.at("verdict").rfind("Leave", 0) == 0);
}

TEST_CASE("a king pin's shim comes out of fork, eye and thrust bearing") {
    const ShimSheet sheet("shim.endfloat");
    TypedById typed{{"how", Typed::of("from the parts measured")}, {"wanted", thous({6})}};
    CHECK(close_to(sheet.number(typed, "new_shim"), 20 * kThou,
                   1e-9)); // 3.010 - 2.500 - 0.484 - 0.006
    typed["eye"] = Typed::of(2.530 * 0.0254);
    const SheetAnswer none = sheet.answer(typed);
    CHECK(none.has_note(FETTLE_STOP, "cannot be"));
    CHECK(none.numbers.count("new_shim") == 0);
}

TEST_CASE("float far from the usual of a wheel bearing is cautioned") {
    // Technology & Maintenance Council, RP 618: 0.001 to 0.005 in (memory).
    const ShimSheet sheet("shim.endfloat");
    TypedById typed{{"where", Typed::of("wheel bearing")}, {"wanted", thous({1, 5})}};
    CHECK(!sheet.answer(typed).has_note(FETTLE_CAUTION, "RP 618"));
    typed["wanted"] = thous({9, 12});
    CHECK(sheet.answer(typed).has_note(FETTLE_CAUTION, "RP 618"));
    sheet.refuses({{"wanted", thous({8, 2})}}, "wanted");
    sheet.refuses({{"end_float", Typed::list({})}}, "end_float");
}

TEST_CASE("thin shims kept back are not used while the tolerance is met without them") {
    const ShimSheet sheet("shim.stack");
    TypedById typed{
        {"target", thous({22.4})}, {"tin", thous({2, 2.4, 10, 12, 20})}, {"tolerance", thou(0.5)}};
    // Exactly 20 + 2.4; without the two thin ones 10 + 12, four tenths off.
    CHECK(close_to(sheet.number(typed, "error"), 0, 1e-12));
    typed["keep_back"] = Typed::of(2);
    const SheetAnswer kept = sheet.answer(typed);
    CHECK(close_to(kept.numbers.at("sum"), 22 * kThou, 1e-12));
    CHECK(kept.numbers.at("kept_back") == 2);
    CHECK(!kept.has_note(FETTLE_STOP));
    typed.erase("keep_back");
    typed["keep_thin"] = thou(3);
    CHECK(sheet.answer(typed).numbers.at("kept_back") == 2);
    typed["keep_thin"] = thou(2.4); // thinner than, so the 2.4 itself is free
    CHECK(sheet.answer(typed).numbers.at("kept_back") == 1);
}

TEST_CASE("thin shims are released one by one, the thickest first, where nothing else will do") {
    const ShimSheet sheet("shim.stack");
    TypedById typed{{"target", thous({23})},
                    {"tin", thous({1, 3, 5, 20})},
                    {"tolerance", thou(0.1)},
                    {"keep_back", Typed::of(3)}};
    const SheetAnswer answer = sheet.answer(typed);
    CHECK(close_to(answer.numbers.at("sum"), 23 * kThou, 1e-12));
    CHECK(answer.numbers.at("kept_back") == 1); // 5 and 3 came free, 1 stays
    CHECK(answer.has_note(FETTLE_INFO, "2 of them"));
    typed["target"] = thous({40});
    const SheetAnswer never = sheet.answer(typed);
    CHECK(never.has_note(FETTLE_STOP));
    CHECK(close_to(never.numbers.at("sum"), 29 * kThou, 1e-12));
    sheet.refuses({{"keep_back", Typed::of(-1)}}, "keep_back");
}

TEST_CASE("the bound is the error where the search ended, and never above it") {
    const ShimSheet sheet("shim.stack");
    const SheetAnswer proven = sheet.answer({{"target", thous({33.3})}});
    CHECK(proven.numbers.at("bound") == doctest::Approx(proven.numbers.at("error_total")));
    CHECK(proven.has_working("searched to the end"));
    // Many nearly equal shims of odd thickness for eight targets: more than the work allowed.
    std::mt19937 engine(5);
    std::vector<double> tin, targets;
    for (int i = 0; i < 60; ++i)
        tin.push_back(std::uniform_int_distribution<int>(100'000, 700'000)(engine) * 1e-9);
    for (int i = 0; i < 8; ++i)
        targets.push_back(std::uniform_int_distribution<int>(2'800'000, 3'200'000)(engine) * 1e-9);
    const SheetAnswer hard = sheet.answer(
        {{"target", Typed::list(targets)}, {"tin", Typed::list(tin)}, {"most", Typed::of(7)}});
    CHECK(hard.numbers.at("bound") <= hard.numbers.at("error_total"));
    CHECK(hard.has_note(FETTLE_INFO, "work limit"));
}

TEST_CASE("the stacks are drawn to scale, a body for each shim as thick as it measures") {
    const ShimSheet sheet("shim.stack");
    CHECK(sheet.described().charts[0]->to_scale == 1);
    const SheetAnswer answer = sheet.answer(
        {{"target", thous({30, 13})}, {"tin", thous({10, 20, 8, 5})}, {"tolerance", thou(0.1)}});
    double drawn = 0;
    std::size_t bodies = 0;
    for (const DrawnSeries& series : answer.series.at("stacks")) {
        if (series.look != FETTLE_BODY) continue;
        ++bodies;
        drawn += series.points[2].y - series.points[1].y;
    }
    CHECK(bodies == 4);
    CHECK(close_to(drawn, 43 * kThou, 1e-12));
    CHECK(answer.labels.at("stacks").size() == 4);
}

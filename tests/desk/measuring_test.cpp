// Measuring a part through the plugin: what the form begins with, what is kept, what is offered.
#include "desk/measuring.h"
#include "desk/places.h"
#include "notebook/fixture.h"

using namespace fettle;

namespace {

struct Bench : Desk {
    calc::Catalogue sheets{desk::calc_program(), {FETTLEBOOK_PLUGIN_DIR}};
    PositionId position = must(
        add_position(book, {.vehicle = drover, .group = "Axle", .number = "A1", .name = "pin"}));
    PartId pin = [this] {
        Part fresh;
        fresh.tag = "P3";
        fresh.name = "king pin";
        fresh.position = position;
        return must(add_part(book, fresh)).id;
    }();

    desk::Readings read(const std::string& readings, const std::string& day,
                        calc::TypedInputs more = {}) const {
        more["readings"] = readings;
        return {pin, "pin diameter", std::move(more), must(parse_day(day)), ""};
    }
    const calc::Sheet& sheet() { return *must(sheets.find_sheet("fit.wear")).sheet; }
};

constexpr double kIn = 0.0254; // m, by definition

} // namespace

TEST_CASE("readings are judged against the limits of the position, never against presets") {
    Bench bench;
    // With no limit known there is nothing to judge by, though the sheet has presets for all.
    auto bare = must(desk::measure(bench.book, bench.sheets, bench.read("1 0.9982", "2026-02-01")));
    CHECK(bare.record.verdict == "no limits typed");
    must(desk::set_limits(bench.book, bench.sheets,
                          {bench.position, "pin diameter", {{"wear_limit", "0.9950 in"}}}));
    const auto good =
        must(desk::measure(bench.book, bench.sheets, bench.read("1 0.9982", "2026-02-02")));
    CHECK(good.record.verdict == "reuse");
    const auto worn = must(desk::measure(bench.book, bench.sheets,
                                         bench.read("1 0.9982 0; 1 0.9940 90", "2026-02-03")));
    CHECK(worn.record.verdict == "replace");
    CHECK(calc::output_si(worn.answer, "least").value() ==
          doctest::Approx(0.9940 * kIn).epsilon(1e-12));
    CHECK(calc::output_si(worn.answer, "mean").value() ==
          doctest::Approx((0.9982 + 0.9940) / 2 * kIn).epsilon(1e-12));
    // What was typed goes before: a lower limit, and it may be used again.
    CHECK(must(desk::measure(bench.book, bench.sheets,
                             bench.read("1 0.9940", "2026-02-04", {{"wear_limit", "0.9900 in"}})))
              .record.verdict == "reuse");
}

TEST_CASE("the next measurement begins with the last one's inputs and the position's limits") {
    Bench bench;
    must(desk::set_limits(bench.book, bench.sheets,
                          {bench.position, "Pin diameter", {{"wear_limit", "0.9950 in"}}}));
    must(desk::measure(bench.book, bench.sheets,
                       bench.read("1 0.9982", "2026-02-01",
                                  {{"instrument", "caliper"}, {"wear_limit", "0.9900 in"}})));
    const auto features = must(desk::measured_features(bench.book, bench.pin));
    REQUIRE(features.size() == 1); // one feature, however its letters are written
    const auto* known = desk::feature_named(features, " PIN DIAMETER ");
    REQUIRE(known != nullptr);
    const auto begun = desk::begun_measurement(bench.sheet(), known);
    CHECK(begun.at("instrument") == "caliper");
    CHECK(begun.at("wear_limit") == "0.9950 in");
    CHECK(begun.at("readings").empty());
    CHECK(begun.at("new_lower").empty());
    CHECK(desk::feature_named(features, "bore") == nullptr);
}

TEST_CASE("a measurement is kept whole, as one act, and leaves the decision alone") {
    Bench bench;
    const auto kept = must(desk::measure(
        bench.book, bench.sheets, bench.read("1 0.9", "2026-02-01", {{"wear_limit", "0.95"}})));
    CHECK(must(part_by_id(bench.book, bench.pin)).decision == Decision::undecided);
    const auto back = must(desk::measured_features(bench.book, bench.pin)).at(0).measured.at(0);
    CHECK(back.record.id == kept.record.id);
    CHECK(calc::agree(back.answer, kept.answer));
    CHECK(back.answer.working == kept.answer.working);
    CHECK(calc::typed_inputs(back.answer).at("readings") == "1 0.9");
    must(bench.book.undo());
    CHECK(must(desk::measured_features(bench.book, bench.pin)).empty());
    CHECK(desk::decision_for("replace") == Decision::replace);
    CHECK(desk::decision_for("reuse") == Decision::reuse);
    CHECK(desk::decision_for("repair") == Decision::repair);
    CHECK_FALSE(desk::decision_for("measure again"));
    CHECK_FALSE(desk::decision_for("hold"));
}

TEST_CASE("readings and limits that cannot be read are refused and nothing is kept") {
    Bench bench;
    CHECK_FALSE(desk::measure(bench.book, bench.sheets, bench.read("1 thin", "2026-02-01")).ok());
    CHECK_FALSE(desk::measure(bench.book, bench.sheets, bench.read("", "2026-02-01")).ok());
    CHECK(must(list_measurements(bench.book, bench.pin)).empty());
    const auto refused = [&](const std::string& id, const std::string& text) {
        return sentence(desk::set_limits(bench.book, bench.sheets,
                                         {bench.position, "pin diameter", {{id, text}}}));
    };
    CHECK(holds(refused("wear_limit", "thin"), "thin"));
    CHECK(holds(refused("colour", "red"), "colour"));
    CHECK(holds(refused("readings", "1 2"), "readings"));
    CHECK(must(list_features(bench.book, bench.position)).empty());
}

TEST_CASE("limits are written one by one, and a blank one is taken away") {
    Bench bench;
    const auto write = [&](calc::TypedInputs typed) {
        must(desk::set_limits(bench.book, bench.sheets,
                              {bench.position, "pin diameter", std::move(typed)}));
    };
    write({{"wear_limit", "0.995 in"}, {"new_lower", "0.9985 in"}});
    write({{"wear_limit", " "}, {"new_upper", "0.9995 in"}});
    const auto kept = must(list_features(bench.book, bench.position)).at(0).typed;
    CHECK(kept == calc::TypedInputs{{"new_lower", "0.9985 in"}, {"new_upper", "0.9995 in"}});
}

TEST_CASE("sizes over time run from the first day on, with mean, worst and limits") {
    Bench bench;
    const calc::TypedInputs limit{{"wear_limit", "0.9950 in"}};
    must(desk::measure(bench.book, bench.sheets,
                       bench.read("1 0.9990 0; 1 0.9980 90", "2026-02-01", limit)));
    CHECK_FALSE(
        desk::sizes_over_time(must(desk::measured_features(bench.book, bench.pin)).at(0).measured));
    must(desk::measure(bench.book, bench.sheets,
                       bench.read("1 0.9980 0; 1 0.9970 90", "2026-03-01", limit)));
    const auto chart =
        desk::sizes_over_time(must(desk::measured_features(bench.book, bench.pin)).at(0).measured);
    REQUIRE(chart);
    REQUIRE(chart->series.size() == 3);
    CHECK(chart->series[0].name == "mean");
    CHECK(chart->series[1].name == "least"); // a pin wears smaller
    CHECK(chart->series[2].name == "wear limit");
    const auto& mean = chart->series[0].points;
    REQUIRE(mean.size() == 2);
    CHECK(mean[0].x == 0);
    CHECK(mean[1].x == 28 * 86400.0); // February 2026 has 28 days
    CHECK(mean[0].y == doctest::Approx(0.9985 * kIn).epsilon(1e-12));
    CHECK(chart->series[1].points[1].y == doctest::Approx(0.9970 * kIn).epsilon(1e-12));
    CHECK(chart->series[2].points[1].y == doctest::Approx(0.9950 * kIn).epsilon(1e-12));
}

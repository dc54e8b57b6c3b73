// What the second edition of the contract brought: dependent fields, words in tables, charts, how
// far the typed decimals leave an answer open; and that a library of the first edition still
// serves.
#include "calc/display.h"
#include "calc/plugin_folder.h"
#include "calc/run_sheet.h"

#include <nlohmann/json.hpp>

using namespace fettle;
using namespace fettle::calc;

namespace {

struct Series {
    Catalogue sheets{kWorker, {FETTLEBOOK_TRIAL_PLUGIN_DIR}, patient()};

    Series() {
        REQUIRE(sheets.refused().empty());
        REQUIRE(sheets.plugins().size() == 2);
    }
    Answer run(const TypedInputs& typed, std::string_view sheet = "series.try") {
        auto answer = run_sheet(sheets, sheet, typed);
        REQUIRE(answer.ok());
        return std::move(*answer);
    }
    const Sheet& sheet() const { return *sheets.find_sheet("series.try")->sheet; }
};

std::string shown(const Answer& answer, std::string_view id) {
    for (const DisplayRow& row : display_rows(answer))
        if (row.id == id) return row.metric;
    return "not there";
}

} // namespace

TEST_CASE("a field that depends on a choice is asked only while it holds, and needed only then") {
    Series series;
    const Input& width = *find_by_id(series.sheet().inputs, "width");
    CHECK_FALSE(is_asked(series.sheet(), width, {}));
    CHECK(is_asked(series.sheet(), width, {{"way", "wide"}}));
    // Hidden, it is neither needed nor handed over, whatever was typed there once.
    CHECK(output_si(series.run({{"width", "rubbish"}}), "product") == doctest::Approx(0.010));
    const auto missing = run_sheet(series.sheets, "series.try", {{"way", "wide"}});
    REQUIRE_FALSE(missing.ok());
    CHECK(contains(missing.failure().sentence, "Width (width) is blank"));
    CHECK(output_si(series.run({{"way", "wide"}, {"width", "3"}}), "product") ==
          doctest::Approx(0.010 * 0.003));
}

TEST_CASE("a column of words takes its words alone and shows them again") {
    Series series;
    const auto answer = series.run({{"earlier", "9.5 | left; 9.8 | RIGHT; 9.9"}});
    const auto tables = display_tables(answer);
    REQUIRE(tables.size() == 1);
    REQUIRE(tables[0].rows.size() == 4);
    CHECK(tables[0].rows[0][1] == "left");
    CHECK(tables[0].rows[1][1] == "right");
    CHECK(tables[0].rows[2][1].empty());
    CHECK(tables[0].rows[3][1] == "middle");
    const auto json = command_line_json(answer, Units::si);
    CHECK(json.at("tables").at("trials").at("rows").at(1).at(1) == "right");
    const auto foreign = run_sheet(series.sheets, "series.try", {{"earlier", "9.5 | sideways"}});
    REQUIRE_FALSE(foreign.ok());
    CHECK(contains(foreign.failure().sentence, "accepted are left, middle, right"));
}

TEST_CASE("an answer shows no digit that the typed decimals leave open") {
    Series series;
    // 12.3 mm says 12.25 to 12.35: its square, 151.29, lies within 1.2 mm2, and 151 is what counts.
    CHECK(shown(series.run({{"reading", "12.3"}}), "square") == "151 mm²");
    CHECK(shown(series.run({{"reading", "12.300"}}), "square") == "151.29 mm²");
    // Whole numbers and fractions are taken as they stand.
    CHECK(shown(series.run({{"reading", "12"}}), "square") == "144.000 mm²");
    CHECK(shown(series.run({{"reading", "1/2 in"}}), "square") == "161.290 mm²");
    // Two measured inputs add like independent ones: 10.0 by 3.0, each within 0.05.
    const auto both = series.run({{"way", "wide"}, {"width", "3.0"}, {"reading", "10.0"}});
    CHECK(both.outputs[0].spread ==
          doctest::Approx(std::hypot(0.05e-3 * 10e-3, 0.05e-3 * 3e-3)).epsilon(1e-6));
    // Next to a bound the input is moved the other way, never beyond it.
    CHECK(series.run({{"reading", "100.0"}}).outputs[1].spread > 0);
}

TEST_CASE("charts come with the answer and are stored with it, point for point") {
    Series series;
    const auto answer = series.run({{"earlier", "9.5 | left"}});
    REQUIRE(answer.charts.size() == 2);
    const AnsweredChart& tries = answer.charts[0];
    CHECK(tries.chart.label == "Try by try");
    REQUIRE(tries.series.size() == 2);
    CHECK(tries.series[0].look == Look::dots);
    CHECK(tries.series[0].points == std::vector<ChartPoint>{{1, 0.0095}, {2, 0.010}});
    CHECK(answer.charts[1].chart.to_scale);
    CHECK(answer.charts[1].labels.at(0).text == "read here");
    const auto back = from_json(nlohmann::json::parse(to_json(answer).dump()));
    REQUIRE(back.ok());
    REQUIRE(back->charts.size() == 2);
    CHECK(back->charts[0].series[0].points == tries.series[0].points);
    CHECK(back->charts[0].chart == tries.chart);
    CHECK(back->outputs[1].spread == answer.outputs[1].spread);
    CHECK(has_note(answer, NoteLevel::reached));
}

TEST_CASE("what an answer hands on is typed as the other sheet would take it") {
    Series series;
    const auto hands = hand_overs(series.run({{"side", "right"}}));
    REQUIRE(hands.size() == 2);
    CHECK(hands[0].sheet == "series.try");
    CHECK(hands[0].input == "gauge");
    CHECK(hands[0].typed == "100 mm²");
    CHECK(hands[1].typed == "right");
}

TEST_CASE("a library built with the first edition's header still serves, without what came later") {
    Series series;
    const auto answer = series.run({{"width", "2"}, {"reading", "12.3"}}, "first.try");
    CHECK(output_si(answer, "product") == doctest::Approx(0.0123 * 0.002));
    CHECK(answer.charts.empty());
    CHECK(answer.outputs[0].spread == 0);
    CHECK(hand_overs(answer).empty());
}

TEST_CASE("a kept answer is worked again without inputs that the sheet no longer has") {
    Series series;
    Answer kept = series.run({{"reading", "12.3"}});
    kept.inputs.push_back({Input{.id = "given_up", .label = "Given up"}, "7", SiValue{}});
    const SheetRun again = try_again(series.sheets, kept);
    REQUIRE(again.answer);
    CHECK(agree(kept, *again.answer));
}

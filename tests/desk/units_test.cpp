// Units in are units out: a figure typed in inches, feet, gallons or degrees Fahrenheit gives the
// answer of the same figure typed in metric.
#include "base/quantity.h"
#include "calc/display.h"
#include "calc/run_sheet.h"
#include "desk/places.h"

#include <doctest/doctest.h>

#include <cstdio>

using namespace fettle;

namespace {

// The value in that unit to the last bit, as somebody might type it.
std::string typed_in(double si, const std::string& kind, std::string_view unit) {
    const auto value = to_unit(si, kind, unit);
    REQUIRE(value.ok());
    char text[64];
    std::snprintf(text, sizeof text, "%.17g ", *value);
    return text + std::string(unit);
}

// The presets of a sheet with every figure typed in the inch or the metric unit of its kind.
calc::TypedInputs all_in(const calc::Sheet& sheet, bool inch, int& figures) {
    calc::TypedInputs typed = calc::fresh_inputs(sheet);
    const calc::ReadInputs read = calc::read_inputs(sheet, typed);
    REQUIRE(read.problems.empty());
    for (std::size_t i = 0; i < sheet.inputs.size(); ++i) {
        const calc::Input& input = sheet.inputs[i];
        const calc::SiValue& value = read.values[i];
        if (input.shape != calc::Shape::number || !value.given) continue;
        const auto other = calc::inch_unit(input.quantity);
        if (other.empty()) continue;
        typed[input.id] = typed_in(value.number, input.quantity,
                                   inch ? other : calc::metric_unit(input.quantity));
        ++figures;
    }
    return typed;
}

} // namespace

TEST_CASE("sheets of fit, coat and thread answer alike in metric and in inch") {
    calc::Catalogue sheets(desk::calc_program(), {FETTLEBOOK_PLUGIN_DIR});
    int figures = 0, worked = 0;
    for (const calc::Plugin& plugin : sheets.plugins()) {
        if (plugin.id != "fit" && plugin.id != "coat" && plugin.id != "thread") continue;
        for (const calc::Sheet& sheet : plugin.sheets) {
            CAPTURE(sheet.id);
            const auto inch = calc::run_sheet(sheets, sheet.id, all_in(sheet, true, figures));
            const auto metric = calc::run_sheet(sheets, sheet.id, all_in(sheet, false, figures));
            REQUIRE(inch.ok());
            REQUIRE(metric.ok());
            CHECK(calc::agree(*inch, *metric)); // to 9 digits
            ++worked;
        }
    }
    CHECK(worked == 11); // five of fit, three each of coat and thread
    CHECK(figures > 80); // so many were typed both ways
}

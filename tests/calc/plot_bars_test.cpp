// Columns by month and bars of shares: all figures are drawn, where they belong, on the sheet.
#include "calc/plot_bars.h"
#include "calc/plot_svg.h"

#include <doctest/doctest.h>

#include <cmath>

using namespace fettle::calc;
using std::chrono::year;

namespace {

PlotSheet sheet(double width = 600, double height = 150) {
    return {width, height, 13, [](std::string_view text) { return 7.0 * double(text.size()); }};
}

MonthChart months(std::vector<double> values) {
    return {"Hours by month", "hours", year(2023) / 11, std::move(values), 1};
}

bool says(const Plot& plot, std::string_view said) {
    for (const PlotText& text : plot.texts)
        if (text.text == said) return true;
    return false;
}

// Without the lines behind.
std::vector<PlotFrame> columns_of(const LaidOut& laid) {
    std::vector<PlotFrame> columns;
    for (const PlotFill& fill : laid.plot.fills)
        if (fill.series != kGrid) columns.push_back(fill.area);
    return columns;
}

void check_on_sheet(const LaidOut& laid, double width) {
    for (const PlotFill& fill : laid.plot.fills) {
        const PlotFrame& area = fill.area;
        CHECK(area.left >= 0);
        CHECK(area.left < area.right);
        CHECK(area.right <= width);
        CHECK(area.top < area.bottom);
        CHECK(area.bottom <= laid.height);
        for (const double edge : {area.left, area.top, area.right, area.bottom})
            CHECK(edge == std::round(edge)); // so that it is crisp on a screen
    }
    for (const PlotStroke& stroke : laid.plot.strokes)
        for (const PlotPoint& at : stroke.points) {
            CHECK(at.x >= -0.5);
            CHECK(at.x <= width + 0.5);
            CHECK(at.y >= -0.5);
            CHECK(at.y <= laid.height + 0.5);
        }
}

} // namespace

TEST_CASE("columns are as high as their month's figure, and a month without has none") {
    const LaidOut laid = lay_out_months(months({10, 0, 5, 2.5}), sheet());
    REQUIRE(laid.plot.fields.size() == 4);
    const auto columns = columns_of(laid);
    REQUIRE(columns.size() == 3);
    const auto tall = [&](std::size_t at) { return columns[at].bottom - columns[at].top; };
    CHECK(tall(1) == doctest::Approx(tall(0) / 2).epsilon(0.02));
    CHECK(tall(2) == doctest::Approx(tall(0) / 4).epsilon(0.04));
    for (const char* said : {"hours", "Nov", "Dec", "2023", "Jan", "2024", "Feb", "5", "10"})
        CHECK_MESSAGE(says(laid.plot, said), said);
    check_on_sheet(laid, 600);
}

TEST_CASE("ten years of months stay apart, and their years are named") {
    std::vector<double> values(120);
    for (std::size_t at = 0; at < values.size(); ++at)
        values[at] = double(at % 7);
    const LaidOut laid = lay_out_months(months(values), sheet(1000));
    CHECK(laid.plot.fields.size() == 120);
    for (std::size_t at = 1; at < 120; ++at)
        CHECK(laid.plot.fields[at].left == laid.plot.fields[at - 1].right);
    for (int named = 2024; named <= 2033; ++named)
        CHECK_MESSAGE(says(laid.plot, std::to_string(named)), named);
    std::vector<double> taken; // right edges of names, in their order along the line
    for (const PlotText& text : laid.plot.texts)
        if (text.align == Align::centre && text.text.size() == 4) {
            if (!taken.empty()) CHECK(text.at.x - 14 > taken.back());
            taken.push_back(text.at.x + 14);
        }
    check_on_sheet(laid, 1000);
}

TEST_CASE("months without any figure still have their scale and names") {
    const LaidOut laid = lay_out_months(months({0, 0}), sheet());
    CHECK(columns_of(laid).empty());
    CHECK(says(laid.plot, "Nov"));
    check_on_sheet(laid, 600);
}

TEST_CASE("shares fill their bar from end to end, each with a pattern of its own") {
    const ShareChart chart{
        "Positions by group",
        {"fitted", "there", "missing"},
        {{"Axle", {2, 1, 1}, "2 fitted, 1 there, 1 missing"},
         {"A group with a name that is far too long for its room", {0, 0, 3}, ""},
         {"Nothing", {0, 0, 0}, ""}}};
    const LaidOut laid = lay_out_shares(chart, sheet());
    REQUIRE(laid.plot.fields.size() == 3);
    CHECK(says(laid.plot, "2 fitted, 1 there, 1 missing"));
    CHECK_FALSE(says(laid.plot, chart.rows[1].name));
    for (const char* said : {"fitted", "there", "missing", "0 %", "100 %"})
        CHECK_MESSAGE(says(laid.plot, said), said);
    const auto filled_ones = columns_of(laid);
    REQUIRE(filled_ones.size() == 2); // the sample, and half of the first bar
    const PlotFrame& filled = filled_ones[1];
    CHECK(filled.left == laid.plot.frame.left);
    CHECK(filled.right - filled.left ==
          doctest::Approx((laid.plot.frame.right - laid.plot.frame.left) / 2).epsilon(0.01));
    check_on_sheet(laid, 600);
    const std::string svg = chart_svg(chart);
    CHECK(svg.find("<rect ") != std::string::npos);
    CHECK(svg.find("2 fitted") != std::string::npos);
}

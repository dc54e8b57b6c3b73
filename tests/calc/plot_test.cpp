// Charts laid out: what is drawn stays on the sheet, scales are round and true in both systems.
#include "calc/plot.h"
#include "calc/plot_scale.h"
#include "calc/plot_svg.h"

#include <doctest/doctest.h>

#include <random>

using namespace fettle::calc;

namespace {

PlotSheet sheet(double width = 500, double height = 320) {
    return {width, height, 13, [](std::string_view text) { return 7.0 * double(text.size()); }};
}

AnsweredChart load_chart() {
    AnsweredChart chart{{"load",
                         "Load against deflection",
                         false,
                         {"Deflection", "length", "mm", "in"},
                         {"Load", "force", "N", "lbf"}},
                        {},
                        {}};
    chart.series.push_back({"loading", Look::line, {{0, 0}, {0.05, 2000}, {0.1, 4448.2216152605}}});
    chart.series.push_back({"unloading", Look::line, {{0.1, 4448.2216152605}, {0, 0}}});
    return chart;
}

const PlotText* text_of(const Plot& plot, std::string_view said) {
    for (const PlotText& text : plot.texts)
        if (text.text == said) return &text;
    return nullptr;
}

} // namespace

TEST_CASE("steps of a scale are 1, 2 or 5 of a power of ten, and never smaller than asked") {
    CHECK(round_step(0.03) == doctest::Approx(0.05));
    CHECK(round_step(1) == doctest::Approx(1));
    CHECK(round_step(1.01) == doctest::Approx(2));
    CHECK(round_step(700) == doctest::Approx(1000));
}

TEST_CASE("a scale holds all values, starts at nothing where nothing is near, and counts whole") {
    const Stretch near = stretch_over({1, 10}, "length");
    CHECK(near.least == 0);
    CHECK(near.greatest > 10);
    const Stretch far = stretch_over({9, 10}, "length");
    CHECK(far.least < 9);
    CHECK(far.least > 8.9);
    CHECK(stretch_over({5, 5}, "length").size() > 0);
    CHECK(stretch_over({}, "length").size() > 0);
    for (const Tick& tick : ticks({0.75, 4.25}, "count", "", 20))
        CHECK(tick.text.find('.') == std::string::npos);
}

TEST_CASE("figures on both scales stand where their value is: an inch is 25.4 mm") {
    const LaidOut laid = lay_out(load_chart(), sheet());
    const PlotText* mm = text_of(laid.plot, "100");
    const PlotText* in = text_of(laid.plot, "4");
    REQUIRE(mm != nullptr);
    REQUIRE(in != nullptr);
    const double per_mm = (mm->at.x - laid.plot.frame.left) / 100;
    CHECK(in->at.x - laid.plot.frame.left == doctest::Approx(4 * 25.4 * per_mm).epsilon(0.01));
    // 1000 lbf are 4448.2216152605 N by definition: the last point lies at that height.
    const PlotText* lbf = text_of(laid.plot, "1000");
    REQUIRE(lbf != nullptr);
    bool at_height = false;
    for (const PlotText& text : laid.plot.texts)
        at_height |=
            text.text == "1000" && std::fabs(text.at.y - laid.plot.places[0].back().y) < 0.01;
    CHECK(at_height);
}

TEST_CASE("things side by side have no scale along their row") {
    AnsweredChart chart = load_chart();
    REQUIRE(text_of(lay_out(chart, sheet()).plot, "100") != nullptr);
    chart.chart.x = {"", "number", "", ""};
    chart.series = {{"hole", Look::body, {{0.5, 0}, {1.5, 0}, {1.5, 400}}}};
    const LaidOut laid = lay_out(chart, sheet());
    for (const PlotText& text : laid.plot.texts)
        CHECK(text.at.y < laid.plot.frame.bottom + 1); // nothing stands below the field
}

TEST_CASE("every named line carries the number that the list of names gives it") {
    const LaidOut laid = lay_out(load_chart(), sheet());
    CHECK(text_of(laid.plot, "1  loading") != nullptr);
    CHECK(text_of(laid.plot, "2  unloading") != nullptr);
    CHECK(text_of(laid.plot, "1") != nullptr);
    CHECK(text_of(laid.plot, "2") != nullptr);
}

TEST_CASE("whatever the figures, what is drawn stays on the sheet") {
    std::mt19937 random(20261125);
    std::uniform_real_distribution<double> power(-6, 6), unit(-1, 1);
    for (int round = 0; round < 300; ++round) {
        AnsweredChart chart = load_chart();
        chart.chart.to_scale = round % 3 == 0;
        if (chart.chart.to_scale) chart.chart.y = chart.chart.x;
        chart.series.clear();
        const double size = std::pow(10, power(random));
        for (int s = 0; s < 3; ++s) {
            ChartSeries series{
                s == 0 ? "" : "a series with a long name of its own", Look::line, {}};
            for (int i = 0; i < round % 7; ++i)
                series.points.push_back({size * unit(random), size * unit(random)});
            chart.series.push_back(series);
        }
        const LaidOut laid = lay_out(chart, sheet(round % 2 == 0 ? 320 : 640));
        for (const PlotStroke& stroke : laid.plot.strokes)
            for (const PlotPoint& at : stroke.points) {
                CHECK(std::isfinite(at.x));
                CHECK(at.x >= -0.5);
                CHECK(at.x <= 640.5);
                CHECK(at.y >= -0.5);
                CHECK(at.y <= laid.height + 0.5);
            }
    }
}

TEST_CASE("labels that would stand on one another are moved apart") {
    AnsweredChart chart = load_chart();
    for (int i = 0; i < 5; ++i)
        chart.labels.push_back({{0.05, 2000}, "a label"});
    const LaidOut laid = lay_out(chart, sheet());
    std::vector<double> heights;
    for (const PlotText& text : laid.plot.texts)
        if (text.text == "a label") heights.push_back(text.at.y);
    REQUIRE(heights.size() == 5);
    std::ranges::sort(heights);
    for (std::size_t i = 1; i < heights.size(); ++i)
        CHECK(heights[i] - heights[i - 1] >= 12.9);
}

TEST_CASE("an SVG picture of a chart escapes what a plugin wrote") {
    AnsweredChart chart = load_chart();
    chart.chart.label = "a < b & c";
    const std::string svg = chart_svg(chart);
    CHECK(svg.find("a &lt; b &amp; c") != std::string::npos);
    CHECK(svg.find("a < b") == std::string::npos);
    CHECK(svg.starts_with("<svg"));
    CHECK(svg.ends_with("</svg>\n"));
}

TEST_CASE("the point under the pointer is told in both systems") {
    CHECK(words_of_point(load_chart().chart, {0.0254, 4448.2216152605}) ==
          "Load 4450 N (1000 lbf) at Deflection 25.4 mm (1.00 in)");
}

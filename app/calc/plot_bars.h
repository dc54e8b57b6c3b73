// Columns of figures by month, and bars of shares, laid out like any chart (calc/plot.h): the
// window, the SVG writer and the build book draw what stands here. Patterns tell the shares apart,
// not colours alone. Any thread.
#pragma once

#include "calc/plot.h"

#include <array>
#include <chrono>
#include <string>
#include <variant>
#include <vector>

namespace fettle::calc {

struct MonthChart {
    std::string label; // "Hours by month"
    std::string axis;  // of the scale upwards: "hours", "GBP"
    std::chrono::year_month first{};
    std::vector<double> values; // of the first month and those that follow it
    int series = 0;             // its colour, or kFrame
};

struct ShareRow {
    std::string name;
    std::array<int, 3> shares{};
    std::string words; // where there is room for them: "3 fitted, 2 there, 4 missing"
};
struct ShareChart {
    std::string label;
    std::array<std::string, 3> names; // filled, hatched and open
    std::vector<ShareRow> rows;
};

// Whatever stands as a drawing in a book.
using Drawn = std::variant<AnsweredChart, MonthChart, ShareChart>;
const std::string& label_of(const Drawn& drawn);
LaidOut lay_out(const Drawn& drawn, const PlotSheet& sheet);

// Edges of columns and frames lie on whole units. Plot::fields has the room of each month, from
// the top of the frame to its bottom, or of each row.
LaidOut lay_out_months(const MonthChart& chart, const PlotSheet& sheet);
// Each row takes the same height, whatever that of the sheet is.
LaidOut lay_out_shares(const ShareChart& chart, const PlotSheet& sheet);

} // namespace fettle::calc

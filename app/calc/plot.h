// A chart of an answer laid out on a sheet of so many units across: strokes and texts in place,
// scales with round figures in metric below and left, in inches above and right. The window, the
// SVG writer and the build book draw what stands here and decide nothing.
//
// Coordinates run to the right and downwards. Any thread.
#pragma once

#include "calc/answer.h"

#include <functional>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace fettle::calc {

struct PlotPoint {
    double x = 0, y = 0;
};

inline constexpr int kFrame = -1; // instead of a series: frame, ticks, scale bar
inline constexpr int kGrid = -2;  // the faint lines behind

struct PlotStroke {
    std::vector<PlotPoint> points;
    Look look = Look::line;
    int series = kFrame; // index of the series it belongs to, for its colour
};

enum class Align { left, centre, right };

struct PlotText {
    PlotPoint at; // middle of the line's height; left end, centre or right end of its length
    std::string text;
    Align align = Align::left;
    int series = kFrame;
};

struct PlotSheet {
    double width = 0;
    double height = 0; // of the field the figures are drawn in; names and scales come on top
    double text_height = 0;
    std::function<double(std::string_view)> text_width;
};

struct PlotFrame { // the field the figures are drawn in
    double left = 0, top = 0, right = 0, bottom = 0;
};

struct PlotFill { // a rectangle of one colour
    PlotFrame area;
    int series = kFrame;
};

struct Plot {
    PlotFrame frame;
    std::vector<PlotFill> fills; // below the strokes
    std::vector<PlotStroke> strokes;
    std::vector<PlotText> texts;
    std::vector<std::vector<PlotPoint>> places; // of each series' points, in their order
    std::vector<PlotFrame> fields;              // of columns and rows that can be pointed at
};

struct LaidOut {
    Plot plot;
    double height = 0; // all that was taken, names and scales included
};
LaidOut lay_out(const AnsweredChart& chart, const PlotSheet& sheet);

// "Load 450 N (101 lbf) at Deflection 12.3 mm (0.484 in)", for the point under the pointer.
std::string words_of_point(const Chart& chart, const ChartPoint& point);

} // namespace fettle::calc

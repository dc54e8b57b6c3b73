#include "calc/plot.h"

#include "base/quantity.h"
#include "calc/plot_scale.h"
#include "calc/short_quantity.h"

#include <algorithm>
#include <cmath>

namespace fettle::calc {
namespace {

constexpr double kTick = 5;                      // length of a tick
constexpr double kBetween = 6;                   // between things that stand beside each other
constexpr double kTickRoom = 64, kTickRise = 34; // room a figure of a scale needs, across and up

struct Projection {
    Stretch x, y;
    PlotFrame frame;
    PlotPoint operator()(const ChartPoint& at) const {
        return {frame.left + (at.x - x.least) / x.size() * (frame.right - frame.left),
                frame.bottom - (at.y - y.least) / y.size() * (frame.bottom - frame.top)};
    }
};

std::string titled(const Axis& axis, std::string_view unit) {
    std::string said = unit_label(axis.quantity, unit);
    if (axis.label.empty()) return said;
    return said.empty() ? axis.label : axis.label + ", " + said;
}

// Values of one direction over all that is drawn.
std::vector<double> values_along(const AnsweredChart& chart, double ChartPoint::*along) {
    std::vector<double> values;
    for (const ChartSeries& series : chart.series)
        for (const ChartPoint& point : series.points)
            values.push_back(point.*along);
    for (const ChartLabel& label : chart.labels)
        values.push_back(label.at.*along);
    return values;
}

int named_series(const AnsweredChart& chart) {
    return static_cast<int>(
        std::ranges::count_if(chart.series, [](const auto& one) { return !one.name.empty(); }));
}

class Layout {
  public:
    Layout(const AnsweredChart& chart, const PlotSheet& sheet) : chart_(chart), sheet_(sheet) {}

    LaidOut measured();
    LaidOut to_scale();

  private:
    double wide(std::string_view text) const { return sheet_.text_width(text); }
    void write(PlotPoint at, std::string text, Align align, int series = kFrame) {
        plot_.texts.push_back({at, std::move(text), align, series});
    }
    void stroke(std::vector<PlotPoint> points, int series = kFrame, Look look = Look::line) {
        plot_.strokes.push_back({std::move(points), look, series});
    }
    double legend(double top);
    void frame_for_scales(double top);
    void scale_across(const Axis& axis, const Stretch& stretch, bool inch);
    void scale_upwards(const Axis& axis, const Stretch& stretch, bool inch);
    double widest_figure(std::string_view unit) const;
    void figures(const Projection& project);
    void number_line(int number, int series);
    void set_apart(PlotText text);
    void labels(const Projection& project);
    void scale_bar(double units_for_metre);

    const AnsweredChart& chart_;
    const PlotSheet& sheet_;
    Stretch x_, y_;
    Plot plot_;
    std::vector<PlotText> apart_;
};

// Names in rows, each line's with the number that stands at its end. Answers where the next thing
// may begin.
double Layout::legend(double top) {
    if (named_series(chart_) == 0) return top;
    const double line = sheet_.text_height, sample = line * 1.4;
    double x = 0, y = top + line / 2;
    int number = 0;
    for (std::size_t at = 0; at < chart_.series.size(); ++at) {
        const ChartSeries& series = chart_.series[at];
        if (series.name.empty()) continue;
        const std::string said = std::to_string(++number) + "  " + series.name;
        const double takes = sample + kBetween + wide(said);
        if (x > 0 && x + takes > sheet_.width) {
            x = 0;
            y += line * 1.3;
        }
        const int index = static_cast<int>(at);
        if (series.look == Look::dots)
            stroke({{x + sample / 2, y}}, index, Look::dots);
        else
            stroke({{x, y}, {x + sample, y}}, index,
                   series.look == Look::dashed ? Look::dashed : Look::line);
        write({x + sample + kBetween, y}, said, Align::left, index);
        x += takes + 2.5 * kBetween;
    }
    return y + line;
}

double Layout::widest_figure(std::string_view unit) const {
    double widest = 0;
    if (unit.empty() && chart_.chart.y.quantity != "number" && chart_.chart.y.quantity != "count" &&
        chart_.chart.y.quantity != "ratio")
        return 0;
    for (const Tick& tick : ticks(y_, chart_.chart.y.quantity, unit, 8))
        widest = std::max(widest, wide(tick.text));
    return widest;
}

void Layout::frame_for_scales(double top) {
    const double line = sheet_.text_height;
    PlotFrame& frame = plot_.frame;
    frame.top = top + line + kBetween; // the titles of the scales upwards
    if (!chart_.chart.x.inch.empty()) frame.top += line + kTick;
    frame.bottom = frame.top + sheet_.height;
    frame.left = widest_figure(chart_.chart.y.unit) + kTick + kBetween;
    frame.right = sheet_.width - kBetween;
    if (!chart_.chart.y.inch.empty()) frame.right -= widest_figure(chart_.chart.y.inch) + kTick;
}

void Layout::scale_across(const Axis& axis, const Stretch& stretch, bool inch) {
    if (axis.label.empty() && axis.quantity == "number") return; // things side by side, no measure
    const PlotFrame& frame = plot_.frame;
    const double line = sheet_.text_height;
    const std::string& unit = inch ? axis.inch : axis.unit;
    const int most = static_cast<int>((frame.right - frame.left) / kTickRoom);
    const double y = inch ? frame.top : frame.bottom, out = inch ? -1 : 1;
    for (const Tick& tick : ticks(stretch, axis.quantity, unit, most)) {
        const double x =
            frame.left + (tick.si - stretch.least) / stretch.size() * (frame.right - frame.left);
        if (!inch) stroke({{x, frame.top}, {x, frame.bottom}}, kGrid);
        stroke({{x, y}, {x, y + out * kTick}});
        write({x, y + out * (kTick + line * 0.55)}, tick.text, Align::centre);
    }
    if (!inch)
        write({frame.right, frame.bottom + kTick + line * 1.7}, titled(axis, unit), Align::right);
    else
        write({(frame.left + frame.right) / 2, frame.top - kTick - line * 1.5 - kBetween / 2},
              unit_label(axis.quantity, unit), Align::centre);
}

void Layout::scale_upwards(const Axis& axis, const Stretch& stretch, bool inch) {
    const PlotFrame& frame = plot_.frame;
    const std::string& unit = inch ? axis.inch : axis.unit;
    const int most = static_cast<int>((frame.bottom - frame.top) / kTickRise);
    const double x = inch ? frame.right : frame.left, out = inch ? 1 : -1;
    for (const Tick& tick : ticks(stretch, axis.quantity, unit, most)) {
        const double y =
            frame.bottom - (tick.si - stretch.least) / stretch.size() * (frame.bottom - frame.top);
        if (!inch) stroke({{frame.left, y}, {frame.right, y}}, kGrid);
        stroke({{x, y}, {x + out * kTick, y}});
        write({x + out * (kTick + 3), y}, tick.text, inch ? Align::left : Align::right);
    }
    const double above = chart_.chart.x.inch.empty() ? 0 : sheet_.text_height + kTick;
    const double y = frame.top - above - sheet_.text_height * 0.6;
    if (inch)
        write({sheet_.width, y}, unit_label(axis.quantity, unit), Align::right);
    else
        write({0, y}, titled(axis, unit), Align::left);
}

// The number of a named line, at its end, so that colour is not all that tells it.
void Layout::number_line(int number, int series) {
    const auto& places = plot_.places[static_cast<std::size_t>(series)];
    if (places.empty()) return;
    const PlotPoint end = places.back();
    const bool at_edge = end.x + kBetween + wide("9") > plot_.frame.right;
    set_apart({{end.x + (at_edge ? -kBetween : kBetween), end.y - sheet_.text_height * 0.6},
               std::to_string(number),
               at_edge ? Align::right : Align::left,
               series});
}

void Layout::figures(const Projection& project) {
    int number = 0;
    for (std::size_t at = 0; at < chart_.series.size(); ++at) {
        const ChartSeries& series = chart_.series[at];
        auto& places = plot_.places.emplace_back();
        for (const ChartPoint& point : series.points)
            places.push_back(project(point));
        const int index = static_cast<int>(at);
        stroke(places, index, series.look);
        if (!series.name.empty()) number_line(++number, index);
    }
}

// Text that must not stand on another: it goes down until it has a place.
void Layout::set_apart(PlotText text) {
    const auto begin = [&](const PlotText& one) {
        return one.align == Align::right ? one.at.x - wide(one.text) : one.at.x;
    };
    const double line = sheet_.text_height;
    for (bool moved = true; moved;) {
        moved = false;
        for (const PlotText& other : apart_) {
            const bool beside = begin(text) > begin(other) + wide(other.text) ||
                                begin(other) > begin(text) + wide(text.text);
            if (beside || std::fabs(other.at.y - text.at.y) > 0.99 * line) continue;
            text.at.y = other.at.y + line;
            moved = true;
        }
    }
    apart_.push_back(text);
    plot_.texts.push_back(std::move(text));
}

// Above its point and beside it, within the field.
void Layout::labels(const Projection& project) {
    for (const ChartLabel& label : chart_.labels) {
        PlotPoint at = project(label.at);
        const double length = wide(label.text);
        const double edge = chart_.chart.to_scale ? sheet_.width : plot_.frame.right;
        const bool left = at.x + kBetween + length > edge;
        at.x += left ? -kBetween : kBetween;
        at.y -= sheet_.text_height * 0.7;
        if (left) at.x = std::max(at.x, std::min(edge, plot_.frame.left + length));
        set_apart({at, label.text, left ? Align::right : Align::left, kFrame});
    }
}

LaidOut Layout::measured() {
    x_ = stretch_over(values_along(chart_, &ChartPoint::x), chart_.chart.x.quantity);
    y_ = stretch_over(values_along(chart_, &ChartPoint::y), chart_.chart.y.quantity);
    const double below_legend = legend(0);
    frame_for_scales(below_legend);
    const PlotFrame& frame = plot_.frame;
    scale_across(chart_.chart.x, x_, false);
    scale_upwards(chart_.chart.y, y_, false);
    if (!chart_.chart.x.inch.empty()) scale_across(chart_.chart.x, x_, true);
    if (!chart_.chart.y.inch.empty()) scale_upwards(chart_.chart.y, y_, true);
    stroke({{frame.left, frame.top},
            {frame.right, frame.top},
            {frame.right, frame.bottom},
            {frame.left, frame.bottom},
            {frame.left, frame.top}});
    const Projection project{x_, y_, frame};
    figures(project);
    labels(project);
    return {std::move(plot_), frame.bottom + kTick + 2.4 * sheet_.text_height};
}

// A length in round figures below the drawing, in both systems.
void Layout::scale_bar(double units_for_metre) {
    const Axis& axis = chart_.chart.x;
    const auto unit = from_unit(1.0, axis.quantity, axis.unit);
    if (!unit) return;
    const double target = (plot_.frame.right - plot_.frame.left) / 6 / units_for_metre / *unit;
    const double length = round_step(target) * *unit;
    const double y = plot_.frame.bottom + sheet_.text_height * 1.4;
    const double end = plot_.frame.left + length * units_for_metre;
    stroke({{plot_.frame.left, y - kTick}, {plot_.frame.left, y}, {end, y}, {end, y - kTick}});
    std::string said = short_quantity(length, axis.quantity, axis.unit);
    if (!axis.inch.empty()) said += "  " + format_quantity(length, axis.quantity, axis.inch, 3);
    write({end + kBetween, y - kTick / 2}, said, Align::left);
}

LaidOut Layout::to_scale() {
    const auto over = [&](double ChartPoint::*along) {
        const auto values = values_along(chart_, along);
        if (values.empty()) return Stretch{};
        const auto [low, high] = std::ranges::minmax(values);
        return Stretch{low, high > low ? high : low + 1e-3};
    };
    x_ = over(&ChartPoint::x);
    y_ = over(&ChartPoint::y);
    PlotFrame& frame = plot_.frame;
    const double line = sheet_.text_height;
    const double top = legend(0) + line;
    double label_room = 0;
    for (const ChartLabel& label : chart_.labels)
        label_room = std::max(label_room, wide(label.text) + 2 * kBetween);
    label_room = std::min(label_room, sheet_.width / 3);
    const double scale =
        std::min((sheet_.width - label_room) / x_.size(), sheet_.height / y_.size());
    frame = {0, top, x_.size() * scale, top + y_.size() * scale};
    const Projection project{x_, y_, frame};
    figures(project);
    labels(project);
    double bottom = frame.bottom;
    for (const PlotText& text : plot_.texts)
        bottom = std::max(bottom, text.at.y + line / 2);
    frame.bottom = bottom;
    scale_bar(scale);
    return {std::move(plot_), bottom + 2 * line};
}

std::string both_systems(double si, const Axis& axis) {
    std::string metric = format_quantity(si, axis.quantity, axis.unit, 3);
    if (axis.inch.empty()) return metric;
    return metric + " (" + format_quantity(si, axis.quantity, axis.inch, 3) + ")";
}

} // namespace

LaidOut lay_out(const AnsweredChart& chart, const PlotSheet& sheet) {
    Layout layout(chart, sheet);
    return chart.chart.to_scale ? layout.to_scale() : layout.measured();
}

std::string words_of_point(const Chart& chart, const ChartPoint& point) {
    return chart.y.label + " " + both_systems(point.y, chart.y) + " at " + chart.x.label + " " +
           both_systems(point.x, chart.x);
}

} // namespace fettle::calc

#include "calc/plot_bars.h"

#include "calc/plot_scale.h"

#include <algorithm>
#include <cmath>

namespace fettle::calc {
namespace {

constexpr double kTick = 5, kBetween = 6; // as in other charts
constexpr double kTickRise = 34;          // room a figure of the scale needs upwards
constexpr double kWidestMonth = 5;        // lines of text: few months need not fill a wide sheet
constexpr double kRow = 2;                // lines of text to a row of shares
constexpr double kNames = 0.26, kBars = 0.38; // of the width: names, and what bars take
constexpr double kHatch = 6;                  // between its lines
constexpr int kFitted = 1, kThere = 3;        // series, for their colour

const std::array<std::string, 12> kMonths = {"Jan", "Feb", "Mar", "Apr", "May", "Jun",
                                             "Jul", "Aug", "Sep", "Oct", "Nov", "Dec"};

using Measured = std::function<double(std::string_view)>;

// Cut with … at a letter's begin where it is wider than there is room.
std::string cut(std::string text, double room, const Measured& wide) {
    if (wide(text) <= room) return text;
    while (!text.empty() && wide(text + "…") > room) {
        while (text.size() > 1 && (static_cast<unsigned char>(text.back()) & 0xC0) == 0x80)
            text.pop_back();
        text.pop_back();
    }
    return text + "…";
}

class Bars {
  public:
    explicit Bars(const PlotSheet& sheet) : sheet_(sheet), line_(sheet.text_height) {}

    LaidOut months(const MonthChart& chart);
    LaidOut shares(const ShareChart& chart);

  private:
    double wide(std::string_view text) const { return sheet_.text_width(text); }
    void write(PlotPoint at, std::string text, Align align = Align::left) {
        plot_.texts.push_back({at, std::move(text), align, kFrame});
    }
    // Through the middle of a unit, so that a line of one unit fills it.
    void across(double left, double right, double y, int series) {
        if (series == kGrid) { // below the columns
            plot_.fills.push_back({{left, y, right, y + 1}, kGrid});
            return;
        }
        plot_.strokes.push_back({{{left, y + 0.5}, {right, y + 0.5}}, Look::line, series});
    }
    void upwards(double x, double top, double bottom, int series) {
        if (series == kGrid) {
            plot_.fills.push_back({{x, top, x + 1, bottom}, kGrid});
            return;
        }
        plot_.strokes.push_back({{{x + 0.5, top}, {x + 0.5, bottom}}, Look::line, series});
    }
    void outline(const PlotFrame& area, int series) {
        const double left = area.left + 0.5, top = area.top + 0.5;
        const double right = area.right - 0.5, bottom = area.bottom - 0.5;
        plot_.strokes.push_back(
            {{{left, top}, {right, top}, {right, bottom}, {left, bottom}}, Look::body, series});
    }
    void hatch(const PlotFrame& area, int series);
    void part(const PlotFrame& area, std::size_t which);
    void scale(const MonthChart& chart, const Stretch& stretch);
    void month_names(const MonthChart& chart);
    void share_names(const ShareChart& chart);
    void share_row(const ShareRow& row, const PlotFrame& area);
    double edge(std::size_t at, std::size_t count) const {
        const PlotFrame& frame = plot_.frame;
        return std::round(frame.left + (frame.right - frame.left) * double(at) / double(count));
    }

    const PlotSheet& sheet_;
    double line_;
    Plot plot_;
};

// Lines that rise to the right, all over the area and no further.
void Bars::hatch(const PlotFrame& area, int series) {
    const double tall = area.bottom - area.top;
    for (double foot = area.left - tall + kHatch; foot < area.right; foot += kHatch) {
        const double low = std::max(0.0, area.left - foot);
        const double high = std::min(tall, area.right - foot);
        if (high <= low) continue;
        plot_.strokes.push_back(
            {{{foot + low, area.bottom - low}, {foot + high, area.bottom - high}},
             Look::body,
             series});
    }
}

void Bars::part(const PlotFrame& area, std::size_t which) {
    if (area.right <= area.left) return;
    if (which == 0) {
        plot_.fills.push_back({area, kFitted});
        return;
    }
    if (which == 1) hatch(area, kThere);
    outline(area, which == 1 ? kThere : kFrame);
}

void Bars::scale(const MonthChart& chart, const Stretch& stretch) {
    const PlotFrame& frame = plot_.frame;
    const int most = static_cast<int>((frame.bottom - frame.top) / kTickRise);
    for (const Tick& tick : ticks(stretch, "number", "", most)) {
        const double y = std::round(frame.bottom - (tick.si - stretch.least) / stretch.size() *
                                                       (frame.bottom - frame.top));
        across(frame.left, frame.right, y, kGrid);
        across(frame.left - kTick, frame.left, y, kFrame);
        write({frame.left - kTick - 3, y + 0.5}, tick.text, Align::right);
    }
    write({0, line_ / 2}, chart.axis);
}

// As many months as there is room for, counted from January; a year below its first month shown.
void Bars::month_names(const MonthChart& chart) {
    const PlotFrame& frame = plot_.frame;
    const std::size_t count = chart.values.size();
    const double slot = (frame.right - frame.left) / double(count);
    const double name = wide("Mar") + 2 * kBetween, year_name = wide("2000") + 2 * kBetween;
    int step = 1;
    for (const int wider : {2, 3, 6, 12, 24, 60, 120})
        if (step * slot < (step < 12 ? name : year_name)) step = wider;
    double free_from = 0;
    auto month = chart.first;
    for (std::size_t at = 0; at < count; ++at, month += std::chrono::months(1)) {
        const int year = int(month.year()), number = int(unsigned(month.month())) - 1;
        const bool begins = at == 0 || number == 0;
        // The first month says its year, unless that would stand on the next one's.
        const bool apart = (12 - number) * slot >= year_name;
        if (at == 0 && number != 0 && (!apart || step >= 12)) continue;
        if (at != 0 && (year * 12 + number) % step != 0) continue;
        const double middle = (edge(at, count) + edge(at + 1, count)) / 2;
        upwards(std::floor(middle), frame.bottom, frame.bottom + kTick, kFrame);
        const double y = frame.bottom + kTick + line_ * 0.6;
        if (step < 12 && middle - wide("Mar") / 2 >= free_from) {
            write({middle, y}, kMonths[std::size_t(number)], Align::centre);
            free_from = middle + wide("Mar") / 2 + kBetween;
        }
        if (begins || step >= 12)
            write({middle, step < 12 ? y + line_ * 1.1 : y}, std::to_string(year), Align::centre);
    }
}

LaidOut Bars::months(const MonthChart& chart) {
    double most = 0, least = 0;
    for (const double value : chart.values) {
        most = std::max(most, value);
        least = std::min(least, value);
    }
    if (most == least) most = 1;
    const Stretch stretch{least, most + (most - least) * 0.05};
    double figures = 0;
    for (const Tick& tick : ticks(stretch, "number", "", 8))
        figures = std::max(figures, wide(tick.text));
    PlotFrame& frame = plot_.frame;
    frame.left = std::ceil(figures + kTick + kBetween);
    frame.top = std::ceil(line_ + kBetween);
    frame.right = std::floor(std::min(
        sheet_.width - kBetween, frame.left + double(chart.values.size()) * kWidestMonth * line_));
    frame.bottom = std::round(frame.top + sheet_.height);
    scale(chart, stretch);
    const auto height_of = [&](double value) {
        return std::round(frame.bottom -
                          (value - stretch.least) / stretch.size() * (frame.bottom - frame.top));
    };
    const double ground = height_of(0);
    for (std::size_t at = 0; at < chart.values.size(); ++at) {
        const double left = edge(at, chart.values.size()),
                     right = edge(at + 1, chart.values.size());
        plot_.fields.push_back({left, frame.top, right, frame.bottom});
        const double value = chart.values[at], y = height_of(value);
        if (value == 0) continue;
        const double space = std::floor((right - left) / 5);
        // Whatever little there is stays to be seen.
        plot_.fills.push_back({{left + space, value > 0 ? std::min(y, ground - 1) : ground,
                                std::max(right - space, left + space + 1),
                                value > 0 ? ground : std::max(y, ground + 1)},
                               chart.series});
    }
    across(frame.left, frame.right, ground, kFrame);
    upwards(frame.left, frame.top, frame.bottom, kFrame);
    month_names(chart);
    return {std::move(plot_), frame.bottom + kTick + 2.4 * line_};
}

void Bars::share_names(const ShareChart& chart) {
    double x = 0;
    const double tall = std::round(line_ * 0.9), top = 1;
    for (std::size_t which = 0; which < chart.names.size(); ++which) {
        const double right = x + std::round(line_ * 2);
        part({x, top, right, top + tall}, which);
        write({right + kBetween, top + tall / 2}, chart.names[which]);
        x = std::ceil(right + kBetween + wide(chart.names[which]) + 3 * kBetween);
    }
}

void Bars::share_row(const ShareRow& row, const PlotFrame& area) {
    const double middle = std::round((area.top + area.bottom) / 2), half = std::round(line_ / 2);
    const PlotFrame& frame = plot_.frame;
    write({0, middle}, cut(row.name, frame.left - 2 * kBetween, sheet_.text_width));
    int all = 0, so_far = 0;
    for (const int share : row.shares)
        all += share;
    double left = frame.left;
    for (std::size_t which = 0; which < row.shares.size(); ++which) {
        so_far += row.shares[which];
        const double right =
            std::round(frame.left + (frame.right - frame.left) * so_far / std::max(all, 1));
        part({left, middle - half, right, middle + half}, which);
        left = right;
    }
    const double said = frame.right + 2 * kBetween;
    write({said, middle}, cut(row.words, sheet_.width - said, sheet_.text_width));
}

LaidOut Bars::shares(const ShareChart& chart) {
    const double row = std::round(line_ * kRow);
    PlotFrame& frame = plot_.frame;
    frame.left = std::round(sheet_.width * kNames);
    frame.right = std::round(frame.left + sheet_.width * kBars);
    frame.top = std::ceil(line_ * 1.8);
    frame.bottom = frame.top + row * double(chart.rows.size());
    share_names(chart);
    for (const Tick& tick : ticks({0, 100}, "number", "", frame.right - frame.left > 300 ? 5 : 2)) {
        const double x = std::round(frame.left + (frame.right - frame.left) * tick.si / 100);
        upwards(x, frame.top, frame.bottom, kGrid);
        upwards(x, frame.bottom, frame.bottom + kTick, kFrame);
        write({x + 0.5, frame.bottom + kTick + line_ * 0.6}, tick.text + " %", Align::centre);
    }
    for (std::size_t at = 0; at < chart.rows.size(); ++at) {
        const double top = frame.top + row * double(at);
        plot_.fields.push_back({0, top, sheet_.width, top + row});
        share_row(chart.rows[at], plot_.fields.back());
    }
    across(frame.left, frame.right, frame.bottom, kFrame);
    return {std::move(plot_), frame.bottom + kTick + 1.5 * line_};
}

} // namespace

LaidOut lay_out_months(const MonthChart& chart, const PlotSheet& sheet) {
    return Bars(sheet).months(chart);
}

LaidOut lay_out_shares(const ShareChart& chart, const PlotSheet& sheet) {
    return Bars(sheet).shares(chart);
}

const std::string& label_of(const Drawn& drawn) {
    if (const auto* chart = std::get_if<AnsweredChart>(&drawn)) return chart->chart.label;
    if (const auto* chart = std::get_if<MonthChart>(&drawn)) return chart->label;
    return std::get<ShareChart>(drawn).label;
}

LaidOut lay_out(const Drawn& drawn, const PlotSheet& sheet) {
    if (const auto* chart = std::get_if<AnsweredChart>(&drawn)) return lay_out(*chart, sheet);
    if (const auto* chart = std::get_if<MonthChart>(&drawn)) return lay_out_months(*chart, sheet);
    return lay_out_shares(std::get<ShareChart>(drawn), sheet);
}

} // namespace fettle::calc

#include "ui/worked/chart_view.h"

#include "ui/frame/scripts.h"

#include <imgui.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <optional>

namespace fettle::ui {
namespace {

constexpr float kWidest = 640;
constexpr float kLowest = 170, kTallest = 280, kShape = 0.5F; // of the field, height over width
constexpr float kNear = 24;                                   // how far the pointer reaches

constexpr std::array kSeriesRoles = {Role::red_lead, Role::verdigris, Role::blue_steel,
                                     Role::brass};

class Painter {
  public:
    Painter(const Page& page, ImVec2 origin)
        : page_(page), origin_(origin), list_(*ImGui::GetWindowDrawList()) {}

    void fill(const calc::PlotFill& fill);
    void stroke(const calc::PlotStroke& stroke);
    void text(const calc::PlotText& text);
    ImVec2 at(const calc::PlotPoint& point) const {
        return {origin_.x + static_cast<float>(point.x), origin_.y + static_cast<float>(point.y)};
    }

  private:
    unsigned tone(int series) const {
        if (series == calc::kGrid) return ImGui::GetColorU32(page_.tone(Role::rule, 0.55F));
        if (series == calc::kFrame) return ImGui::GetColorU32(page_.tone(Role::pencil));
        const Role role = kSeriesRoles[static_cast<std::size_t>(series) % kSeriesRoles.size()];
        return ImGui::GetColorU32(page_.tone(role));
    }
    void dashes(const std::vector<ImVec2>& points, unsigned tone);

    const Page& page_;
    ImVec2 origin_;
    ImDrawList& list_;
};

// Dashes of one length over all corners of the line.
void Painter::dashes(const std::vector<ImVec2>& points, unsigned tone) {
    const float dash = page_.px(6), space = page_.px(4);
    float along = 0;
    for (std::size_t i = 0; i + 1 < points.size(); ++i) {
        const ImVec2 from = points[i], to = points[i + 1];
        const float length = std::hypot(to.x - from.x, to.y - from.y);
        for (float begin = -std::fmod(along, dash + space); begin < length; begin += dash + space) {
            const float a = std::max(begin, 0.0F) / length;
            const float b = std::min(begin + dash, length) / length;
            if (b <= 0) continue;
            list_.AddLine({from.x + a * (to.x - from.x), from.y + a * (to.y - from.y)},
                          {from.x + b * (to.x - from.x), from.y + b * (to.y - from.y)}, tone,
                          page_.px(1));
        }
        along += length;
    }
}

void Painter::fill(const calc::PlotFill& fill) {
    const ImVec2 low = at({fill.area.left, fill.area.top});
    const ImVec2 high = at({fill.area.right, fill.area.bottom});
    if (ImGui::IsRectVisible(low, high)) list_.AddRectFilled(low, high, tone(fill.series));
}

void Painter::stroke(const calc::PlotStroke& stroke) {
    std::vector<ImVec2> points;
    for (const calc::PlotPoint& point : stroke.points)
        points.push_back(at(point));
    const bool closes = points.size() > 2 && points.front().x == points.back().x &&
                        points.front().y == points.back().y;
    if (closes) points.pop_back(); // a corner that stands twice would be drawn askew
    const unsigned colour = tone(stroke.series);
    const float thin = page_.px(1), thick = std::max(2.0F, page_.px(2));
    switch (stroke.look) {
    case calc::Look::dots:
        for (const ImVec2& point : points)
            list_.AddCircleFilled(point, page_.px(4), colour);
        break;
    case calc::Look::dashed:
        dashes(points, colour);
        break;
    case calc::Look::body:
        list_.AddPolyline(points.data(), static_cast<int>(points.size()), colour,
                          points.size() > 2 ? ImDrawFlags_Closed : 0, thin);
        break;
    case calc::Look::line:
        list_.AddPolyline(points.data(), static_cast<int>(points.size()), colour,
                          closes ? ImDrawFlags_Closed : 0, stroke.series < 0 ? thin : thick);
        break;
    }
}

void Painter::text(const calc::PlotText& text) {
    const ImVec2 size = ImGui::CalcTextSize(text.text.c_str());
    ImVec2 place = at(text.at);
    if (text.align == calc::Align::centre) place.x -= size.x / 2;
    if (text.align == calc::Align::right) place.x -= size.x;
    const unsigned colour =
        text.series < 0 ? ImGui::GetColorU32(page_.tone(Role::ink)) : tone(text.series);
    list_.AddText({std::round(place.x), std::round(place.y - size.y / 2)}, colour,
                  as_drawn(text.text, Reading::from_left).c_str());
}

// The point of any series nearest to the pointer, as words; nothing when none is near.
std::optional<std::string> words_under_pointer(const Page& page, const calc::AnsweredChart& chart,
                                               const calc::Plot& plot, ImVec2 origin) {
    const ImVec2 pointer = ImGui::GetIO().MousePos;
    float nearest = page.px(kNear);
    std::optional<std::string> said;
    for (std::size_t s = 0; s < plot.places.size(); ++s)
        for (std::size_t p = 0; p < plot.places[s].size(); ++p) {
            const float away =
                std::hypot(origin.x + static_cast<float>(plot.places[s][p].x) - pointer.x,
                           origin.y + static_cast<float>(plot.places[s][p].y) - pointer.y);
            if (away >= nearest) continue;
            nearest = away;
            const calc::ChartSeries& series = chart.series[s];
            said = (series.name.empty() ? "" : series.name + ":  ") +
                   calc::words_of_point(chart.chart, series.points[p]);
        }
    return said;
}

} // namespace

void draw_plot(const Page& page, const calc::Plot& plot, const Corner& corner) {
    Painter painter(page, {corner.x, corner.y});
    for (const calc::PlotFill& fill : plot.fills)
        painter.fill(fill);
    for (const calc::PlotStroke& stroke : plot.strokes)
        painter.stroke(stroke);
    for (const calc::PlotText& text : plot.texts)
        painter.text(text);
}

void chart_view(Page& page, std::string_view key, const calc::AnsweredChart& chart) {
    fine_words(page, chart.chart.label, Role::ink);
    const float wide = std::min(ImGui::GetContentRegionAvail().x, page.px(kWidest));
    std::string said;
    {
        const InFace fine(page, Face::fine);
        const calc::PlotSheet sheet{
            wide, std::clamp(wide * kShape, page.px(kLowest), page.px(kTallest)),
            ImGui::GetFontSize(), [](std::string_view text) {
                return static_cast<double>(
                    ImGui::CalcTextSize(text.data(), text.data() + text.size()).x);
            }};
        const calc::LaidOut laid = calc::lay_out(chart, sheet);
        const ImVec2 origin = ImGui::GetCursorScreenPos();
        ImGui::Dummy(ImVec2(wide, static_cast<float>(laid.height)));
        draw_plot(page, laid.plot, {origin.x, origin.y});
        if (ImGui::IsItemHovered() && !chart.chart.to_scale)
            said = words_under_pointer(page, chart, laid.plot, origin).value_or("");
        note(page, key, chart.chart.label, said);
    }
    if (!chart.chart.to_scale)
        fine_words(page, said.empty() ? "Point at a line to read its figures." : said);
    gap(page);
}

} // namespace fettle::ui

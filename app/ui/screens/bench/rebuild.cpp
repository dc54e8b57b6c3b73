#include "ui/screens/bench/rebuild.h"

#include "notebook/tasks.h"
#include "ui/screens/vehicle_choice.h"
#include "ui/widgets/acts.h"
#include "ui/widgets/flow.h"
#include "ui/widgets/readings.h"
#include "ui/worked/chart_view.h"

#include <imgui.h>

#include <algorithm>
#include <cmath>

namespace fettle::ui {
namespace {

constexpr float kChartHeight = 150;
constexpr float kLeastMonth = 8; // narrower than that they scroll
constexpr float kWidestGroups = 980;
constexpr float kTwoColumns = 1100;

Result<RebuildRead> read_all(const Notebook& book, VehicleId vehicle) {
    auto all = read_rebuild(book, vehicle);
    if (!all) return all.failure();
    RebuildRead read{std::move(*all), {}, {}, {}};
    read.groups = desk::chart_of_groups(read.all.groups);
    read.hours = desk::chart_of_hours(read.all.hours);
    for (const Money& money : read.all.all_spent.amounts())
        read.spent.push_back(desk::chart_of_spent(read.all.spent, money.currency));
    return read;
}

Place to_group(const GroupShares& group) {
    return {"parts", group.first.value, 0, group.vehicle.value, "group"};
}

void told_line(Page& page, std::string_view key, const std::string& told, const char* how) {
    fine_words(
        page, told.empty() ? how : cut_to(page, told, ImGui::GetContentRegionAvail().x, Face::fine),
        told.empty() ? Role::pencil : Role::ink);
    note(page, key, "figures", told);
}

calc::PlotSheet sheet_of(const Page& page, float width) {
    return {std::floor(width), page.px(kChartHeight), ImGui::GetFontSize(),
            [](std::string_view text) {
                return double(ImGui::CalcTextSize(text.data(), text.data() + text.size()).x);
            }};
}

// What group was pointed at in words, and whether one was pressed.
std::string group_rows(Page& page, Context& context, const RebuildRead& read) {
    const InFace fine(page, Face::fine);
    const float wide = std::min(ImGui::GetContentRegionAvail().x, page.px(kWidestGroups));
    const calc::LaidOut laid = calc::lay_out_shares(read.groups, sheet_of(page, wide));
    const ImVec2 origin = ImGui::GetCursorScreenPos();
    draw_plot(page, laid.plot, {origin.x, origin.y});
    std::string told;
    for (std::size_t at = 0; at < read.all.groups.size(); ++at) {
        const GroupShares& group = read.all.groups[at];
        const calc::PlotFrame& row = laid.plot.fields[at];
        ImGui::SetCursorScreenPos({origin.x, origin.y + float(row.top)});
        const std::string words = to_words(group.positions);
        const AreaPress act = area(page, "rebuild.group." + std::to_string(at), group.label, words,
                                   {float(row.right - row.left), float(row.bottom - row.top)});
        if (act.pressed) context.go = to_group(group);
        if (!act.on) continue;
        told = group.label + ": " + words + " of " + std::to_string(group.positions.all()) +
               " positions;  in pieces " + to_words(group.pieces);
    }
    ImGui::SetCursorScreenPos(origin);
    ImGui::Dummy({wide, float(laid.height)});
    return told;
}

void draw_groups(Page& page, Context& context, const RebuildRead& read) {
    gap(page, Measure::kGap);
    words(page, read.groups.label);
    if (read.groups.rows.empty()) {
        body(page,
             "No position yet. With the parts list of the vehicle stands here how much of "
             "each group is fitted, there, or missing.",
             Role::pencil);
        if (button(page, "rebuild.to_positions", "to the positions"))
            context.go = Place{.screen = "parts", .view = "positions"};
        return;
    }
    const std::string told = group_rows(page, context, read);
    told_line(
        page, "rebuild.groups.told", told,
        "Point at a group, or come to it by keys, to read its figures; Enter or a press leads "
        "to its positions.");
}

using MonthWords = std::function<std::string(std::size_t)>;

// The columns themselves, to be scrolled; what stands left of them and above stays where it is.
std::string month_fields(Page& page, const std::string& key, const calc::MonthChart& chart,
                         const calc::LaidOut& laid, const MonthWords& said) {
    const ImVec2 corner = ImGui::GetCursorScreenPos();
    const ImVec2 origin{corner.x - float(laid.plot.frame.left),
                        corner.y - float(laid.plot.frame.top)};
    draw_plot(page, laid.plot, {origin.x, origin.y});
    std::string told;
    CalendarMonth month = chart.first;
    for (std::size_t at = 0; at < chart.values.size(); ++at, month += std::chrono::months(1)) {
        const calc::PlotFrame& field = laid.plot.fields[at];
        ImGui::SetCursorScreenPos({origin.x + float(field.left), origin.y + float(field.top)});
        const AreaPress act =
            area(page, key + "." + to_iso(month), to_words(month), said(at),
                 {float(field.right - field.left), float(field.bottom - field.top)});
        if (act.on) told = to_words(month) + ":  " + said(at);
    }
    ImGui::SetCursorScreenPos(corner);
    ImGui::Dummy({float(laid.plot.frame.right - laid.plot.frame.left) + page.px(Measure::kStep),
                  float(laid.height - laid.plot.frame.top)});
    if (ImGui::IsWindowAppearing())
        ImGui::SetScrollX(float(laid.plot.frame.right)); // to the last month
    return told;
}

void draw_months(Page& page, const std::string& key, const calc::MonthChart& chart,
                 const MonthWords& said) {
    std::string told;
    {
        const InFace fine(page, Face::fine);
        const float room = ImGui::GetContentRegionAvail().x, count = float(chart.values.size());
        const float beside = page.px(64); // more than the figures of the scale take
        const float wide = std::max(room, count * page.px(kLeastMonth) + beside);
        const calc::LaidOut laid = calc::lay_out_months(chart, sheet_of(page, wide));
        const float left = float(laid.plot.frame.left), top = float(laid.plot.frame.top);
        const float tall = float(laid.height);
        const ImVec2 at = ImGui::GetCursorScreenPos();
        ImGui::PushClipRect(at, {at.x + room, at.y + top - page.px(Measure::kHair)}, true);
        draw_plot(page, laid.plot, {at.x, at.y});
        ImGui::PopClipRect();
        ImGui::PushClipRect({at.x, at.y + page.px(Measure::kGap)}, {at.x + left + 1, at.y + tall},
                            true);
        draw_plot(page, laid.plot, {at.x, at.y});
        ImGui::PopClipRect();
        ImGui::SetCursorScreenPos({at.x + left, at.y + top});
        const float bar = wide > room ? ImGui::GetStyle().ScrollbarSize : 0;
        ImGui::BeginChild(key.c_str(), {room - left, tall - top + bar}, false,
                          ImGuiWindowFlags_HorizontalScrollbar | ImGuiWindowFlags_NavFlattened);
        told = month_fields(page, key, chart, laid, said);
        ImGui::EndChild();
    }
    told_line(page, key + ".told", told,
              "Point at a month, or come to it by keys, to read its figure.");
}

void draw_hours(Page& page, Context& context, const RebuildRead& read) {
    gap(page, Measure::kGap);
    words(page, read.hours.label + ", " + hours_in_words(read.all.all_hours) + " in all");
    note(page, "rebuild.hours.all", "hours in all", hours_in_words(read.all.all_hours));
    if (read.hours.values.empty()) {
        body(page,
             "No entry yet. The hours written with the entries of the log stand here by "
             "month.",
             Role::pencil);
        if (button(page, "rebuild.write", "write an entry")) context.write_on = true;
        return;
    }
    const auto first = std::ranges::find(read.all.hours, read.hours.first, &MonthHours::month);
    draw_months(page, "rebuild.hours", read.hours, [&](std::size_t at) {
        const MonthHours& month = *(first + std::ptrdiff_t(at));
        return hours_in_words(month.hours) + " in " + std::to_string(month.entries) +
               (month.entries == 1 ? " entry" : " entries");
    });
}

void draw_spent(Page& page, Context& context, const RebuildRead& read) {
    if (read.spent.empty()) {
        gap(page, Measure::kGap);
        words(page, "Cost by month");
        body(page, "Nothing spent yet. Costs and the prices of parts stand here by month.",
             Role::pencil);
        if (button(page, "rebuild.to_money", "to the money")) context.go = Place{"money"};
        return;
    }
    for (const calc::MonthChart& chart : read.spent) {
        const std::string& currency = chart.axis;
        const auto amount = [&](const Purse& purse) {
            return to_words(Money{purse.in(currency), currency});
        };
        const std::string key = "rebuild.spent." + currency;
        std::string all = amount(read.all.all_spent) + " in all";
        if (read.all.undated.holds(currency))
            all += ", of that " + amount(read.all.undated) + " without a date";
        gap(page, Measure::kGap);
        words(page, chart.label + ", " + all);
        note(page, key + ".all", "spent in all", all);
        if (chart.values.empty()) continue;
        const auto first = std::ranges::find(read.all.spent, chart.first, &MonthSpent::month);
        draw_months(page, key, chart,
                    [&](std::size_t at) { return amount((first + std::ptrdiff_t(at))->spent); });
    }
}

// Groups beside months where there is room, so that many groups do not push the months away.
void draw_charts(Page& page, Context& context, const RebuildRead& read) {
    const bool beside = ImGui::GetContentRegionAvail().x >= page.px(kTwoColumns);
    ImGui::PushStyleVar(ImGuiStyleVar_CellPadding, ImVec2(page.px(Measure::kGap), 0));
    if (ImGui::BeginTable("rebuild.charts", beside ? 2 : 1, ImGuiTableFlags_SizingStretchSame)) {
        ImGui::TableNextColumn();
        draw_groups(page, context, read);
        if (beside) ImGui::TableNextColumn();
        draw_hours(page, context, read);
        draw_spent(page, context, read);
        ImGui::EndTable();
    }
    ImGui::PopStyleVar();
}

void empty_rebuild(Page& page, Context& context) {
    if (empty_page(page, "rebuild.empty",
                   {"How far the rebuild has come stands here: by group what is fitted, there and "
                    "missing, and by month the hours worked and what was spent. It fills itself "
                    "from the parts list, the log and the money.",
                    "begin with the parts list", "P"}) ||
        pressed({.key = 'P'}))
        context.go = Place{.screen = "parts", .view = "positions"};
}

} // namespace

void draw_rebuild(Page& page, Context& context, RebuildState& state) {
    const auto& vehicles =
        state.vehicles.of(context.book, 0, [&](int) { return list_vehicles(context.book); });
    const RebuildRead& read = state.read.of(context.book, state.vehicle, [&](VehicleId vehicle) {
        return read_all(context.book, vehicle);
    });
    if (!state.read.failure().empty())
        notice(page, "rebuild.trouble", Tell::stop, state.read.failure());
    if (read.all.nothing_yet() && state.read.failure().empty() && !state.vehicle) {
        empty_rebuild(page, context);
        return;
    }
    choose_vehicle(page, "rebuild.vehicle", vehicles, state.vehicle, true);
    const std::string stands = "Positions: " + to_words(read.all.positions) +
                               ".  Pieces: " + to_words(read.all.pieces) + ".";
    body(page, stands, Role::pencil);
    note(page, "rebuild.stands", stands);
    draw_charts(page, context, read);
    gap(page, Measure::kMargin);
}

} // namespace fettle::ui

// The costs as they were noted, and the acts on the one that is chosen.
#include "ui/frame/input_queue.h"
#include "ui/frame/keyboard_frame.h"
#include "ui/screens/money/money.h"
#include "ui/widgets/acts.h"
#include "ui/widgets/flow.h"

#include <imgui.h>

#include <array>
#include <numeric>
#include <span>

namespace fettle::ui {
namespace {

// The later in the list, the sooner it gives way.
constexpr std::array kColumns{
    TableColumn{"on", "on", 112, 0},
    TableColumn{"what", "for what", 140, 3},
    TableColumn{"amount", "amount", 120, 0, true, true},
    TableColumn{"of", "of", 120, 3},
    TableColumn{"paid_to", "paid to", 96, 1},
};

// The acts on the cost that is chosen, below its row.
void cost_acts(Page& page, Context& context, MoneyState& state, const Cost& cost) {
    ImGui::SetCursorPosX(ImGui::GetCursorPosX() + page.px(12));
    Flow flow(page);
    const auto act = [&](const char* key, const char* label, const char* hint) {
        const ButtonLook look{.weight = Weight::quiet, .key_hint = hint};
        flow.place_button(label, look);
        return button(page, key, label, look);
    };
    if (act("money.change", "change", "C") || pressed({.key = 'C'})) {
        state.form = form_of(cost);
        state.writing = true;
    }
    if (act("money.remove", "remove", "Del") || pressed({.key = static_cast<int>(Key::del)}))
        context.went_well(remove_cost(context.book, cost.id));
    if (cost.part && act("money.owner", "show the part", ""))
        context.go = Place{"parts", cost.part.value};
    if (cost.task && act("money.owner", "show the task", ""))
        context.go = Place{"tasks", cost.task.value};
    if (cost.consignment && act("money.owner", "show the consignment", ""))
        context.go = Place{"sent_out", cost.consignment.value};
}

std::string cell_of(const Cost& cost, std::string_view column) {
    if (column == "what") return cost.what;
    if (column == "amount") return to_words(cost.amount);
    if (column == "of") return cost.of;
    return cost.paid_to;
}

void draw_cost(Page& page, Context& context, MoneyState& state, const Table& table,
               const Cost& cost) {
    const std::string key = "money.cost." + std::to_string(cost.id.value);
    const ImVec2 at = ImGui::GetCursorScreenPos();
    const bool chosen = state.at == cost.id;
    if (row(page, key, {.label = to_words(cost.on), .selected = chosen})) state.at = cost.id;
    if (state.wanted == cost.id) {
        put_keyboard_here();
        ImGui::SetScrollHereY(0.5F);
        state.at = cost.id;
        state.wanted = {};
    }
    if (ImGui::IsItemFocused()) state.at = cost.id;
    for (const TableColumn& column : std::span(kColumns).subspan(1))
        table.cell(column.key, at.y, cell_of(cost, column.key));
    const Rect amount = table.place_of("amount");
    note_area(page, key + ".amount", cost.what, {amount.left, at.y, amount.right, at.y + 1},
              to_words(cost.amount));
    if (chosen) cost_acts(page, context, state, cost);
}

Rank rank_of(const Cost& cost, std::string_view column) {
    if (column == "amount") return by_number(cost.amount.minor, cost.amount.currency);
    if (column == "on") return by_number(std::chrono::sys_days(cost.on).time_since_epoch().count());
    return by_words(cell_of(cost, column));
}

Result<std::vector<std::size_t>> in_order(const std::vector<Cost>& costs, const RowOrder& order) {
    std::vector<std::size_t> places(costs.size());
    std::iota(places.begin(), places.end(), std::size_t(0));
    order_rows(places, order.downwards,
               [&](std::size_t place) { return rank_of(costs[place], order.by); });
    return places;
}

} // namespace

void draw_costs(Page& page, Context& context, MoneyState& state, const std::vector<Cost>& costs) {
    if (costs.empty()) {
        words(page, "No cost noted yet, beside the prices of parts.");
        return;
    }
    words(page, "Costs as they were noted");
    ImGui::SameLine(0, page.px(Measure::kMargin));
    choose_columns(page, "costs", kColumns, state.noted);
    Table table(page, "costs", kColumns, state.noted, ImGui::GetContentRegionAvail().x);
    table.heads();
    rule(page);
    const RowOrder order{state.noted.by, state.noted.downwards, state.read.readings()};
    const auto& places = state.noted_ordered.of(
        context.book, order, [&](const RowOrder& asked) { return in_order(costs, asked); });
    for (const std::size_t place : places) {
        const Cost& cost = costs[place];
        state.noted_lines.block(
            cost.id.value, page.px(Measure::kRow),
            [&] { draw_cost(page, context, state, table, cost); }, cost.id == state.wanted);
    }
}

} // namespace fettle::ui

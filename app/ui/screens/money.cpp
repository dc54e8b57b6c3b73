#include "ui/screens/money.h"

#include "ui/acts.h"
#include "ui/flow.h"
#include "ui/input_queue.h"
#include "ui/keyboard_frame.h"
#include "ui/readings.h"

#include <imgui.h>

#include <algorithm>
#include <array>

namespace fettle::ui {
namespace {

// As the choices stand.
constexpr std::array kBy = {CostBy::group, CostBy::part, CostBy::task, CostBy::consignment,
                            CostBy::month};

Result<MoneyRead> read_money(const Notebook& book, int by) {
    auto table = cost_table(book, kBy[std::size_t(by)]);
    if (!table) return table.failure();
    auto by_group = cost_table(book, CostBy::group);
    if (!by_group) return by_group.failure();
    auto costs = list_costs(book);
    if (!costs) return costs.failure();
    return MoneyRead{std::move(*table), std::move(*by_group), std::move(*costs)};
}

const char* screen_of(CostBy by) {
    switch (by) {
    case CostBy::part:
        return "parts";
    case CostBy::task:
        return "tasks";
    case CostBy::consignment:
        return "sent_out";
    default:
        return "";
    }
}

void begin_new(MoneyState& state) {
    state.form = {};
    state.writing = true;
}

void begin_estimate(MoneyState& state) {
    state.estimate = {};
    state.reckoning = true;
}

struct Edges {
    float left, label, spent, estimate, right; // the right edges of the columns
};

Edges edges_of(bool with_estimate) {
    const float left = ImGui::GetCursorPosX(), room = ImGui::GetContentRegionAvail().x;
    if (!with_estimate) return {left, left + room * 0.6F, left + room * 0.85F, 0, left + room};
    return {left, left + room * 0.34F, left + room * 0.54F, left + room * 0.74F, left + room};
}

void right_aligned(Page& page, float right, const std::string& text, Role role = Role::ink) {
    ImGui::SameLine(right - width_of(page, text));
    words_beside(page, text, role);
}

// The figures of one currency in a row.
void figures(Page& page, const Edges& edges, const CostRow& row, const std::string& currency,
             const std::string& key, bool with_estimate) {
    const std::string spent = to_words(Money{row.spent.in(currency), currency});
    right_aligned(page, edges.spent, spent);
    std::string said = spent;
    if (with_estimate && row.estimate.holds(currency)) {
        const std::string estimate = to_words(Money{row.estimate.in(currency), currency});
        const std::string stands =
            against_words(row.spent.in(currency), row.estimate.in(currency), currency);
        right_aligned(page, edges.estimate, estimate, Role::pencil);
        ImGui::SameLine(edges.estimate + page.px(Measure::kGap));
        const float room = edges.right - edges.estimate - page.px(Measure::kGap);
        words_beside(page, cut_to(page, stands, room),
                     row.spent.in(currency) > row.estimate.in(currency) ? Role::red_lead
                                                                        : Role::verdigris);
        said += " of " + estimate + ", " + stands;
    }
    note(page, key + "." + currency, row.label, said);
}

std::vector<std::string> currencies_of(const CostRow& row) {
    std::vector<std::string> all;
    for (const Purse* purse : {&row.spent, &row.estimate})
        for (const Money& money : purse->amounts())
            all.push_back(money.currency);
    std::ranges::sort(all);
    all.erase(std::unique(all.begin(), all.end()), all.end());
    return all;
}

void draw_row(Page& page, Context& context, const CostRow& row, const std::string& key, CostBy by) {
    const bool with_estimate = by == CostBy::group;
    const Edges edges = edges_of(with_estimate);
    const std::string label =
        cut_to(page, row.label, edges.label - edges.left - page.px(Measure::kStep));
    if (row.id != 0) {
        if (link(page, key, label)) context.go = Place{screen_of(by), row.id};
    } else {
        words_beside(page, label);
        note(page, key, row.label);
    }
    bool first = true;
    for (const std::string& currency : currencies_of(row)) {
        if (!first) words_beside(page, " ");
        figures(page, edges, row, currency, key, with_estimate);
        first = false;
    }
}

void column_heads(Page& page, CostBy by) {
    const bool with_estimate = by == CostBy::group;
    const Edges edges = edges_of(with_estimate);
    const auto head = [&](float right, const std::string& text) {
        ImGui::SameLine(right - width_of(page, text, Face::fine));
        fine_words(page, text);
    };
    fine_words(page, word(by));
    head(edges.spent, "spent");
    if (with_estimate) head(edges.estimate, "estimate");
    rule(page);
}

void draw_table(Page& page, Context& context, MoneyState& state, const MoneyRead& read) {
    static const std::vector<std::string> kLabels = {"by group", "by part", "by task",
                                                     "by consignment", "by month"};
    choice(page, "money.by", kLabels, state.by);
    const CostBy by = kBy[std::size_t(state.by)];
    column_heads(page, by);
    ImGui::PushStyleVar(ImGuiStyleVar_ItemSpacing, ImVec2(page.px(Measure::kStep), 0));
    for (std::size_t i = 0; i < read.table.rows.size(); ++i)
        draw_row(page, context, read.table.rows[i], "money.row." + std::to_string(i), by);
    rule(page);
    draw_row(page, context, {"all", 0, read.table.spent, read.table.estimate}, "money.all", by);
    ImGui::PopStyleVar();
}

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

void draw_cost(Page& page, Context& context, MoneyState& state, const Cost& cost) {
    const std::string key = "money.cost." + std::to_string(cost.id.value);
    std::string under = to_words(cost.on);
    for (const auto& text : {cost.of, cost.paid_to.empty() ? "" : "paid to " + cost.paid_to})
        if (!text.empty()) under += "     " + text;
    const std::string amount = to_words(cost.amount);
    const bool chosen = state.at == cost.id;
    if (row(page, key,
            {.label = cost.what,
             .under = under,
             .aside = amount,
             .aside_role = Role::ink,
             .selected = chosen,
             .height = 48}))
        state.at = cost.id;
    if (state.wanted == cost.id) {
        put_keyboard_here();
        ImGui::SetScrollHereY(0.5F);
        state.at = cost.id;
        state.wanted = {};
    }
    if (ImGui::IsItemFocused()) state.at = cost.id;
    if (chosen) cost_acts(page, context, state, cost);
}

void acts(Page& page, MoneyState& state) {
    ImGui::SameLine(0, page.px(Measure::kMargin));
    if (button(page, "money.new", "note a cost", {.key_hint = "N"}) || pressed({.key = 'N'}))
        begin_new(state);
    ImGui::SameLine(0, page.px(Measure::kGap));
    if (button(page, "money.estimate", "set an estimate", {.key_hint = "E"}) ||
        pressed({.key = 'E'}))
        begin_estimate(state);
}

void come_in(MoneyState& state, const std::vector<Cost>& costs) {
    if (!just_came_in(state.last_frame) || state.wanted || costs.empty()) return;
    if (std::ranges::find(costs, state.at, &Cost::id) != costs.end()) state.wanted = state.at;
}

void overview(Page& page, Context& context, MoneyState& state) {
    const MoneyRead& read =
        state.read.of(context.book, state.by, [&](int by) { return read_money(context.book, by); });
    heading(page, "Money");
    if (!state.read.failure().empty())
        notice(page, "money.trouble", Tell::stop, state.read.failure());
    if (read.by_group.rows.empty() && state.read.failure().empty()) {
        if (empty_page(page, "money.empty",
                       {"What the rebuild costs stands here: by part, task, consignment, group and "
                        "month, each currency for itself, against what was reckoned with. The "
                        "prices of parts count by themselves.",
                        "note the first cost", "N"}) ||
            pressed({.key = 'N'}))
            begin_new(state);
        return;
    }
    acts(page, state);
    come_in(state, read.costs);
    gap(page);
    draw_table(page, context, state, read);
    draw_spent_against_estimate(page, read.by_group);
    gap(page, Measure::kGap);
    words(page, read.costs.empty() ? "No cost noted yet, beside the prices of parts."
                                   : "Costs as they were noted");
    rule(page);
    for (const Cost& cost : read.costs)
        draw_cost(page, context, state, cost);
    gap(page, Measure::kMargin);
}

} // namespace

void draw_money(Page& page, Context& context, MoneyState& state) {
    if (state.writing) {
        const CostEnd end = draw_cost_form(page, context, state.form);
        if (end == CostEnd::kept) state.wanted = state.form.cost.id;
        state.writing = end == CostEnd::goes_on;
    } else if (state.reckoning) {
        state.reckoning = draw_estimate_form(page, context, state.estimate) == CostEnd::goes_on;
    } else {
        overview(page, context, state);
    }
}

void lead_to(MoneyState& state, const Place& place) {
    if (place.record == 0) return;
    state.writing = state.reckoning = false;
    state.wanted = CostId{place.record};
}

} // namespace fettle::ui

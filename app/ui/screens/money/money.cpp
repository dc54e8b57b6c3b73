#include "ui/screens/money/money.h"

#include "ui/frame/input_queue.h"
#include "ui/frame/keyboard_frame.h"
#include "ui/widgets/acts.h"
#include "ui/widgets/flow.h"
#include "ui/widgets/readings.h"

#include <imgui.h>

#include <algorithm>
#include <array>
#include <numeric>

namespace fettle::ui {
namespace {

constexpr float kLine = 28;

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
    return MoneyRead{kBy[std::size_t(by)], std::move(*table), std::move(*by_group),
                     std::move(*costs)};
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

std::vector<std::string> currencies_of(const CostRow& row) {
    std::vector<std::string> all;
    for (const Purse* purse : {&row.spent, &row.estimate})
        for (const Money& money : purse->amounts())
            all.push_back(money.currency);
    std::ranges::sort(all);
    all.erase(std::unique(all.begin(), all.end()), all.end());
    return all;
}

// The figures of one currency, in the line of a row that begins at `top`.
void figures(Page& page, const Table& table, float top, const CostRow& row,
             const std::string& currency, const std::string& key) {
    const std::int64_t paid = row.spent.in(currency);
    std::string said = to_words(Money{paid, currency});
    table.cell("spent", top, said);
    if (row.estimate.holds(currency)) {
        const std::int64_t reckoned = row.estimate.in(currency);
        const std::string estimate = to_words(Money{reckoned, currency});
        const std::string stands = against_words(paid, reckoned, currency);
        table.cell("estimate", top, estimate, Role::pencil);
        table.cell("stands", top, stands, paid > reckoned ? Role::red_lead : Role::verdigris);
        said += " of " + estimate + ", " + stands;
    }
    const Rect spent = table.place_of("spent");
    note_area(page, key + "." + currency, row.label, {spent.left, top, spent.right, top + 1}, said);
}

void draw_row(Page& page, Context& context, const Table& table, const CostRow& row,
              const std::string& key, CostBy by) {
    const ImVec2 at = ImGui::GetCursorScreenPos();
    const float line = page.px(kLine);
    const float room = table.place_of("label").width() - page.px(Measure::kGap);
    const std::string label = cut_to(page, row.label, room);
    ImGui::SetCursorScreenPos({at.x + page.px(12), at.y});
    if (row.id != 0) {
        if (link(page, key, label)) context.go = Place{screen_of(by), row.id};
    } else {
        words_beside(page, label);
        note(page, key, row.label);
    }
    float top = at.y;
    for (const std::string& currency : currencies_of(row)) {
        figures(page, table, top, row, currency, key);
        top += line;
    }
    ImGui::SetCursorScreenPos({at.x, std::max(top, at.y + line)});
}

// Each currency for itself: there is no rate to compare them by.
Rank rank_of(const Purse& purse) {
    if (purse.empty()) return {.blank = true};
    const Money& first = purse.amounts().front();
    return by_number(first.minor, first.currency);
}

// As the rows were read when no column gives the order.
Result<std::vector<std::size_t>> in_order(const std::vector<CostRow>& rows, const RowOrder& order) {
    std::vector<std::size_t> places(rows.size());
    std::iota(places.begin(), places.end(), std::size_t(0));
    if (order.by.empty()) return places;
    order_rows(places, order.downwards, [&](std::size_t place) {
        const CostRow& row = rows[place];
        if (order.by == "label") return by_words(row.label);
        return rank_of(order.by == "spent" ? row.spent : row.estimate);
    });
    return places;
}

void draw_table(Page& page, Context& context, MoneyState& state, const MoneyRead& read) {
    static const std::vector<std::string> kLabels = {"by group", "by part", "by task",
                                                     "by consignment", "by month"};
    choice(page, "money.by", kLabels, state.by);
    const CostBy by = read.by;
    const bool with_estimate = by == CostBy::group;
    const std::array columns{TableColumn{"label", word(by), 160, 2},
                             TableColumn{"spent", "spent", 120, 1, true, true},
                             TableColumn{"estimate", "estimate", 120, 1, with_estimate, true},
                             TableColumn{"stands", "how it stands", 140, 1, with_estimate}};
    Table table(page, "money", columns, state.table, ImGui::GetContentRegionAvail().x, kLine);
    table.heads();
    rule(page);
    ImGui::PushStyleVar(ImGuiStyleVar_ItemSpacing, ImVec2(page.px(Measure::kStep), 0));
    const RowOrder order{state.table.by, state.table.downwards, state.read.readings()};
    const auto& places = state.rows_ordered.of(context.book, order, [&](const RowOrder& asked) {
        return in_order(read.table.rows, asked);
    });
    for (const std::size_t i : places)
        state.lines.block(std::int64_t(i), page.px(kLine), [&] {
            draw_row(page, context, table, read.table.rows[i], "money.row." + std::to_string(i),
                     by);
        });
    rule(page);
    draw_row(page, context, table, {"all", 0, read.table.spent, read.table.estimate}, "money.all",
             by);
    ImGui::PopStyleVar();
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
    const MoneyRead& read = state.read.beside(context.side, context.book, state.by, read_money);
    heading(page, "Money");
    if (!state.read.failure().empty())
        notice(page, "money.trouble", Tell::stop, state.read.failure());
    if (state.read.nothing_yet()) return being_read(page, "money.reading");
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
    draw_costs(page, context, state, read.costs);
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

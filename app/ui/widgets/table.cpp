#include "ui/widgets/table.h"

#include "base/text.h"
#include "ui/widgets/acts.h"
#include "ui/widgets/flow.h"

#include <imgui.h>

#include <algorithm>
#include <utility>

namespace fettle::ui {
namespace {

bool is_shown(const TableColumn& column, const TableState& state) {
    return column.at_first != state.changed.contains(std::string(column.key));
}

} // namespace

Rank by_words(const std::string& words) {
    return {words.empty(), counted_as(words), 0};
}

Rank by_number(std::int64_t number, const std::string& of) {
    return {false, of, number};
}

void order_rows(std::vector<std::size_t>& rows, bool downwards,
                const std::function<Rank(std::size_t)>& rank_of) {
    std::vector<std::pair<Rank, std::size_t>> ranked;
    ranked.reserve(rows.size());
    for (const std::size_t row : rows)
        ranked.emplace_back(rank_of(row), row);
    std::ranges::stable_sort(ranked, [&](const auto& one, const auto& other) {
        if (one.first.blank != other.first.blank) return other.first.blank;
        return downwards ? other.first < one.first : one.first < other.first;
    });
    for (std::size_t i = 0; i < rows.size(); ++i)
        rows[i] = ranked[i].second;
}

Table::Table(Page& page, std::string_view key, std::span<const TableColumn> columns,
             TableState& state, float room, float row_height)
    : page_(page), key_(key), state_(state), row_height_(row_height) {
    float needed = 0, shares = 0;
    for (const TableColumn& column : columns) {
        const bool first = places_.empty();
        if (!first && (!is_shown(column, state) || needed + page.px(column.least) > room)) continue;
        places_.push_back({&column, 0, 0});
        needed += page.px(column.least);
        shares += column.share;
    }
    const float over = std::max(0.0F, room - needed);
    float left = ImGui::GetCursorScreenPos().x;
    for (Place& place : places_) {
        place.left = left;
        left += page.px(place.column->least);
        if (shares > 0) left += over * place.column->share / shares;
        place.right = left;
    }
}

bool Table::heads() {
    const float top = ImGui::GetCursorScreenPos().y;
    const std::string by = state_.by.empty() ? std::string(places_.front().column->key) : state_.by;
    bool changed = false;
    for (const Place& place : places_) {
        const bool orders = place.column->key == by;
        const InFace fine(page_, Face::fine);
        const std::string_view arrow = !orders ? "" : state_.downwards ? " ↑" : " ↓";
        const float room = place.right - place.left - page_.px(2 * Measure::kStep);
        const std::string title =
            cut_to(page_, std::string(place.column->title) + std::string(arrow), room, Face::fine);
        const float left = place.column->figures
                               ? place.right - page_.px(20) - width_of(page_, title, Face::fine)
                               : place.left + page_.px(Measure::kStep);
        ImGui::SetCursorScreenPos(ImVec2(left, top));
        if (!button(page_, key_ + ".head." + std::string(place.column->key), title,
                    {.weight = Weight::quiet}))
            continue;
        state_.downwards = orders && !state_.downwards;
        state_.by = place.column->key;
        changed = true;
    }
    return changed;
}

void Table::cell(std::string_view column, float top, std::string_view text, Role role) const {
    const Place* place = find(column);
    if (!place || text.empty()) return;
    const float inset = page_.px(12); // as far in as a row's own words
    const std::string said = cut_to(page_, text, place->right - place->left - inset);
    const float left =
        place->column->figures ? place->right - inset - width_of(page_, said) : place->left + inset;
    write_at(page_, left, top + (page_.px(row_height_) - ImGui::GetFontSize()) / 2, said, role);
}

const Table::Place* Table::find(std::string_view column) const {
    const auto found =
        std::ranges::find(places_, column, [](const Place& place) { return place.column->key; });
    return found == places_.end() ? nullptr : &*found;
}

Rect Table::place_of(std::string_view column) const {
    const Place* place = find(column);
    return place ? Rect{place->left, 0, place->right, 0} : Rect{};
}

void choose_columns(Page& page, std::string_view key, std::span<const TableColumn> columns,
                    TableState& state) {
    const std::string of(key);
    if (button(page, of + ".columns", state.choosing ? "columns shown" : "columns",
               {.weight = Weight::quiet}))
        state.choosing = !state.choosing;
    if (!state.choosing) return;
    Flow flow(page, Measure::kGap);
    for (const TableColumn& column : columns.subspan(1)) {
        bool on = is_shown(column, state);
        const std::string name(column.key);
        flow.place_check(column.title);
        if (!check(page, of + ".columns." + name, column.title, on)) continue;
        if (on == column.at_first)
            state.changed.erase(name);
        else
            state.changed.insert(name);
    }
}

} // namespace fettle::ui

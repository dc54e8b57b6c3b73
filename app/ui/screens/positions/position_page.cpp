#include "ui/screens/positions/position_page.h"

#include "base/text.h"
#include "notebook/vehicles.h"
#include "ui/frame/input_queue.h"
#include "ui/frame/keyboard_frame.h"
#include "ui/widgets/acts.h"
#include "ui/widgets/flow.h"
#include "ui/widgets/readings.h"

#include <imgui.h>

#include <algorithm>
#include <functional>

namespace fettle::ui {
namespace {

constexpr float kLabels = 88, kLeastColumn = 168;

using desk::Alternate;

Result<PositionFacts> read_position(const Notebook& book, PositionId id) {
    PositionFacts facts;
    auto position = position_by_id(book, id);
    if (!position) return position.failure();
    auto fills = list_positions(book, position->vehicle);
    if (!fills) return fills.failure();
    for (auto& fill : *fills)
        if (fill.position.id == id) facts.fill = std::move(fill);
    auto vehicles = list_vehicles(book);
    if (!vehicles) return vehicles.failure();
    for (const Vehicle& vehicle : *vehicles)
        if (vehicle.id == position->vehicle) facts.vehicle = vehicle.name;
    auto alternates = desk::alternates_for(book, *position, today());
    if (!alternates) return alternates.failure();
    facts.alternates = std::move(*alternates);
    return facts;
}

std::string needs_words(const PositionFill& fill) {
    std::string said = "needs " + std::to_string(fill.position.quantity);
    const auto add = [&](int pieces, const char* what) {
        if (pieces > 0) said += ", " + std::to_string(pieces) + " " + what;
    };
    add(fill.on_hand, "at hand");
    add(fill.used, "in place");
    add(fill.out, "out");
    add(fill.coming, "on the way");
    add(fill.to_get(), "to get");
    return said;
}

bool top(Page& page, PositionPageState& state, const PositionFacts& facts) {
    const Position& at = facts.fill.position;
    const std::string title = at.number + "   " + at.name;
    heading(page, cut_to(page, title, ImGui::GetContentRegionAvail().x, Face::heading));
    note(page, "position.name", title);
    const std::string where = facts.vehicle + (at.group.empty() ? "" : ", " + at.group) +
                              (at.spec.empty() ? "" : "     " + at.spec);
    fine_print(page, where);
    words(page, needs_words(facts.fill), facts.fill.missing() > 0 ? Role::brass : Role::verdigris);
    note(page, "position.needs", needs_words(facts.fill));
    Flow flow(page, Measure::kStep);
    const auto act = [&](std::string_view key, std::string_view label, std::string_view hint) {
        const ButtonLook look{.weight = Weight::quiet, .key_hint = hint};
        flow.place_button(label, look);
        return button(page, key, label, look);
    };
    const bool back = act("position.back", "all positions", "Esc") ||
                      (pressed({.key = static_cast<int>(Key::escape)}) && !state.active);
    if (state.takes_keyboard) put_keyboard_here();
    state.takes_keyboard = false;
    if (act("position.add_part", "a part for it", "N") || pressed({.key = 'N'}))
        state.wants_part = true;
    return back;
}

void cell_words(Page& page, const std::string& text, Role role = Role::ink) {
    if (text.empty())
        words(page, " ");
    else
        fine_print(page, text, role);
}

// One line of the comparison over all its columns.
void line(Page& page, const std::string& label, const std::vector<const Alternate*>& columns,
          const std::function<void(const Alternate&)>& draw) {
    ImGui::TableNextRow();
    ImGui::TableNextColumn();
    fine_words(page, label);
    for (const Alternate* one : columns) {
        ImGui::TableNextColumn();
        draw(*one);
    }
}

void reasons(Page& page, const Alternate& one, bool speaks_for) {
    int number = 0;
    for (const auto& [is_for, said] : one.reasons) {
        if (is_for != speaks_for) continue;
        fine_print(page, said, speaks_for ? Role::verdigris : Role::brass);
        note(page,
             "position." + std::string(speaks_for ? "for." : "against.") + one.part.tag + "." +
                 std::to_string(number++),
             said);
    }
}

void head_of(Page& page, Context& context, const Alternate& one) {
    if (tag_chip(page, "position.part." + one.part.tag, one.part.tag))
        context.go = Place{"parts", one.part.id.value};
    std::string name = one.part.name;
    if (one.part.quantity > 1)
        name += "  × " + std::to_string(one.part.quantity) +
                (one.part.used > 0 ? ", " + std::to_string(one.part.used) + " used" : "");
    body(page, name);
}

void use_it(Page& page, Context& context, const PositionFacts& facts, const Alternate& one) {
    const std::string key = "position.use." + one.part.tag;
    if (!one.chosen) {
        if (button(page, key, "use this one", {.weight = Weight::plain}))
            context.went_well(choose_part(context.book, facts.fill.position.id, one.part.id));
        return;
    }
    words_beside(page, "to be used", Role::verdigris);
    note(page, "position.chosen", one.part.tag);
    if (button(page, key, "leave it open", {.weight = Weight::quiet}))
        context.went_well(choose_part(context.book, facts.fill.position.id, {}));
}

void draw_columns(Page& page, Context& context, const PositionFacts& facts,
                  const std::vector<const Alternate*>& columns, int number) {
    const int count = int(columns.size()) + 1;
    const std::string key = "position.side." + std::to_string(number);
    if (!ImGui::BeginTable(key.c_str(), count, ImGuiTableFlags_SizingStretchSame)) return;
    ImGui::TableSetupColumn("label", ImGuiTableColumnFlags_WidthFixed, page.px(kLabels));
    for (int i = 1; i < count; ++i)
        ImGui::TableSetupColumn(std::to_string(i).c_str());
    const auto say = [&](const std::string& label, const auto& text) {
        line(page, label, columns, [&](const Alternate& one) { cell_words(page, text(one)); });
    };
    line(page, "part", columns, [&](const Alternate& one) { head_of(page, context, one); });
    say("condition", [](const Alternate& one) { return std::string(word(one.part.condition)); });
    say("origin", [](const Alternate& one) { return std::string(word(one.part.origin)); });
    say("decision", [](const Alternate& one) { return std::string(word(one.part.decision)); });
    say("maker", [](const Alternate& one) { return one.part.maker; });
    say("measured", [](const Alternate& one) { return join(one.measured, "\n"); });
    say("cost", [](const Alternate& one) {
        return one.part.cost ? to_words(*one.part.cost) : std::string();
    });
    say("from", [](const Alternate& one) { return one.part.from; });
    say("where", [](const Alternate& one) {
        std::vector<std::string> said;
        if (!one.part.place.empty() && one.at_hand > 0) said.push_back("kept: " + one.part.place);
        for (const Away& away : one.away)
            said.push_back(away_words(away, today()));
        return join(said, "\n");
    });
    line(page, "for it", columns, [&](const Alternate& one) { reasons(page, one, true); });
    line(page, "against", columns, [&](const Alternate& one) { reasons(page, one, false); });
    line(page, "", columns, [&](const Alternate& one) { use_it(page, context, facts, one); });
    ImGui::EndTable();
}

void side_by_side(Page& page, Context& context, const PositionFacts& facts) {
    gap(page, Measure::kGap);
    const auto count = facts.alternates.size();
    words(page, count == 1 ? "The part for it" : "Parts for it, side by side");
    rule(page);
    if (count == 0) {
        body(page,
             "No part is intended for it yet. A part is, once its position is set on its "
             "page; or add one here.",
             Role::pencil);
        return;
    }
    const float room = ImGui::GetContentRegionAvail().x - page.px(kLabels);
    const auto most = std::size_t(std::max(1.0F, room / page.px(kLeastColumn)));
    int number = 0;
    for (std::size_t first = 0; first < count; first += most) {
        std::vector<const Alternate*> columns;
        for (std::size_t i = first; i < std::min(count, first + most); ++i)
            columns.push_back(&facts.alternates[i]);
        draw_columns(page, context, facts, columns, number++);
        gap(page);
    }
}

// Written to its end, a field is kept at once; there is nothing to press.
void card(Page& page, Context& context, PositionPageState& state, const PositionFacts& facts) {
    gap(page, Measure::kGap);
    words(page, "As the parts list has it");
    rule(page);
    if (state.filled_for != context.book.change_counter() && !state.active) {
        state.fields.fill(facts.fill.position);
        state.filled_for = context.book.change_counter();
    }
    const auto typing = draw_position_fields(page, "position.edit", state.fields, false);
    state.active = typing.active;
    if (typing.left) {
        Position changed = facts.fill.position;
        if (state.fields.read(changed)) {
            const Done set = set_position(context.book, changed);
            if (set)
                context.went_well(set);
            else
                state.fields.error = set.failure().sentence;
        }
    }
    if (button(page, "position.remove", "remove this position", {.weight = Weight::quiet}) &&
        context.went_well(remove_position(context.book, state.position)))
        state.position = {};
    gap(page, Measure::kMargin);
}

} // namespace

void PositionPageState::open(PositionId id) {
    position = id;
    filled_for = 0;
    active = wants_part = false;
    takes_keyboard = true;
}

void draw_position_page(Page& page, Context& context, PositionPageState& state) {
    const PositionFacts& facts =
        state.facts.of(context.book, state.position.value, [&](std::int64_t id) {
            return read_position(context.book, PositionId{id});
        });
    if (facts.fill.position.id != state.position) { // taken back meanwhile
        state.position = {};
        return;
    }
    if (top(page, state, facts)) {
        state.position = {};
        return;
    }
    side_by_side(page, context, facts);
    card(page, context, state, facts);
}

} // namespace fettle::ui

#include "ui/screens/positions/positions.h"

#include "notebook/parts.h"
#include "ui/frame/input_queue.h"
#include "ui/frame/keyboard_frame.h"
#include "ui/screens/vehicle_choice.h"
#include "ui/widgets/acts.h"
#include "ui/widgets/flow.h"
#include "ui/widgets/readings.h"

#include <imgui.h>

#include <algorithm>
#include <map>

namespace fettle::ui {
namespace {

constexpr float kNumberColumn = 88;

// One line of the tree: the head of a group, or a position of it.
struct TreeLine {
    std::string group;
    const ShownPosition* position = nullptr;
    int positions = 0, lacking = 0; // of a group
};

Result<std::vector<ShownPosition>> read_list(const Notebook& book, VehicleId vehicle) {
    auto fills = list_positions(book, vehicle);
    if (!fills) return fills.failure();
    auto parts = list_parts(book);
    if (!parts) return parts.failure();
    std::map<PositionId, int> count;
    std::map<PartId, std::string> tags;
    for (const Part& part : *parts) {
        if (part.position) ++count[part.position];
        tags[part.id] = part.tag;
    }
    std::vector<ShownPosition> all;
    for (auto& fill : *fills) {
        const PositionId id = fill.position.id;
        const PartId chosen = fill.position.chosen;
        all.push_back({std::move(fill), count[id], chosen ? tags[chosen] : std::string()});
    }
    return all;
}

std::vector<TreeLine> tree_of(const std::vector<ShownPosition>& all,
                              const std::set<std::string>& folded) {
    std::vector<TreeLine> lines;
    std::size_t head = 0;
    for (const ShownPosition& one : all) {
        const std::string& group = one.fill.position.group;
        if (lines.empty() || lines[head].group != group) {
            head = lines.size();
            lines.push_back({group, nullptr, 0, 0});
        }
        ++lines[head].positions;
        if (one.fill.missing() > 0) ++lines[head].lacking;
        if (!folded.contains(group)) lines.push_back({group, &one, 0, 0});
    }
    return lines;
}

void begin_adding(PositionsState& state, const std::string& group) {
    state.adding = state.adding_begins = true;
    state.fresh = {};
    state.fresh.group = group;
    state.added.clear();
}

struct Standing {
    std::string words;
    Role role;
};

Standing standing_of(const ShownPosition& one) {
    const PositionFill& fill = one.fill;
    if (fill.to_get() > 0)
        return {"get " + std::to_string(fill.to_get()) + " of " +
                    std::to_string(fill.position.quantity),
                Role::red_lead};
    if (fill.missing() > 0) return {fill.coming > 0 ? "on the way" : "out", Role::brass};
    if (!one.chosen_tag.empty()) return {"use " + one.chosen_tag, Role::verdigris};
    if (one.parts > 1 && fill.position.quantity == 1)
        return {std::to_string(one.parts) + " to choose among", Role::brass};
    return {"there", Role::verdigris};
}

void draw_group(Page& page, PositionsState& state, const TreeLine& line, int number) {
    const bool folded = state.folded.contains(line.group);
    const std::string name = line.group.empty() ? "Without a group" : line.group;
    std::string aside =
        line.positions == 1 ? "1 position" : std::to_string(line.positions) + " positions";
    if (line.lacking > 0) aside += ", " + std::to_string(line.lacking) + " lacking";
    const std::string label = (folded ? "+   " : "−   ") + name;
    if (!row(page, "positions.group." + std::to_string(number), {.label = label, .aside = aside}))
        return;
    if (folded)
        state.folded.erase(line.group);
    else
        state.folded.insert(line.group);
}

void draw_position(Page& page, PositionsState& state, const ShownPosition& one, float room) {
    const Position& at = one.fill.position;
    const std::string key = "positions.row." + at.number;
    const auto [said, role] = standing_of(one);
    const ImVec2 low = ImGui::GetCursorScreenPos();
    if (row(page, key, {.label = " ", .aside = said, .aside_role = role})) state.page.open(at.id);
    if (state.wanted == at.id) {
        put_keyboard_here();
        state.wanted = {};
    }
    if (ImGui::IsItemFocused()) state.at = at.id;
    const float aside = width_of(page, said) + page.px(Measure::kMargin);
    const float line = ImGui::GetFontSize();
    const float y = low.y + (page.px(Measure::kRow) - line) / 2;
    const float left = low.x + page.px(36), name = left + page.px(kNumberColumn);
    const float right = low.x + room - aside;
    const auto write = [&](float x, const std::string& text, Role tone, float end) {
        write_at(page, x, y, cut_to(page, text, end - x - page.px(Measure::kStep)), tone);
    };
    std::string called = at.name;
    if (at.quantity > 1) called += "  × " + std::to_string(at.quantity);
    write(left, at.number, Role::pencil, name);
    write(name, called, Role::ink, right);
    const float spec = name + width_of(page, called) + page.px(Measure::kMargin);
    if (!at.spec.empty() && spec + page.px(80) < right) write(spec, at.spec, Role::pencil, right);
    note_area(page, key + ".name", called, {name, low.y, right, low.y + 1}, said);
}

void come_in(PositionsState& state, const std::vector<ShownPosition>& all) {
    if (!just_came_in(state.last_frame) || all.empty()) return;
    const auto at = std::ranges::find(
        all, state.at, [](const ShownPosition& one) { return one.fill.position.id; });
    state.wanted = at == all.end() ? all.front().fill.position.id : state.at;
}

void draw_tree(Page& page, PositionsState& state, const std::vector<ShownPosition>& all) {
    const auto lines = tree_of(all, state.folded);
    const float room = ImGui::GetContentRegionAvail().x - ImGui::GetStyle().ScrollbarSize;
    ImGui::BeginChild("positions.list", ImVec2(0, list_height(page)), false,
                      ImGuiWindowFlags_NavFlattened);
    const auto is_wanted = [&](const TreeLine& line) {
        return line.position && line.position->fill.position.id == state.wanted;
    };
    if (state.wanted) {
        const auto at = std::ranges::find_if(lines, is_wanted);
        if (at == lines.end())
            state.wanted = {};
        else
            page.reg.ask_row("positions.list", int(at - lines.begin()));
    }
    std::vector<int> numbers; // of the groups, by line
    int groups = 0;
    for (const TreeLine& line : lines)
        numbers.push_back(line.position ? -1 : groups++);
    rows(page, "positions.list", int(lines.size()), Measure::kRow, [&](int i) {
        const TreeLine& line = lines[std::size_t(i)];
        if (line.position)
            draw_position(page, state, *line.position, room);
        else
            draw_group(page, state, line, numbers[std::size_t(i)]);
    });
    ImGui::EndChild();
}

std::string group_at(const PositionsState& state, const std::vector<ShownPosition>& all) {
    for (const ShownPosition& one : all)
        if (one.fill.position.id == state.at) return one.fill.position.group;
    return {};
}

void fold_all(PositionsState& state, const std::vector<ShownPosition>& all) {
    if (!state.folded.empty()) {
        state.folded.clear();
        return;
    }
    for (const ShownPosition& one : all)
        state.folded.insert(one.fill.position.group);
}

PositionsEnd list_screen(Page& page, PositionsState& state, const std::vector<Vehicle>& vehicles,
                         const std::vector<ShownPosition>& all) {
    auto end = PositionsEnd::stays;
    heading(page, "Positions");
    Flow flow(page, Measure::kStep);
    const auto act = [&](std::string_view key, std::string_view label, char letter,
                         Weight weight = Weight::quiet) {
        const std::string hint(1, letter);
        const ButtonLook look{.weight = weight, .key_hint = hint};
        flow.place_button(label, look);
        return button(page, key, label, look) || pressed({.key = letter});
    };
    if (act("positions.add", "a new position", 'N', Weight::plain))
        begin_adding(state, group_at(state, all));
    if (act("positions.take_in", "take in a list", 'I', Weight::plain)) state.import.begin();
    if (!all.empty() &&
        act("positions.fold", state.folded.empty() ? "fold all" : "unfold all", 'G'))
        fold_all(state, all);
    if (act("positions.missing", "missing", 'M')) end = PositionsEnd::to_missing;
    if (act("positions.parts", "all parts", 'P') || pressed({.key = static_cast<int>(Key::escape)}))
        end = PositionsEnd::to_parts;
    choose_vehicle(page, "positions.vehicle", vehicles, state.vehicle);
    gap(page);
    if (all.empty()) {
        if (empty_page(page, "positions.empty",
                       {"A position is a place on the vehicle that needs a part, as the maker's "
                        "parts list has it: group, number, name, quantity. With them the notebook "
                        "can say what is missing.",
                        "take in a list", "I"}))
            state.import.begin();
        return end;
    }
    come_in(state, all);
    draw_tree(page, state, all);
    return end;
}

void add(Context& context, PositionsState& state) {
    Position fresh{.vehicle = state.vehicle};
    if (!state.fresh.read(fresh)) return;
    const auto added = add_position(context.book, fresh);
    if (!added) {
        state.fresh.error = added.failure().sentence;
        return;
    }
    context.went_well(added);
    state.added = "added " + fresh.number + ", " + fresh.name;
    state.at = *added;
    const std::string group = state.fresh.group;
    state.fresh = {};
    state.fresh.group = group;
    state.adding_begins = true;
}

void form_screen(Page& page, Context& context, PositionsState& state) {
    constexpr Chord kAdd{'K', true}; // Ctrl Enter writes the entry, wherever one is
    const bool escaped = pressed({.key = static_cast<int>(Key::escape)});
    heading(page, "A new position");
    gap(page);
    draw_position_fields(page, "positions.form", state.fresh, state.adding_begins);
    state.adding_begins = false;
    gap(page);
    if (button(page, "positions.form.add", "add the position",
               {.weight = Weight::next, .key_hint = words_of(kAdd)}) ||
        pressed(kAdd, true))
        add(context, state);
    ImGui::SameLine(0, page.px(Measure::kGap));
    if (button(page, "positions.form.leave", "leave",
               {.weight = Weight::quiet, .key_hint = "Esc"}) ||
        escaped)
        state.adding = false;
    if (state.added.empty()) return;
    gap(page);
    words(page, state.added, Role::verdigris);
    note(page, "positions.form.added", state.added);
}

const Vehicle& vehicle_at(const std::vector<Vehicle>& vehicles, VehicleId id) {
    const auto at = std::ranges::find(vehicles, id, &Vehicle::id);
    return at == vehicles.end() ? vehicles.front() : *at;
}

} // namespace

PositionsEnd draw_positions(Page& page, Context& context, PositionsState& state) {
    const auto& vehicles =
        state.vehicles.of(context.book, 0, [&](int) { return list_vehicles(context.book); });
    if (vehicles.empty()) return PositionsEnd::to_parts; // each notebook is made with one
    state.vehicle = vehicle_at(vehicles, state.vehicle).id;
    if (state.page.position) {
        draw_position_page(page, context, state.page);
        if (!state.page.position) state.wanted = state.at;
        return PositionsEnd::stays;
    }
    if (state.import.open) {
        draw_position_import(page, context, state.import, vehicle_at(vehicles, state.vehicle));
        return PositionsEnd::stays;
    }
    if (state.adding) {
        form_screen(page, context, state);
        return PositionsEnd::stays;
    }
    const auto& all = state.list.beside(context.side, context.book, state.vehicle, read_list);
    if (!state.list.failure().empty())
        notice(page, "positions.trouble", Tell::stop, state.list.failure());
    if (state.list.nothing_yet()) {
        being_read(page, "positions.reading");
        return PositionsEnd::stays;
    }
    return list_screen(page, state, vehicles, all);
}

} // namespace fettle::ui

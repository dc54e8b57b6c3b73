#include "ui/screens/positions/missing_list.h"

#include "base/text.h"
#include "base/whole_file.h"
#include "desk/missing_paper.h"
#include "ui/frame/input_queue.h"
#include "ui/screens/vehicle_choice.h"
#include "ui/widgets/acts.h"
#include "ui/widgets/flow.h"
#include "ui/widgets/readings.h"

#include <imgui.h>

#include <algorithm>
#include <array>
#include <span>

namespace fettle::ui {
namespace {

constexpr int kMostFits = 12; // shown for one position; all of them stand in what is written

// The later in the list, the sooner it gives way.
constexpr std::array kColumns{
    TableColumn{"position", "position", 200, 3},
    TableColumn{"get", "to get", 136, 0},
    TableColumn{"spec", "specification", 120, 2},
    TableColumn{"on_hand", "on hand", 72, 0, false, true},
    TableColumn{"vehicle", "vehicle", 120, 1, false},
};

std::string get_words(const PositionFill& fill) {
    const std::string of = " of " + std::to_string(fill.position.quantity);
    if (fill.to_get() > 0) return "get " + std::to_string(fill.to_get()) + of;
    return (fill.coming > 0 ? "on the way, " : "out, ") + std::to_string(fill.missing()) + of;
}

std::string cell_of(const MissingLine& line, std::string_view column) {
    const Position& at = line.fill.position;
    if (column == "position") return at.number + "   " + at.name;
    if (column == "get") return get_words(line.fill);
    if (column == "spec") return at.spec;
    if (column == "on_hand") return std::to_string(line.fill.on_hand);
    return line.vehicle;
}

Rank rank_of(const MissingLine& line, std::string_view column) {
    if (column == "get") return by_number(line.fill.to_get());
    return by_words(cell_of(line, column));
}

bool same_group(const MissingLine& one, const MissingLine& other) {
    return one.vehicle == other.vehicle && one.fill.position.group == other.fill.position.group;
}

// Within each group, which stay as they were read.
Result<std::vector<std::size_t>> in_order(const std::vector<MissingLine>& lines,
                                          const RowOrder& order) {
    std::vector<std::size_t> places(lines.size()), groups(lines.size());
    for (std::size_t i = 0; i < lines.size(); ++i) {
        places[i] = i;
        if (i > 0) groups[i] = groups[i - 1] + (same_group(lines[i - 1], lines[i]) ? 0 : 1);
    }
    if (order.by.empty()) return places;
    order_rows(places, order.downwards,
               [&](std::size_t place) { return rank_of(lines[place], order.by); });
    std::ranges::stable_sort(places, {}, [&](std::size_t place) { return groups[place]; });
    return places;
}

void under(Page& page, float left) {
    ImGui::SetCursorPosX(left + page.px(36));
}

void draw_line(Page& page, Context& context, MissingListState& state, const Table& table,
               const MissingLine& line) {
    const Position& at = line.fill.position;
    const std::string key = "missing.row." + std::to_string(at.id.value);
    const float left = ImGui::GetCursorPosX();
    const ImVec2 corner = ImGui::GetCursorScreenPos();
    const std::string said = cell_of(line, "position");
    const float room = table.place_of("position").width() - page.px(Measure::kMargin);
    // A number that takes the whole line would leave no word of the name.
    const std::string label = cut_to(page, at.number, room * 0.45F) + "   " + at.name;
    if (row(page, key, {.label = cut_to(page, label, room)})) state.open = at.id;
    note(page, key + ".get", said, get_words(line.fill));
    for (const TableColumn& column : std::span(kColumns).subspan(1)) {
        const bool tells = column.key == "get";
        const Role role = !tells                   ? Role::ink
                          : line.fill.to_get() > 0 ? Role::red_lead
                                                   : Role::brass;
        table.cell(column.key, corner.y, cell_of(line, column.key), role);
    }
    if (!at.spec.empty() && table.place_of("spec").width() <= 0) {
        under(page, left);
        fine_print(page, at.spec);
    }
    int number = 0;
    for (const AwayForIt& away : line.away) {
        under(page, left);
        const std::string link_key = key + ".away." + std::to_string(number++);
        const std::string words_of_it = away.words(today());
        if (link(page, link_key,
                 cut_to(page, words_of_it, ImGui::GetContentRegionAvail().x, Face::fine),
                 Face::fine))
            context.go = Place{"sent_out", away.consignment};
    }
    number = 0;
    for (const MightFit& fit : line.might_fit) {
        under(page, left);
        if (number == kMostFits) {
            fine_print(page, "and " + std::to_string(line.might_fit.size() - kMostFits) +
                                 " more that might fit");
            break;
        }
        const std::string link_key = key + ".fits." + std::to_string(number++);
        const std::string words_of_it = "might fit: " + fit.words();
        if (link(page, link_key,
                 cut_to(page, words_of_it, ImGui::GetContentRegionAvail().x, Face::fine),
                 Face::fine))
            context.go = Place{"parts", fit.part.value};
    }
}

void say_written(Context& context, MissingListState& state, const Done& done,
                 const std::filesystem::path& file) {
    state.written.clear();
    if (context.went_well(done)) state.written = "written to " + safe_utf8(file.string());
}

std::string of_words(const MissingListState& state, const std::vector<Vehicle>& vehicles) {
    const auto at = std::ranges::find(vehicles, state.vehicle, &Vehicle::id);
    if (at != vehicles.end()) return at->name;
    return vehicles.size() == 1 ? vehicles.front().name : "all vehicles";
}

void write_csv(Context& context, MissingListState& state, const std::vector<MissingLine>& lines) {
    const auto file = desk::place_of_missing(context.book, "csv");
    std::error_code error;
    std::filesystem::create_directories(file.parent_path(), error);
    say_written(context, state, write_whole(file, missing_csv(lines, today())), file);
}

void write_page(Context& context, MissingListState& state, const std::vector<MissingLine>& lines,
                const std::string& of) {
    const auto file = desk::place_of_missing(context.book, "pdf");
    std::error_code error;
    std::filesystem::create_directories(file.parent_path(), error);
    const auto pages = desk::write_missing(lines, of, today(), file);
    say_written(context, state, pages ? done() : Done(pages.failure()), file);
}

void draw_lines(Page& page, Context& context, MissingListState& state,
                const std::vector<MissingLine>& lines) {
    Table table(page, "missing", kColumns, state.table, ImGui::GetContentRegionAvail().x);
    table.heads();
    const RowOrder order{state.table.by, state.table.downwards, state.list.readings()};
    const auto& places = state.ordered.of(
        context.book, order, [&](const RowOrder& asked) { return in_order(lines, asked); });
    const MissingLine* before = nullptr;
    for (const std::size_t place : places) {
        const MissingLine& line = lines[place];
        const std::string& group = line.fill.position.group;
        const bool heads = !before || !same_group(*before, line);
        before = &line;
        state.lines.block(line.fill.position.id.value, page.px(Measure::kRow), [&] {
            if (heads) {
                gap(page, Measure::kGap);
                const std::string title = group.empty() ? "Without a group" : group;
                words(page, state.vehicle ? title : line.vehicle + ": " + title);
                rule(page);
            }
            draw_line(page, context, state, table, line);
        });
    }
}

// Where nothing is missing: because all is there, or because nothing is asked for. True when the
// parts list is to be gone to.
bool draw_none(Page& page, Context& context, MissingListState& state) {
    const auto read = [&](VehicleId of) -> Result<bool> {
        const auto all = of ? list_positions(context.book, of) : list_all_positions(context.book);
        if (!all) return all.failure();
        return !all->empty();
    };
    if (!state.any_position.of(context.book, state.vehicle, read))
        return empty_page(page, "missing.empty",
                          {.what_for =
                               "What the vehicle needs and what is not there stands here, to "
                               "buy from and to print. It is reckoned from the positions of "
                               "the parts list, and there is none yet.",
                           .step = "to the positions",
                           .key_hint = "P"});
    body(page, "Nothing is missing.", Role::verdigris);
    note(page, "missing.none", "Nothing is missing.");
    return false;
}

} // namespace

MissingEnd draw_missing(Page& page, Context& context, MissingListState& state) {
    auto end = MissingEnd::stays;
    const auto& vehicles =
        state.vehicles.of(context.book, 0, [&](int) { return list_vehicles(context.book); });
    const auto& lines = state.list.beside(
        context.side, context.book, state.vehicle,
        [](const Notebook& book, VehicleId of) { return list_missing(book, of); });
    heading(page, "Missing");
    if (!state.list.failure().empty())
        notice(page, "missing.trouble", Tell::stop, state.list.failure());
    Flow flow(page, Measure::kStep);
    const auto act = [&](std::string_view key, std::string_view label, char letter,
                         Weight weight = Weight::quiet) {
        const std::string hint(1, letter);
        const ButtonLook look{.weight = weight, .key_hint = hint};
        flow.place_button(label, look);
        return button(page, key, label, look) || pressed({.key = letter});
    };
    // Nothing is written of a list that is not the newest.
    if (act("missing.pdf", "a page to print", 'W', Weight::plain) && !state.list.is_reading())
        write_page(context, state, lines, of_words(state, vehicles));
    if (act("missing.csv", "as CSV", 'C', Weight::plain) && !state.list.is_reading())
        write_csv(context, state, lines);
    if (act("missing.positions", "positions", 'P')) end = MissingEnd::to_positions;
    if (act("missing.parts", "all parts", 'M') || pressed({.key = static_cast<int>(Key::escape)}))
        end = MissingEnd::to_parts;
    choose_vehicle(page, "missing.vehicle", vehicles, state.vehicle, true);
    if (!lines.empty()) choose_columns(page, "missing", kColumns, state.table);
    if (!state.written.empty()) {
        body(page, state.written, Role::verdigris);
        note(page, "missing.written", state.written);
    }
    fine_print(page, "Counted are pieces at hand and in their place; not scrap, what is on hold or "
                     "to be replaced, and what is away.");
    if (lines.empty() && state.list.is_reading())
        being_read(page, "missing.reading");
    else if (lines.empty() && draw_none(page, context, state))
        end = MissingEnd::to_positions;
    if (!lines.empty()) draw_lines(page, context, state, lines);
    gap(page, Measure::kMargin);
    return end;
}

} // namespace fettle::ui

#include "ui/screens/parts/parts.h"

#include "base/text.h"
#include "ui/frame/input_queue.h"
#include "ui/frame/keyboard_frame.h"
#include "ui/screens/parts/parts_table.h"
#include "ui/widgets/acts.h"
#include "ui/widgets/fields.h"
#include "ui/widgets/flow.h"
#include "ui/widgets/readings.h"

#include <imgui.h>

#include <algorithm>
#include <utility>

namespace fettle::ui {
namespace {

// The card's outline round the code that row() has written.
void tag_outline(const Page& page, ImVec2 row_at, float width) {
    const float left = row_at.x + page.px(12 - 8), right = row_at.x + page.px(12 + 8) + width;
    const float top = row_at.y + page.px(6), bottom = row_at.y + page.px(Measure::kRow - 6);
    const float corner = page.px(5);
    const ImVec2 outline[] = {{left + corner, top},    {right, top},
                              {right, bottom},         {left + corner, bottom},
                              {left, bottom - corner}, {left, top + corner}};
    ImGui::GetWindowDrawList()->AddPolyline(outline, IM_ARRAYSIZE(outline), page.tone(Role::pencil),
                                            ImDrawFlags_Closed, page.px(1));
}

void begin_adding(PartsState& state) {
    state.adding = true;
    state.adding_begins = true;
    state.refused.clear();
    state.fresh = {};
    state.fresh.fill(Part{});
    state.fresh.typed["quantity"] = "1";
}

void draw_row(Page& page, PartsState& state, const Table& table, const Part& part) {
    const std::string key = "parts.row." + std::to_string(part.id.value);
    const ImVec2 at = ImGui::GetCursorScreenPos();
    const std::string tag =
        cut_to(page, part.tag, table.place_of("tag").width() - page.px(Measure::kMargin));
    if (row(page, key, {.label = tag})) state.page.open(part.id);
    if (state.wanted == part.id) {
        put_keyboard_here();
        state.wanted = {};
    }
    if (ImGui::IsItemFocused()) state.at = part.id;
    tag_outline(page, at, width_of(page, tag));
    for (const TableColumn& column : part_columns().subspan(1)) {
        const Rect place = table.place_of(column.key);
        if (place.width() <= 0) continue;
        const PartCell cell = part_cell(part, column.key);
        table.cell(column.key, at.y, cell.text, cell.role);
        note_area(page, key + "." + std::string(column.key), cell.text,
                  {place.left, at.y, place.right, at.y + 1});
    }
}

Result<PartsRead> read_parts(const Notebook& book) {
    auto parts = list_parts(book);
    if (!parts) return parts.failure();
    PartsRead read{std::move(*parts), {}, {}};
    for (const Part& part : read.parts) {
        read.said.push_back(
            lower_ascii(part.tag + ' ' + part.name + ' ' + part.maker + ' ' + part.place));
        if (part.tag.size() > read.longest_tag.size()) read.longest_tag = part.tag;
    }
    return read;
}

std::vector<std::size_t> holding(const PartsRead& read, const std::string& words,
                                 const TableState& table) {
    const std::string typed = lower_ascii(words);
    const auto needles = split(typed, ' ');
    std::vector<std::size_t> shown;
    for (std::size_t i = 0; i < read.parts.size(); ++i)
        if (std::ranges::all_of(needles, [&](std::string_view needle) {
                return read.said[i].find(needle) != std::string::npos;
            }))
            shown.push_back(i);
    if (!table.by.empty()) order_parts(shown, read.parts, table.by, table.downwards);
    return shown;
}

// The parts of the list, by their place in it.
struct PartsShown {
    const std::vector<Part>& all;
    const std::vector<std::size_t>& shown;
    const std::string& longest_tag; // among all, so that columns stay where they are

    std::size_t size() const { return shown.size(); }
    bool empty() const { return shown.empty(); }
    const Part& operator[](std::size_t place) const { return all[shown[place]]; }
    std::optional<std::size_t> place_of(PartId id) const {
        const auto at =
            std::ranges::find(shown, id, [this](std::size_t each) { return all[each].id; });
        if (at == shown.end()) return std::nullopt;
        return static_cast<std::size_t>(at - shown.begin());
    }
};

// Read when parts have changed; what is typed only looks through what was read.
PartsShown parts_shown(const Context& context, PartsState& state) {
    const PartsRead& read = state.all.beside(
        context.side, context.book, 0, [](const Notebook& book, int) { return read_parts(book); });
    const PartsAsked asked{state.words, state.table.by, state.table.downwards,
                           state.all.readings()};
    const auto& shown = state.list.of(context.book, asked, [&](const PartsAsked&) {
        return Result<std::vector<std::size_t>>(holding(read, state.words, state.table));
    });
    return {read.parts, shown, read.longest_tag};
}

void come_in(PartsState& state, const PartsShown& parts) {
    if (!just_came_in(state.last_frame) || parts.empty()) return;
    state.wanted = parts.place_of(state.at) ? state.at : parts[0].id;
}

void draw_list(Page& page, PartsState& state, const PartsShown& parts) {
    const float room = ImGui::GetContentRegionAvail().x - ImGui::GetStyle().ScrollbarSize;
    std::vector<TableColumn> columns(part_columns().begin(), part_columns().end());
    const float tag = width_of(page, parts.longest_tag) / page.px(1) + Measure::kMargin;
    columns.front().least = std::max(columns.front().least, tag);
    Table table(page, "parts", columns, state.table, room);
    table.heads();
    rule(page);
    ImGui::BeginChild("parts.list", ImVec2(0, list_height(page)), false,
                      ImGuiWindowFlags_NavFlattened);
    if (state.wanted && !state.all.is_reading()) { // else it may be there in a moment
        if (const auto at = parts.place_of(state.wanted))
            page.reg.ask_row("parts.list", int(*at));
        else
            state.wanted = {};
    }
    rows(page, "parts.list", static_cast<int>(parts.size()), Measure::kRow,
         [&](int i) { draw_row(page, state, table, parts[std::size_t(i)]); });
    if (parts.empty()) body(page, "No part holds these words.", Role::pencil);
    ImGui::EndChild();
}

// What the parts are for, and what of it lacks.
void other_views(Page& page, PartsState& state) {
    Flow flow(page, Measure::kStep);
    const auto act = [&](std::string_view key, std::string_view label, char letter) {
        const std::string hint(1, letter);
        const ButtonLook look{.weight = Weight::quiet, .key_hint = hint};
        flow.place_button(label, look);
        return button(page, key, label, look) || pressed({.key = letter});
    };
    if (act("parts.positions", "positions on the vehicle", 'P')) state.view = PartsView::positions;
    if (act("parts.missing", "what is missing", 'M')) state.view = PartsView::missing;
}

void list_screen(Page& page, Context& context, PartsState& state) {
    const PartsShown parts = parts_shown(context, state);
    if (!state.all.failure().empty())
        notice(page, "parts.trouble", Tell::stop, state.all.failure());
    heading(page, "Parts");
    if (state.all.nothing_yet()) return being_read(page, "parts.reading");
    ImGui::SameLine(0, page.px(Measure::kMargin));
    words_beside(page, parts.size() == 1 ? "1 part" : std::to_string(parts.size()) + " parts",
                 Role::pencil);
    if (parts.empty() && state.words.empty()) {
        if (empty_page(page, "parts.empty",
                       {"Each piece taken off the vehicle, or bought for it, has a tag, a "
                        "condition, a decision and a place. Photos, marks and entries are tied "
                        "to it.",
                        "add the first part", "N"}) ||
            pressed({.key = 'N'}))
            begin_adding(state);
        other_views(page, state);
        return;
    }
    const bool find = pressed({.key = 'F'});
    text_field(page, "parts.words", state.words,
               {.hint = "words in tag, name, maker or place", .width = 320, .take_focus = find});
    ImGui::SameLine(0, page.px(Measure::kStep));
    words_beside(page, "F", Role::pencil, Face::fine);
    page.reg.note_key("F", "words to look for");
    Flow flow(page, Measure::kMargin);
    flow.go_on();
    const ButtonLook add{.weight = Weight::plain, .key_hint = "N"};
    flow.place_button("add a part", add);
    if (button(page, "parts.add", "add a part", add) || pressed({.key = 'N'})) begin_adding(state);
    other_views(page, state);
    Flow after(page, Measure::kMargin);
    after.go_on();
    after.place_button("columns", {.weight = Weight::quiet});
    choose_columns(page, "parts", part_columns(), state.table);
    gap(page);
    come_in(state, parts);
    draw_list(page, state, parts);
}

void add(Context& context, PartsState& state) {
    Part part{.vehicle = state.fresh.vehicle};
    if (!read_fields(context.book, state.fresh, part)) return;
    const auto added = add_part(context.book, part);
    if (!context.went_well(added)) {
        note_refusal(state.fresh, added.failure().sentence);
        context.trouble.clear(); // it stands beside its field
        return;
    }
    state.adding = false;
    state.page.open(added->id);
}

void form_screen(Page& page, Context& context, PartsState& state) {
    constexpr Chord kAdd{'K', true}; // Ctrl Enter writes the entry, wherever one is
    const bool escaped = pressed({.key = static_cast<int>(Key::escape)});
    heading(page, "A new part");
    gap(page);
    FieldDone done;
    PartFields& fields = state.fresh;
    what_it_is(page, context, "parts.form", fields, state.adding_begins, done);
    state.adding_begins = false;
    for (const char* field : {"condition", "origin", "decision"})
        choose_word(page, "parts.form", fields, field, done);
    what_is_known(page, context, "parts.form", fields, done);
    if (!done.field.empty() && !fields.typed[done.field].empty()) {
        Part scratch; // only to hear at once whether the field reads
        read_field(context.book, fields, done.field, scratch);
    }
    gap(page);
    if (button(page, "parts.form.add", "add the part",
               {.weight = Weight::next, .key_hint = words_of(kAdd)}) ||
        pressed(kAdd, true))
        add(context, state);
    ImGui::SameLine(0, page.px(Measure::kGap));
    if (button(page, "parts.form.leave", "leave", {.key_hint = "Esc"}) || escaped)
        state.adding = false;
}

void positions_view(Page& page, Context& context, PartsState& state) {
    const auto end = draw_positions(page, context, state.positions);
    if (end == PositionsEnd::to_parts) state.view = PartsView::parts;
    if (end == PositionsEnd::to_missing) state.view = PartsView::missing;
    if (!std::exchange(state.positions.page.wants_part, false)) return;
    begin_adding(state);
    if (const auto position = position_by_id(context.book, state.positions.page.position)) {
        state.fresh.typed["position"] = position->number;
        state.fresh.typed["name"] = position->name;
        state.fresh.vehicle = position->vehicle;
    }
}

void missing_view(Page& page, Context& context, PartsState& state) {
    const auto end = draw_missing(page, context, state.missing);
    if (end == MissingEnd::to_parts) state.view = PartsView::parts;
    if (end == MissingEnd::to_positions) state.view = PartsView::positions;
    if (const auto id = std::exchange(state.missing.open, {})) {
        state.view = PartsView::positions;
        state.positions.page.open(id);
    }
}

} // namespace

void draw_parts(Page& page, Context& context, SideWork& work, PartsState& state) {
    if (state.adding)
        form_screen(page, context, state);
    else if (state.page.part)
        draw_part_page(page, context, work, state.page);
    else if (state.view == PartsView::positions)
        positions_view(page, context, state);
    else if (state.view == PartsView::missing)
        missing_view(page, context, state);
    else
        list_screen(page, context, state);
}

void lead_to(PartsState& state, const Place& place) {
    if (!place.view.empty()) {
        state.adding = false;
        state.page.part = {};
        state.view = place.view == "missing"     ? PartsView::missing
                     : place.view == "positions" ? PartsView::positions
                     : place.view == "group"     ? PartsView::positions
                                                 : PartsView::parts;
        state.positions.adding = state.positions.import.open = false;
        state.positions.page.position = {};
        if (place.view == "new")
            begin_adding(state);
        else if (place.view == "group")
            state.positions.show_group(VehicleId{place.with}, PositionId{place.record});
        else if (place.record != 0)
            state.positions.page.open(PositionId{place.record});
        return;
    }
    if (place.record == 0) return;
    state.adding = false;
    state.at = PartId{place.record};
    state.page.open(state.at);
}

void open_list(PartsState& state, const std::filesystem::path& file) {
    lead_to(state, {.screen = "parts", .view = "positions"});
    state.positions.import.begin(file.string());
}

} // namespace fettle::ui

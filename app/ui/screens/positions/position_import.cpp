#include "ui/screens/positions/position_import.h"

#include "base/text.h"
#include "desk/list_file.h"
#include "ui/frame/input_queue.h"
#include "ui/widgets/acts.h"
#include "ui/widgets/fields.h"
#include "ui/widgets/flow.h"
#include "ui/widgets/readings.h"

#include <imgui.h>

#include <algorithm>

namespace fettle::ui {
namespace {

constexpr Chord kTakeIn{'K', true}; // Ctrl Enter writes the entry, wherever one is
constexpr std::size_t kMostTroubles = 100, kMostColumns = 24;

// "~/list.csv" as a shell has it.
std::filesystem::path file_of(const std::string& typed) {
    std::string text(trim(typed));
    const char* home = std::getenv("HOME");
    if (text.starts_with("~/") && home != nullptr) text = home + text.substr(1);
    return text;
}

void read_file(PositionImport& state) {
    state.read = false;
    state.trouble.clear();
    if (trim(state.path).empty()) return;
    auto table = desk::read_list_file(file_of(state.path),
                                      state.windows_1252 ? CsvText::windows_1252 : CsvText::utf8);
    if (!table) {
        state.trouble = table.failure().sentence;
        return;
    }
    state.table = std::move(*table);
    state.columns = match_columns(state.table);
    state.read = true;
    ++state.readings;
}

void which_file(Page& page, PositionImport& state) {
    const FieldChange path = text_field(page, "positions.import.path", state.path,
                                        {.label = "the list as CSV; or drop the file on the window",
                                         .hint = "~/parts list.csv, then Enter",
                                         .error = state.trouble,
                                         .take_focus = state.begins});
    state.begins = false;
    if (path.edited) state.trouble.clear();
    bool again = path.entered || path.left;
    again |= check(page, "positions.import.1252", "the file is in Windows-1252, not in UTF-8",
                   state.windows_1252);
    if (again) read_file(state);
}

// For each column of ours one of the table's, by its heading.
void which_columns(Page& page, PositionImport& state) {
    const auto& rows = state.table.rows;
    if (rows.empty()) return;
    std::vector<std::string> names{"none"};
    std::size_t columns = 0;
    for (const CsvRow& row : rows)
        columns = std::max(columns, row.fields.size());
    for (std::size_t at = 0; at < std::min(columns, kMostColumns); ++at) {
        const auto& heading = rows.front().fields;
        const std::string head =
            at < heading.size() ? std::string(trim(heading[at])) : std::string();
        names.push_back(state.columns.has_heading && !head.empty()
                            ? cut_to(page, head, page.px(160))
                            : "column " + std::to_string(at + 1));
    }
    gap(page);
    words(page, "Which column is which");
    rule(page);
    check(page, "positions.import.heading", "the first row names the columns",
          state.columns.has_heading);
    for (std::size_t which = 0; which < kListColumns.size(); ++which) {
        auto& from = state.columns.from[which];
        int chosen = from && *from < kMostColumns ? int(*from) + 1 : 0;
        const float left = ImGui::GetCursorPosX();
        words_beside(page, kListColumns[which], Role::pencil);
        ImGui::SameLine(left + page.px(96));
        ImGui::BeginGroup();
        if (choice(page, std::string("positions.import.") + kListColumns[which], names, chosen)) {
            from.reset();
            if (chosen > 0) from = std::size_t(chosen - 1);
        }
        ImGui::EndGroup();
    }
}

std::string what_it_does(const ListPreview& preview) {
    const auto as_they_were =
        preview.rows.size() - std::size_t(preview.adds) - std::size_t(preview.changes);
    return std::to_string(preview.adds) + " new, " + std::to_string(preview.changes) +
           " changed, " + std::to_string(as_they_were) + " as they were";
}

void troubles(Page& page, const ListPreview& preview) {
    if (preview.troubles.empty()) return;
    const std::string count = preview.troubles.size() == 1
                                  ? "1 field is"
                                  : std::to_string(preview.troubles.size()) + " fields are";
    notice(page, "positions.import.troubles", Tell::stop,
           count + " wrong, so nothing can be taken in yet. Mend the file and press Enter in its "
                   "line, or choose other columns.");
    for (std::size_t i = 0; i < std::min(preview.troubles.size(), kMostTroubles); ++i) {
        fine_print(page, preview.troubles[i].sentence, Role::red_lead);
        note(page, "positions.import.trouble." + std::to_string(i), preview.troubles[i].sentence);
    }
    if (preview.troubles.size() > kMostTroubles) fine_print(page, "… and more.");
}

void draw_rows(Page& page, const ListPreview& preview) {
    const float room = ImGui::GetContentRegionAvail().x - ImGui::GetStyle().ScrollbarSize;
    ImGui::BeginChild("positions.import.list",
                      ImVec2(0, std::max(page.px(200), ImGui::GetContentRegionAvail().y)), false,
                      ImGuiWindowFlags_NavFlattened);
    rows(page, "positions.import.rows", int(preview.rows.size()), Measure::kRow, [&](int i) {
        const ListRow& one = preview.rows[std::size_t(i)];
        const Position& at = one.position;
        const std::string said =
            at.number + "   " + at.name + "   × " + std::to_string(at.quantity) +
            (at.group.empty() ? "" : "   " + at.group) + (at.spec.empty() ? "" : "   " + at.spec);
        const char* does = one.does == RowDoes::adds      ? "new"
                           : one.does == RowDoes::changes ? "changed"
                                                          : "as it was";
        row(page, "positions.import.row." + std::to_string(one.row),
            {.label = cut_to(page, said, room - page.px(120)),
             .aside = does,
             .aside_role = one.does == RowDoes::nothing ? Role::pencil : Role::verdigris});
    });
    ImGui::EndChild();
}

void take_in(Context& context, PositionImport& state, const Vehicle& vehicle,
             const ListPreview& preview) {
    const Done taken = take_in_list(context.book, vehicle.id, preview);
    if (taken) {
        context.went_well(taken);
        state.open = false;
        return;
    }
    state.trouble = taken.failure().sentence;
}

} // namespace

void PositionImport::begin(const std::string& file) {
    open = begins = true;
    path = file;
    read = false;
    trouble.clear();
    if (!file.empty()) read_file(*this);
}

void draw_position_import(Page& page, Context& context, PositionImport& state,
                          const Vehicle& vehicle) {
    const bool escaped = pressed({.key = static_cast<int>(Key::escape)});
    heading(page, cut_to(page, "Take in a parts list of " + vehicle.name,
                         ImGui::GetContentRegionAvail().x, Face::heading));
    fine_print(page,
               "Nothing is changed before you say so; then all of it is taken in, or nothing. "
               "Positions that are there already are known by their number.");
    which_file(page, state);
    const ListPreview* preview = nullptr;
    if (state.read) {
        which_columns(page, state);
        gap(page);
        preview = &state.preview.of(context.book, {vehicle.id, state.columns, state.readings},
                                    [&](const PositionImport::Question& asked) {
                                        return preview_list(context.book, asked.vehicle,
                                                            state.table, asked.columns);
                                    });
        words(page, what_it_does(*preview));
        note(page, "positions.import.does", what_it_does(*preview));
    }
    const bool can = preview != nullptr && preview->troubles.empty() && !preview->rows.empty();
    if (button(page, "positions.import.take", "take it in",
               {.weight = Weight::next, .key_hint = words_of(kTakeIn), .enabled = can}) ||
        (can && pressed(kTakeIn, true)))
        take_in(context, state, vehicle, *preview);
    ImGui::SameLine(0, page.px(Measure::kGap));
    if (button(page, "positions.import.leave", "leave",
               {.weight = Weight::quiet, .key_hint = "Esc"}) ||
        escaped)
        state.open = false;
    if (preview == nullptr) return;
    gap(page);
    troubles(page, *preview);
    draw_rows(page, *preview);
}

} // namespace fettle::ui

#include "ui/screens/log/log_entry.h"

#include "desk/worked.h"
#include "ui/pictures/photo_row.h"
#include "ui/widgets/acts.h"
#include "ui/widgets/flow.h"
#include "ui/widgets/marked_view.h"
#include "ui/widgets/readings.h"

#include <imgui.h>

#include <algorithm>

namespace fettle::ui {
namespace {

void draw_names(Page& page, const std::string& key, const LoggedEntry& logged, Context& context) {
    Flow flow(page, 12);
    for (const Part& part : logged.parts) {
        flow.place(tag_width(page, part.tag) + page.px(6) + width_of(page, part.name));
        const std::string id = std::to_string(part.id.value);
        if (tag_chip(page, key + "part." + id, part.tag))
            context.go = Place{"parts", part.id.value};
        ImGui::SameLine(0, page.px(6));
        if (link(page, key + "part_name." + id, part.name))
            context.go = Place{"parts", part.id.value};
    }
    for (const Task& task : logged.tasks) {
        const std::string said = "task " + std::to_string(task.id.value) + ", " + task.title;
        flow.place_link(said);
        if (link(page, key + "task." + std::to_string(task.id.value), said))
            context.go = Place{"tasks", task.id.value};
    }
}

void draw_photos_of(Page& page, const std::string& key, const LoggedEntry& logged,
                    Context& context) {
    std::vector<RowPhoto> row;
    for (std::size_t i = 0; i < logged.photos.size(); ++i)
        row.push_back({logged.photos[i], std::string(word(logged.stages[i]))});
    gap(page);
    if (const auto pressed_one = photo_row(page, key + "photo", context.pixels, row))
        context.go = Place{"photos", pressed_one->value};
}

void ask_again(const ShownAnswer& kept, ResultState& state, const EntryTools& tools) {
    state.again = std::make_shared<Coming<calc::SheetRun>>();
    state.fresh.reset();
    state.said.clear();
    tools.work.ask<calc::SheetRun>(state.again,
                                   [&sheets = tools.context.sheets, answer = kept.answer] {
                                       return calc::try_again(sheets, answer);
                                   });
}

void take_again(const ShownAnswer& kept, ResultState& state) {
    if (!state.again) return;
    auto run = state.again->take();
    if (!run) return;
    if (!run->answer) {
        state.said = run->failure ? run->failure->sentence : "It cannot be run again.";
        return;
    }
    const std::string version = run->answer->plugin_name + " " + run->answer->plugin_version;
    if (calc::agree(kept.answer, *run->answer)) {
        state.said = version + " gives the same today.";
        return;
    }
    state.said = version + " gives another answer today:";
    state.fresh = shown_answer(std::move(*run->answer));
}

void draw_answer(Page& page, const std::string& key, const LoggedResult& result,
                 const EntryTools& tools) {
    const ShownAnswer& shown = *result.shown;
    ResultState& state = tools.results[result.record.id];
    take_again(shown, state);
    words(page, shown.answer.sheet_title);
    note(page, key + "title", shown.answer.sheet_title);
    fine_words(page, shown.answer.sheet_id + "   " + shown.answer.plugin_name + " " +
                         shown.answer.plugin_version);
    sheet_results(page, key + "result", shown, state.working_open, {.kept = true});
    if (!state.working_open) ImGui::SameLine(0, page.px(Measure::kGap));
    const bool awaited = state.again && state.again->awaited();
    if (button(page, key + "again", awaited ? "running it again" : "run it again",
               {.weight = Weight::quiet, .enabled = !awaited}))
        ask_again(shown, state, tools);
    if (!state.said.empty()) {
        fine_print(page, state.said, Role::ink);
        note(page, key + "said", state.said);
    }
    if (state.fresh) sheet_results(page, key + "fresh", *state.fresh, state.fresh_working_open);
}

// On a sheet of its own, as if pinned into the log.
void draw_result(Page& page, const std::string& key, const LoggedResult& result,
                 const EntryTools& tools) {
    gap(page);
    const float pad = page.px(Measure::kGap);
    const float width = std::min(ImGui::GetContentRegionAvail().x, page.px(600));
    ImGui::PushStyleVar(ImGuiStyleVar_CellPadding, ImVec2(pad, pad));
    const bool open =
        ImGui::BeginTable(key.c_str(), 1, ImGuiTableFlags_PadOuterX, ImVec2(width, 0));
    ImGui::PopStyleVar();
    if (!open) return;
    ImGui::TableNextRow();
    ImGui::TableSetBgColor(ImGuiTableBgTarget_RowBg0, page.tone(Role::sheet));
    ImGui::TableNextColumn();
    if (result.shown)
        draw_answer(page, key, result, tools);
    else
        notice(page, key + "trouble", Tell::stop, result.trouble);
    ImGui::EndTable();
}

std::optional<Place> place_named(const LoggedEntry& logged, const std::string& target) {
    using Kind = NameInText::Kind;
    const auto name = name_of_target(target);
    const auto among = [&](const auto& records, const char* screen) -> std::optional<Place> {
        for (const auto& record : records)
            if (record.id.value == name->number) return Place{screen, name->number};
        return std::nullopt;
    };
    if (!name || name->kind == Kind::sheet) return std::nullopt;
    if (name->kind == Kind::part) return among(logged.parts, "parts");
    if (name->kind == Kind::task) return among(logged.tasks, "tasks");
    return among(logged.photos, "photos");
}

CutText cut_text(const LoggedEntry& logged) {
    std::vector<SheetNamed> sheets;
    for (const LoggedResult& result : logged.results)
        sheets.push_back(
            {result.record.sheet, result.shown ? result.shown->answer.sheet_title : std::string()});
    CutText cut = cut_at_sheets(blocks_of(logged.entry.text), sheets);
    for (auto& piece : cut.pieces)
        lead_runs(piece.blocks, [&](const std::string& target) {
            return place_named(logged, target) ? target : std::string();
        });
    return cut;
}

} // namespace

LoggedEntry read_logged(const Notebook& book, EntryId id) {
    LoggedEntry logged;
    logged.entry.id = id;
    auto entry = entry_by_id(book, id);
    if (!entry) return logged;
    logged.entry = std::move(*entry);
    for (const PartId part : logged.entry.parts)
        if (auto found = part_by_id(book, part)) logged.parts.push_back(std::move(*found));
    for (const TaskId task : logged.entry.tasks)
        if (auto found = task_by_id(book, task)) logged.tasks.push_back(std::move(*found));
    for (const PhotoAtStage& at : logged.entry.photos)
        if (auto found = photo_by_id(book, at.photo)) {
            logged.photos.push_back(std::move(*found));
            logged.stages.push_back(at.stage);
        }
    for (const WorkedResult& record : logged.entry.results) {
        LoggedResult result{record, {}, {}};
        if (auto answer = desk::answer_of(record))
            result.shown = shown_answer(std::move(*answer));
        else
            result.trouble = answer.failure().sentence;
        logged.results.push_back(std::move(result));
    }
    logged.text = cut_text(logged);
    return logged;
}

void draw_logged(Page& page, const LoggedEntry& logged, const EntryTools& tools) {
    const std::string key = "log." + std::to_string(logged.entry.id.value) + ".";
    const auto result = [&](std::size_t at) {
        draw_result(page, key + "result." + std::to_string(at) + ".", logged.results[at], tools);
    };
    const ImVec2 at = ImGui::GetCursorScreenPos();
    std::string text_key = key + "text";
    for (const auto& piece : logged.text.pieces) {
        if (&piece != &logged.text.pieces.front()) {
            gap(page);
            text_key = key + "text_below." + std::to_string(&piece - logged.text.pieces.data());
        }
        if (const auto to = marked_text(page, text_key, piece.blocks))
            tools.context.go = place_named(logged, *to);
        for (const std::size_t sheet : piece.sheets)
            result(sheet);
    }
    note_area(page, key + "text", "text",
              {at.x, at.y, at.x + reading_width(page), ImGui::GetCursorScreenPos().y},
              logged.entry.text);
    if (!logged.photos.empty()) draw_photos_of(page, key, logged, tools.context);
    for (const std::size_t sheet : logged.text.unplaced)
        result(sheet);
    if (!logged.parts.empty() || !logged.tasks.empty())
        draw_names(page, key, logged, tools.context);
}

} // namespace fettle::ui

#include "ui/entry_panel.h"

#include "base/quantity.h"
#include "base/text.h"
#include "desk/carrying.h"
#include "desk/drafting.h"
#include "ui/acts.h"
#include "ui/day_words.h"
#include "ui/fields.h"
#include "ui/flow.h"
#include "ui/input_queue.h"
#include "ui/photo_row.h"
#include "ui/readings.h"
#include "ui/screens/candidates.h"

#include <imgui.h>

#include <algorithm>

namespace fettle::ui {
namespace {

constexpr Chord kWrite{static_cast<int>(Key::enter), true};
constexpr Chord kWriteToo{static_cast<int>(Key::s), true};
constexpr Chord kPutIn{static_cast<int>(Key::p), true};
constexpr int kLeastLines = 6, kMostLines = 20, kLettersALine = 40;
constexpr float kThumbnail = 72;
constexpr const char* kMarks = "**strong**   *so*   # heading   - list   > quote";

DraftIds ids_of(const EntryDraft& draft) {
    DraftIds ids{draft.parts, draft.tasks, {}};
    for (const PhotoAtStage& at : draft.photos)
        ids.photos.push_back(at.photo);
    return ids;
}

Result<DraftNames> read_names(const Notebook& book, const DraftIds& ids) {
    DraftNames names;
    for (const PartId id : ids.parts) {
        auto part = part_by_id(book, id);
        names.parts.push_back(part ? std::move(*part) : Part{.id = id});
    }
    for (const TaskId id : ids.tasks) {
        auto task = task_by_id(book, id);
        names.tasks.push_back(task ? std::move(*task) : Task{.id = id});
    }
    for (const PhotoId id : ids.photos) {
        auto photo = photo_by_id(book, id);
        names.photos.push_back(photo ? std::move(*photo) : Photo{.id = id});
    }
    return names;
}

bool day_and_hours(Page& page, EntryDraft& draft) {
    const auto day = draft.day.empty() ? Result<Day>(today()) : parse_day(draft.day);
    std::string understood, wrong;
    if (day)
        understood = with_weekday(*day);
    else
        wrong = day.failure().sentence;
    bool edited = date_field(page, "entry.day", draft.day,
                             {.label = "day", .other = understood, .error = wrong})
                      .edited;
    const auto hours = desk::parse_hours(draft.hours);
    std::string said;
    if (hours && *hours && draft.hours.find_first_of(":/m") != std::string::npos)
        said = said_number(**hours) + " h";
    edited |= text_field(page, "entry.hours", draft.hours,
                         {.label = "hours",
                          .hint = "1 1/2",
                          .unit = "h",
                          .other = said,
                          .error = hours ? std::string_view() : hours.failure().sentence,
                          .width = 132})
                  .edited;
    return edited;
}

bool text(Page& page, EntryDraft& draft, EntryPanelState& state) {
    const auto ends = std::ranges::count(draft.text, '\n');
    const int lines = static_cast<int>(ends + std::ssize(draft.text) / kLettersALine) + 2;
    return text_area(page, "entry.text", draft.text, std::clamp(lines, kLeastLines, kMostLines),
                     {.label = "what was done",
                      .hint = "What was done, found, measured, decided.",
                      .take_focus = std::exchange(state.take_caret, false)})
        .edited;
}

// Words at the right edge that take a thing out of the entry again.
bool out(Page& page, const std::string& key) {
    const float wide = width_of(page, "take out") + 2 * page.px(Measure::kHair);
    ImGui::SameLine(std::max(0.0F, ImGui::GetContentRegionMax().x - wide));
    return button(page, key + ".out", "take out", {.weight = Weight::quiet});
}

template <class Records>
bool take_out(Records& records, std::ptrdiff_t at) {
    if (at < 0) return false;
    records.erase(records.begin() + at);
    return true;
}

bool parts(Page& page, Context& context, const std::vector<Part>& named) {
    std::ptrdiff_t gone = -1;
    for (std::size_t i = 0; i < named.size(); ++i) {
        const Part& part = named[i];
        const std::string key = "entry.part." + std::to_string(part.id.value);
        if (tag_chip(page, key, part.tag)) context.go = Place{"parts", part.id.value};
        ImGui::SameLine();
        const float room = ImGui::GetContentRegionAvail().x - width_of(page, "take out  ");
        words_beside(page, cut_to(page, part.name, room), Role::pencil);
        if (out(page, key)) gone = static_cast<std::ptrdiff_t>(i);
    }
    return take_out(context.draft.parts, gone);
}

bool tasks(Page& page, Context& context, const std::vector<Task>& named) {
    std::ptrdiff_t gone = -1;
    for (std::size_t i = 0; i < named.size(); ++i) {
        const Task& task = named[i];
        const std::string key = "entry.task." + std::to_string(task.id.value);
        const float room = ImGui::GetContentRegionAvail().x - width_of(page, "take out  ");
        const std::string said = "task " + std::to_string(task.id.value) + ", " + task.title;
        if (link(page, key, cut_to(page, said, room))) context.go = Place{"tasks", task.id.value};
        if (out(page, key)) gone = static_cast<std::ptrdiff_t>(i);
    }
    return take_out(context.draft.tasks, gone);
}

// In a row; pressing one leads to it, and each can be taken out below its picture.
bool photos(Page& page, Context& context, const std::vector<Photo>& named) {
    std::ptrdiff_t gone = -1;
    const float tall = page.px(kThumbnail);
    Flow flow(page);
    for (std::size_t i = 0; i < named.size(); ++i) {
        const Photo& photo = named[i];
        const std::string key = "entry.photo." + std::to_string(photo.id.value);
        flow.place(std::max(thumbnail_width(photo, tall), width_of(page, "take out")));
        ImGui::BeginGroup();
        if (thumbnail(page, key, context.pixels, photo, tall))
            context.go = Place{"photos", photo.id.value};
        if (link(page, key + ".out", "take out", Face::fine)) gone = static_cast<std::ptrdiff_t>(i);
        ImGui::EndGroup();
    }
    return take_out(context.draft.photos, gone);
}

// The sheet that takes on what another has found, put in below it.
bool take_on(Context& context, const calc::HandOver& handed) {
    const auto found = context.sheets.find_sheet(handed.sheet);
    if (!found) return false;
    put_in_sheet(context, *found->sheet);
    context.draft.sheets.back().inputs[handed.input] = handed.typed;
    return true;
}

bool sheets(Page& page, Context& context, SideWork& work, EntryPanelState& state) {
    auto& all = context.draft.sheets;
    state.forms.resize(all.size());
    std::ptrdiff_t gone = -1;
    bool edited = false;
    std::optional<calc::HandOver> taken_on;
    for (std::size_t i = 0; i < all.size(); ++i) {
        const std::string key = "entry.sheet." + std::to_string(i);
        gap(page);
        rule(page);
        const auto found = context.sheets.find_sheet(all[i].sheet);
        words_beside(page, found ? found->sheet->title : all[i].sheet);
        note(page, key, all[i].sheet);
        if (i + 1 == all.size() && std::exchange(state.show_last_sheet, false))
            ImGui::SetScrollHereY(0);
        if (out(page, key)) gone = static_cast<std::ptrdiff_t>(i);
        if (!found) {
            notice(page, key + ".missing", Tell::stop, found.failure().sentence);
            continue;
        }
        ImGui::PushID(static_cast<int>(i));
        edited |= sheet_form(page, key, *found->sheet, all[i].inputs, state.forms[i],
                             {context.sheets, work});
        ImGui::PopID();
        if (auto handed = std::exchange(state.forms[i].handed, std::nullopt)) taken_on = handed;
    }
    if (taken_on && take_on(context, *taken_on)) state.show_last_sheet = true;
    if (gone >= 0) state.forms.erase(state.forms.begin() + gone);
    return take_out(all, gone) || edited;
}

template <class Id>
void add_once(std::vector<Id>& ids, Id id) {
    if (std::ranges::find(ids, id) == ids.end()) ids.push_back(id);
}

// What a sheet of the draft is begun with.
calc::TypedInputs begun(Context& context, const calc::Sheet& sheet) {
    const auto day = parse_day(context.draft.day);
    auto inputs = desk::begun_inputs(
        context.book, sheet, {day ? *day : today(), context.draft.tasks, context.draft.editing});
    if (!context.went_well(inputs)) return calc::fresh_inputs(sheet);
    return std::move(*inputs);
}

// What can be put in: worked sheets, parts and open tasks. Ids of the three would collide.
enum class Kind { sheet, part, task };
constexpr std::int64_t kKinds = 3;

void add_of_kind(std::vector<Candidate>& all, Result<std::vector<Candidate>> some, Kind kind,
                 const char* said) {
    if (!some) return;
    for (Candidate& candidate : *some) {
        candidate.id = candidate.id * kKinds + static_cast<std::int64_t>(kind);
        candidate.kind = said;
        all.push_back(std::move(candidate));
    }
}

std::vector<Candidate> sheet_candidates(const calc::Catalogue& catalogue) {
    std::vector<Candidate> all;
    for (const calc::Plugin& plugin : catalogue.plugins())
        for (const calc::Sheet& sheet : plugin.sheets)
            all.push_back({std::ssize(all), sheet.id, sheet.title, {}});
    return all;
}

Result<std::vector<Candidate>> what_can_be_put_in(const Context& context) {
    std::vector<Candidate> all;
    add_of_kind(all, sheet_candidates(context.sheets), Kind::sheet, "worked sheet");
    add_of_kind(all, part_candidates(context.book), Kind::part, "part");
    add_of_kind(all, open_task_candidates(context.book), Kind::task, "task");
    return all;
}

// True when it was a worked sheet.
bool take_in(Context& context, const Candidate& candidate) {
    const std::int64_t id = candidate.id / kKinds;
    const auto kind = static_cast<Kind>(candidate.id % kKinds);
    if (kind == Kind::part) add_once(context.draft.parts, PartId{id});
    if (kind == Kind::task) put_in_task(context, TaskId{id});
    if (kind != Kind::sheet) return false;
    const auto found = context.sheets.find_sheet(candidate.tag);
    if (found) put_in_sheet(context, *found->sheet);
    return found.ok();
}

bool put_in(Page& page, Context& context, EntryPanelState& state) {
    const std::string hint = words_of(kPutIn);
    if (pressed(kPutIn, true)) state.put_in.begin();
    const Candidates candidates = [&]() -> const std::vector<Candidate>& {
        return state.candidates.of(context.book, 0,
                                   [&context](int) { return what_can_be_put_in(context); });
    };
    const FindAnswer answer = find_as_you_type(page, "entry.put_in", state.put_in, candidates,
                                               {.label = "put in a worked sheet, a part, a task",
                                                .hint = "a few letters of its name",
                                                .key_hint = hint});
    if (!answer.taken) return false;
    if (const Candidate* taken = candidate_with(candidates(), *answer.taken))
        state.show_last_sheet = take_in(context, *taken);
    state.put_in = {};
    return true;
}

void question(Page& page, EntryDesk& desk) {
    if (!desk.wants_to_change) return;
    notice(page, "entry.question", Tell::info,
           "This entry is not written yet. Write it first, then the other one opens for changing.");
    if (button(page, "entry.write_first", "write it, then change the other"))
        desk.write_then_change();
    if (button(page, "entry.stay", "stay with this one", {.weight = Weight::quiet}))
        desk.wants_to_change = {};
    gap(page);
}

void footer(Page& page, EntryDesk& desk, float height) {
    ImGui::BeginChild("entry.foot", ImVec2(0, height), false, ImGuiWindowFlags_NavFlattened);
    rule(page);
    if (!desk.trouble.empty()) {
        fine_print(page, desk.trouble, Role::red_lead);
        note(page, "entry.error", desk.trouble);
    }
    const bool blank = desk.draft.blank();
    const std::string hint = words_of(kWrite);
    const char* words_on_it = desk.draft.editing ? "Write the changes" : "Write the entry";
    if (button(page, "entry.write", words_on_it,
               {.weight = blank ? Weight::plain : Weight::next,
                .key_hint = hint,
                .enabled = !blank && !desk.writing()}))
        desk.write();
    if (!blank) {
        ImGui::SameLine(0, page.px(Measure::kGap));
        if (button(page, "entry.aside", "put aside", {.weight = Weight::quiet})) desk.put_aside();
    } else if (desk.has_put_aside()) {
        ImGui::SameLine(0, page.px(Measure::kGap));
        if (button(page, "entry.back", "bring back", {.weight = Weight::quiet})) desk.bring_back();
    }
    if (desk.not_kept.empty()) {
        fine_words(page, kMarks);
        note(page, "entry.marks", kMarks);
    } else {
        const std::string why = "The draft is not kept: " + desk.not_kept;
        fine_print(page, why, Role::red_lead);
        note(page, "entry.not_kept", why);
    }
    ImGui::EndChild();
}

float footer_height(const Page& page, const EntryDesk& desk) {
    const InFace fine(page, Face::fine);
    float height = page.px(Measure::kRow + 2 * Measure::kGap) + ImGui::GetFontSize();
    if (!desk.trouble.empty())
        height +=
            page.px(Measure::kStep) + ImGui::CalcTextSize(desk.trouble.c_str(), nullptr, false,
                                                          ImGui::GetContentRegionAvail().x)
                                          .y;
    return height;
}

} // namespace

std::string entry_title(const EntryDraft& draft) {
    const auto day = parse_day(draft.day);
    const std::string when = day ? to_words(*day) : draft.day;
    return (draft.editing ? "Changing " : "Entry, ") + when;
}

std::string draft_state(const EntryDesk& desk) {
    if (desk.writing()) return "writing";
    if (desk.draft.blank()) return "nothing written yet";
    if (!desk.kept() || !desk.not_kept.empty()) return "not yet saved";
    return desk.kept_at.empty() ? "saved as a draft" : "saved as a draft " + desk.kept_at;
}

void put_in_sheet(Context& context, const calc::Sheet& sheet) {
    context.draft.sheets.push_back({sheet.id, begun(context, sheet)});
    context.draft_edited = true;
}

void put_in_task(Context& context, TaskId task) {
    struct Untouched {
        DraftSheet* kept;
        const calc::Sheet* sheet;
    };
    std::vector<Untouched> untouched;
    for (DraftSheet& kept : context.draft.sheets) {
        const auto found = context.sheets.find_sheet(kept.sheet);
        if (found && kept.inputs == begun(context, *found->sheet))
            untouched.push_back({&kept, found->sheet});
    }
    add_once(context.draft.tasks, task);
    for (const auto& [kept, sheet] : untouched)
        kept->inputs = begun(context, *sheet);
    context.draft_edited = true;
}

void draw_entry_panel(Page& page, Context& context, EntryDesk& desk, SideWork& work,
                      EntryPanelState& state) {
    const float foot = footer_height(page, desk);
    const float room = std::max(page.px(96), ImGui::GetContentRegionAvail().y - foot);
    ImGui::BeginChild("entry.body", ImVec2(0, room), false, ImGuiWindowFlags_NavFlattened);
    ImGui::BeginDisabled(desk.writing());
    question(page, desk);
    const DraftNames& names =
        state.names.of(context.book, ids_of(context.draft),
                       [&context](const DraftIds& ids) { return read_names(context.book, ids); });
    bool edited = day_and_hours(page, context.draft);
    edited |= text(page, context.draft, state);
    edited |= parts(page, context, names.parts);
    edited |= tasks(page, context, names.tasks);
    edited |= photos(page, context, names.photos);
    edited |= sheets(page, context, work, state);
    gap(page);
    edited |= put_in(page, context, state);
    context.draft_edited |= edited;
    ImGui::EndDisabled();
    ImGui::EndChild();
    footer(page, desk, foot);
    if (pressed(kWrite, true) || pressed(kWriteToo, true)) desk.write();
}

} // namespace fettle::ui

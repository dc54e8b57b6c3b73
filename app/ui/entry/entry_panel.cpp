#include "ui/entry/entry_panel.h"

#include "base/quantity.h"
#include "base/text.h"
#include "desk/carrying.h"
#include "desk/drafting.h"
#include "ui/candidates.h"
#include "ui/frame/input_queue.h"
#include "ui/pictures/photo_row.h"
#include "ui/widgets/acts.h"
#include "ui/widgets/day_words.h"
#include "ui/widgets/fields.h"
#include "ui/widgets/flow.h"
#include "ui/widgets/readings.h"

#include <imgui.h>

#include <algorithm>

namespace fettle::ui {
namespace {

constexpr Chord kWrite{static_cast<int>(Key::enter), true};
constexpr Chord kWriteToo{static_cast<int>(Key::s), true};
constexpr Chord kPutIn{static_cast<int>(Key::p), true};
constexpr Chord kAtCaret{static_cast<int>(Key::t), true};
constexpr const char* kAtCaretSays = "a part, task, photo or sheet at the caret, by a few letters";
constexpr int kLeastLines = 6, kMostLines = 20, kLettersALine = 40;
constexpr float kThumbnail = 72;
constexpr const char* kInText = "stands in the text";
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

const std::vector<Candidate>& to_put_in(const Context& context, EntryPanelState& state) {
    return state.candidates.of(context.book, 0,
                               [&context](int) { return what_can_be_put_in(context); });
}

// The list at the caret is asked for; the caret comes first where it is elsewhere.
void ask_at_caret(const EntryDraft& draft, EntryPanelState& state) {
    if (pressed(kAtCaret, true)) state.at_caret = {.awaits_caret = true};
    if (!state.at_caret.awaits_caret) return;
    if (state.caret.there)
        open_caret_list(state.at_caret, draft.text, state.caret);
    else
        state.take_caret = true;
}

void put_in_at_caret(Page& page, Context& context, EntryPanelState& state) {
    const Candidates candidates = [&]() -> const std::vector<Candidate>& {
        return to_put_in(context, state);
    };
    const auto id = draw_caret_list(page, "entry.at_caret", state.at_caret, context.draft.text,
                                    state.caret, candidates);
    const Candidate* taken = id ? candidate_with(candidates(), *id) : nullptr;
    if (!taken) return;
    const auto chosen = put_in_chosen(context, *taken);
    if (!chosen) return;
    state.caret.put =
        put_for_letters(context.draft.text, state.at_caret.from, state.caret.at, *chosen);
    state.take_caret = !state.caret.there;
}

bool text(Page& page, Context& context, EntryPanelState& state) {
    EntryDraft& draft = context.draft;
    const auto ends = std::ranges::count(draft.text, '\n');
    const int lines = static_cast<int>(ends + std::ssize(draft.text) / kLettersALine) + 2;
    ask_at_caret(draft, state);
    const bool escaped = hear_caret_list(state.at_caret);
    const bool edited =
        text_area(page, "entry.text", draft.text, std::clamp(lines, kLeastLines, kMostLines),
                  {.label = "what was done",
                   .hint = "What was done, found, measured, decided.",
                   .take_focus = std::exchange(state.take_caret, false)},
                  &state.caret)
            .edited;
    const std::string keys = words_of(kAtCaret);
    page.reg.note_key(keys, kAtCaretSays);
    fine_print(page, keys + "  " + kAtCaretSays);
    note(page, "entry.at_caret.hint", kAtCaretSays, keys);
    put_in_at_caret(page, context, state);
    state.take_caret = state.take_caret || escaped;
    follow_names(draft, state.named);
    return edited;
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

// What the text says of it becomes words alone.
template <class Records>
bool take_out_named(Context& context, EntryPanelState& state, Records& records, std::ptrdiff_t at,
                    const NameInText& name) {
    if (at >= 0) take_name_out(context, state.named, name);
    return take_out(records, at);
}

bool parts(Page& page, Context& context, EntryPanelState& state, const std::vector<Part>& named) {
    NameInText name{NameInText::Kind::part};
    std::ptrdiff_t gone = -1;
    for (std::size_t i = 0; i < named.size(); ++i) {
        const Part& part = named[i];
        const std::string key = "entry.part." + std::to_string(part.id.value);
        if (tag_chip(page, key, part.tag)) context.go = Place{"parts", part.id.value};
        ImGui::SameLine();
        const float room = ImGui::GetContentRegionAvail().x - width_of(page, "take out  ");
        words_beside(page, cut_to(page, part.name, room), Role::pencil);
        if (!out(page, key)) continue;
        gone = static_cast<std::ptrdiff_t>(i);
        name.number = part.id.value;
    }
    return take_out_named(context, state, context.draft.parts, gone, name);
}

bool tasks(Page& page, Context& context, EntryPanelState& state, const std::vector<Task>& named) {
    NameInText name{NameInText::Kind::task};
    std::ptrdiff_t gone = -1;
    for (std::size_t i = 0; i < named.size(); ++i) {
        const Task& task = named[i];
        const std::string key = "entry.task." + std::to_string(task.id.value);
        const float room = ImGui::GetContentRegionAvail().x - width_of(page, "take out  ");
        const std::string said = "task " + std::to_string(task.id.value) + ", " + task.title;
        if (link(page, key, cut_to(page, said, room))) context.go = Place{"tasks", task.id.value};
        if (!out(page, key)) continue;
        gone = static_cast<std::ptrdiff_t>(i);
        name.number = task.id.value;
    }
    return take_out_named(context, state, context.draft.tasks, gone, name);
}

// In a row; pressing one leads to it, and each can be taken out below its picture.
bool photos(Page& page, Context& context, EntryPanelState& state, const std::vector<Photo>& named) {
    NameInText name{NameInText::Kind::photo};
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
        if (link(page, key + ".out", "take out", Face::fine)) {
            gone = static_cast<std::ptrdiff_t>(i);
            name.number = photo.id.value;
        }
        ImGui::EndGroup();
    }
    return take_out_named(context, state, context.draft.photos, gone, name);
}

// What is named and not tied, and what is tied and named no more.
void names_told(Page& page, Context& context, EntryPanelState& state) {
    int number = 0;
    const auto& all =
        state.told.of(context.book, names_to_tell(context.draft, state.named),
                      [&context](const NamesToTell& names) -> Result<std::vector<NameTold>> {
                          return told_of_names(context, names);
                      });
    for (const NameTold& told : all) {
        const std::string key = "entry.name." + std::to_string(number++);
        fine_print(page, told.sentence, Role::ink);
        note(page, key, told.sentence);
        if (told.can_be_tied && button(page, key + ".tie", "tie it", {.weight = Weight::quiet}))
            tie_name(context, told.name);
    }
}

// The sheet that takes on what another has found, put in below it.
bool take_on(Context& context, const calc::HandOver& handed) {
    const auto found = context.sheets.find_sheet(handed.sheet);
    if (!found) return false;
    put_in_sheet(context, *found->sheet);
    context.draft.sheets.back().inputs[handed.input] = handed.typed;
    return true;
}

bool is_named(const NamesFollowed& followed, const NameInText& name) {
    return std::ranges::find(followed.now, name) != followed.now.end();
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
        if (is_named(state.named, name_of_sheet(context.draft, i))) {
            fine_words(page, kInText);
            note(page, key + ".place", kInText);
        }
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
    if (gone < 0) return edited;
    state.forms.erase(state.forms.begin() + gone);
    return take_out_named(context, state, all, gone,
                          name_of_sheet(context.draft, static_cast<std::size_t>(gone)));
}

// What a sheet of the draft is begun with.
calc::TypedInputs begun(Context& context, const calc::Sheet& sheet) {
    const auto day = parse_day(context.draft.day);
    auto inputs = desk::begun_inputs(
        context.book, sheet, {day ? *day : today(), context.draft.tasks, context.draft.editing});
    if (!context.went_well(inputs)) return calc::fresh_inputs(sheet);
    return std::move(*inputs);
}

bool put_in(Page& page, Context& context, EntryPanelState& state) {
    const std::string hint = words_of(kPutIn);
    if (pressed(kPutIn, true)) state.put_in.begin();
    const Candidates candidates = [&]() -> const std::vector<Candidate>& {
        return to_put_in(context, state);
    };
    const FindAnswer answer = find_as_you_type(page, "entry.put_in", state.put_in, candidates,
                                               {.label = "put in a sheet, part, task or photo",
                                                .hint = "a few letters of its name",
                                                .key_hint = hint});
    if (!answer.taken) return false;
    if (const Candidate* taken = candidate_with(candidates(), *answer.taken)) {
        const auto chosen = put_in_chosen(context, *taken);
        state.show_last_sheet = chosen && chosen->name.kind == NameInText::Kind::sheet;
    }
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
    auto& tasks = context.draft.tasks;
    if (std::ranges::find(tasks, task) == tasks.end()) tasks.push_back(task);
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
    edited |= text(page, context, state);
    names_told(page, context, state);
    edited |= parts(page, context, state, names.parts);
    edited |= tasks(page, context, state, names.tasks);
    edited |= photos(page, context, state, names.photos);
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

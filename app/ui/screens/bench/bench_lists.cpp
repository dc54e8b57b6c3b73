#include "base/marked_text.h"
#include "base/text.h"
#include "ui/frame/keyboard_frame.h"
#include "ui/screens/bench/bench.h"
#include "ui/screens/tasks/task_words.h"
#include "ui/widgets/acts.h"
#include "ui/widgets/day_words.h"
#include "ui/widgets/flow.h"
#include "ui/widgets/listed.h"

#include <imgui.h>

#include <algorithm>

namespace fettle::ui {
namespace {

constexpr std::size_t kMost = 40; // of each list; the rest stands on its own screen
constexpr std::size_t kMostReasons = 3;
constexpr std::size_t kDraftWords = 60;

void list_head(Page& page, const char* key, const char* title, std::size_t count) {
    heading(page, title);
    note(page, key, title, std::to_string(count));
    if (count > 0) {
        ImGui::SameLine(0, page.px(Measure::kStep));
        words(page, std::to_string(count), Role::pencil);
    }
    rule(page);
}

// The first thing of the lists gets the keyboard when one comes to the screen.
void take_keyboard(BenchState& state) {
    if (std::exchange(state.take_keyboard, false)) put_keyboard_here();
}

void task_item(Page& page, Context& context, BenchState& state, const TaskStanding& standing,
               std::vector<SaidLine> lines) {
    const Task& task = standing.task;
    const std::string key = "bench.task." + std::to_string(task.id.value);
    const std::string hours = task_hours_words(standing);
    if (listed(page, key, {.title = task.title, .aside = hours, .lines = std::move(lines)}))
        context.go = Place{"tasks", task.id.value};
    take_keyboard(state);
    if (ImGui::IsItemFocused()) state.at = task.id;
}

void ready_item(Page& page, Context& context, BenchState& state, const TaskStanding& standing) {
    std::vector<SaidLine> lines;
    const std::string unlocks = unlocks_in_words(standing);
    if (!unlocks.empty()) lines.push_back({"unlocks " + unlocks, Role::verdigris});
    if (standing.on_longest_chain) lines.push_back({"in the longest chain"});
    if (standing.task.least_temperature_c)
        lines.push_back({"from " + said_number(*standing.task.least_temperature_c) + " °C"});
    const std::string_view note = trim(standing.task.note);
    if (!note.empty()) lines.push_back({std::string(note.substr(0, note.find('\n')))});
    task_item(page, context, state, standing, std::move(lines));
}

void more(Page& page, Context& context, const char* key, std::size_t all, const char* screen) {
    if (all <= kMost) return;
    if (link(page, key, "and " + std::to_string(all - kMost) + " more")) context.go = Place{screen};
}

// A thing that leads somewhere, without a task.
bool thing(Page& page, Context& context, BenchState& state, const std::string& key,
           const ListedLook& look, const Place& to) {
    const bool pressed = listed(page, key, look);
    take_keyboard(state);
    if (pressed) context.go = to;
    return pressed;
}

std::string firm_and_purpose(const Consignment& one) {
    return one.firm + ": " + one.purpose;
}

std::string awaited_words(const Consignment& one) {
    std::vector<std::string> tags;
    for (const ConsignmentItem& item : one.items)
        if (item.awaited()) tags.push_back(item.tag);
    return join(tags, ", ");
}

void out_item(Page& page, Context& context, BenchState& state, const Consignment& one, Role role) {
    std::vector<SaidLine> lines{{standing_words(one, today()), role}};
    const std::string awaited = awaited_words(one);
    if (!awaited.empty()) lines.push_back({awaited});
    if (one.sent_on) lines.push_back({"since " + to_words(*one.sent_on)});
    thing(page, context, state, "bench.out." + std::to_string(one.id.value),
          {.title = firm_and_purpose(one), .lines = std::move(lines)}, {"sent_out", one.id.value});
}

// Below a task that waits: the parts, and who has them.
void reason_links(Page& page, Context& context, const TaskStanding& standing) {
    Flow flow(page, Measure::kGap);
    const std::string key = "bench.task." + std::to_string(standing.task.id.value) + ".to.";
    std::vector<std::string> said;
    for (const Wait& wait : standing.waits)
        for (const WaitLink& to : links_of(wait)) {
            if (to.place.screen == "tasks" || std::ranges::find(said, to.words) != said.end())
                continue;
            flow.place_link(to.words, Face::fine);
            if (said.empty()) {
                const ImVec2 at = ImGui::GetCursorPos();
                ImGui::SetCursorPos(
                    ImVec2(at.x + page.px(Measure::kStep), at.y - 2 * page.px(Measure::kStep)));
            }
            if (link(page, key + std::to_string(said.size()), to.words, Face::fine))
                context.go = to.place;
            said.push_back(to.words);
        }
}

void waiting_item(Page& page, Context& context, BenchState& state, const TaskStanding& standing) {
    std::vector<SaidLine> lines;
    for (const Wait& wait : standing.waits) {
        if (lines.size() == kMostReasons) break;
        lines.push_back({"for " + wait.words, Role::brass});
    }
    if (standing.waits.size() > lines.size())
        lines.push_back(
            {"and " + std::to_string(standing.waits.size() - lines.size()) + " more", Role::brass});
    if (standing.after.tasks > 0)
        lines.push_back({"holds up " + hours_in_words(standing.after.hours) + " of work"});
    task_item(page, context, state, standing, std::move(lines));
    reason_links(page, context, standing);
}

// ---- needs a look ---------------------------------------------------------------------------

std::string ago(Day day) {
    const auto days = (std::chrono::sys_days(today()) - std::chrono::sys_days(day)).count();
    return days <= 0 ? "today" : days == 1 ? "yesterday" : std::to_string(days) + " days ago";
}

void arrival_item(Page& page, Context& context, BenchState& state, const Arrival& arrival) {
    const std::string key =
        "bench.arrival." + std::to_string(arrival.consignment.value) + "." + arrival.tag;
    thing(page, context, state, key,
          {.title = arrival.tag + " " + arrival.name,
           .lines = {{(arrival.inward ? "came from " : "back from ") + arrival.firm + " " +
                          ago(arrival.on),
                      Role::brass},
                     {"nothing is written of it since"}}},
          {"parts", arrival.part.value});
    const ImVec2 at = ImGui::GetCursorPos();
    ImGui::SetCursorPos(ImVec2(at.x + page.px(Measure::kStep), at.y - 2 * page.px(Measure::kStep)));
    if (link(page, key + ".seen", "looked at it, all is well", Face::fine))
        context.went_well(looked_at(context.book, arrival.consignment, arrival.part, today()));
}

std::string draft_words(const EntryDraft& draft) {
    std::string text = first_line_of_marked(draft.text);
    if (text.empty()) return "nothing written yet, but things put into it";
    if (text.size() <= kDraftWords) return text;
    const auto blank = text.rfind(' ', kDraftWords);
    return text.substr(0, blank == std::string::npos ? kDraftWords : blank) + " …";
}

void draft_item(Page& page, Context& context, BenchState& state) {
    const EntryDraft& draft = context.draft;
    if (draft.blank()) return;
    if (listed(page, "bench.draft",
               {.title = draft.editing ? "an entry being changed" : "an entry not written yet",
                .lines = {{safe_utf8(draft_words(draft))}}}))
        context.write_on = true;
    take_keyboard(state);
}

void photo_items(Page& page, Context& context, BenchState& state, const OnBench& all) {
    const auto say = [&](const char* key, int count, const char* one, const char* several,
                         const char* under) {
        if (count == 0) return;
        const std::string title = std::to_string(count) + (count == 1 ? one : several);
        thing(page, context, state, key, {.title = title, .lines = {{under}}}, {"photos"});
    };
    say("bench.runs", all.runs_to_confirm, " run of photos to confirm",
        " runs of photos to confirm", "proposed by a tag that was photographed");
    say("bench.untied", all.untied_photos, " photo tied to nothing", " photos tied to nothing",
        "tie them to a part, a task or an entry");
}

void seen_items(Page& page, Context& context, BenchState& state, const OnBench& all) {
    for (const SeenArrival& seen : all.seen)
        thing(page, context, state, "bench.seen." + std::to_string(seen.photo.value),
              {.title = join(seen.tags, ", ") + " in a photo",
               .lines = {{"still awaited with consignment " +
                              std::to_string(seen.consignment.value) + ": tick off what came",
                          Role::brass}}},
              {"sent_out", seen.consignment.value});
}

} // namespace

void draw_can_be_done(Page& page, Context& context, BenchState& state, const BenchRead& read) {
    list_head(page, "bench.ready", "Can be done now", read.next.size());
    if (read.all.tasks.empty()) {
        body(page, "No tasks yet.", Role::pencil);
        if (link(page, "bench.add_task", "add the first task")) context.go = Place{"tasks"};
        return;
    }
    if (read.next.empty()) body(page, "Nothing can be done now.", Role::pencil);
    bool told = false;
    for (std::size_t i = 0; i < std::min(kMost, read.next.size()); ++i) {
        if (!read.next[i].fits && !std::exchange(told, true)) {
            gap(page);
            fine_words(page, "longer than there is time");
            note(page, "bench.longer", "longer than there is time");
        }
        ready_item(page, context, state, *read.next[i].standing);
    }
    more(page, context, "bench.ready.more", read.next.size(), "tasks");
}

void draw_waits(Page& page, Context& context, BenchState& state, const BenchRead& read) {
    const auto is_out = [](const Consignment& one) {
        return one.state(today()) == ConsignmentState::out;
    };
    const auto out = std::ranges::count_if(read.all.consignments, is_out);
    list_head(page, "bench.waits", "Waits", read.waits.size() + static_cast<std::size_t>(out));
    if (read.waits.empty() && out == 0) body(page, "Nothing waits.", Role::pencil);
    for (const Consignment& one : read.all.consignments)
        if (is_out(one)) out_item(page, context, state, one, Role::brass);
    for (std::size_t i = 0; i < std::min(kMost, read.waits.size()); ++i)
        waiting_item(page, context, state, *read.waits[i]);
    more(page, context, "bench.waits.more", read.waits.size(), "tasks");
}

void draw_needs_a_look(Page& page, Context& context, BenchState& state, const BenchRead& read) {
    const OnBench& all = read.all;
    const auto is = [](ConsignmentState wanted) {
        return [wanted](const Consignment& one) { return one.state(today()) == wanted; };
    };
    const auto late = std::ranges::count_if(all.consignments, is(ConsignmentState::overdue));
    const auto packed = std::ranges::count_if(all.consignments, is(ConsignmentState::packed));
    const std::size_t count = static_cast<std::size_t>(late + packed) + all.arrivals.size() +
                              all.seen.size() + (all.untied_photos > 0) +
                              (all.runs_to_confirm > 0) + !context.draft.blank();
    list_head(page, "bench.look", "Needs a look", count);
    if (count == 0) body(page, "Nothing does.", Role::pencil);
    for (const Consignment& one : all.consignments)
        if (is(ConsignmentState::overdue)(one)) out_item(page, context, state, one, Role::red_lead);
    seen_items(page, context, state, all);
    for (std::size_t i = 0; i < std::min(kMost, all.arrivals.size()); ++i)
        arrival_item(page, context, state, all.arrivals[i]);
    more(page, context, "bench.look.more", all.arrivals.size(), "sent_out");
    draft_item(page, context, state);
    for (const Consignment& one : all.consignments)
        if (is(ConsignmentState::packed)(one)) out_item(page, context, state, one, Role::pencil);
    photo_items(page, context, state, all);
    if (!state.backup.empty())
        thing(page, context, state, "bench.backup", {.title = "Back up", .lines = {{state.backup}}},
              {"keeping"});
}

} // namespace fettle::ui

#include "ui/screens/tasks/task_reasons.h"

#include "ui/screens/tasks/task_words.h"
#include "ui/widgets/acts.h"
#include "ui/widgets/flow.h"

#include <imgui.h>

#include <algorithm>

namespace fettle::ui {
namespace {

std::string span_words(const TaskStanding& standing) {
    if (standing.on_longest_chain) return "It is in the longest chain: every hour of delay counts.";
    if (standing.span.slack() <= 0) return {};
    return "It can be put off by " + hours_in_words(standing.span.slack()) +
           " of work before the whole takes longer.";
}

Result<ReadReasons> read_reasons(const Notebook& book, Day day, TaskId id) {
    const auto tasks = list_tasks(book, day);
    if (!tasks) return tasks.failure();
    const TaskIndex index(*tasks);
    const TaskStanding* standing = index.find(id);
    ReadReasons read;
    if (!standing || standing->task.state != TaskState::open) return read;
    read.open = true;
    read.waits = standing->waits;
    for (HeldUpBy& held : held_up_by(index, id))
        if (held.at != id && std::ranges::none_of(standing->waits, [&](const Wait& wait) {
                return wait.task && wait.task == held.wait.task;
            }))
            read.in_the_end.push_back(std::move(held));
    read.unlocks = unlocks_in_words(*standing);
    read.span = span_words(*standing);
    return read;
}

// The reason, and beside it, or below where it takes the whole line, what of it can be followed.
void draw_reason(Page& page, Context& context, const std::string& key, const Wait& wait) {
    const auto links = links_of(wait);
    float wide = width_of(page, wait.words);
    for (const WaitLink& to : links)
        wide += page.px(Measure::kGap) + width_of(page, to.words);
    const bool beside = wide <= ImGui::GetContentRegionAvail().x;
    if (beside)
        words_beside(page, wait.words, Role::brass);
    else
        body(page, wait.words, Role::brass);
    note(page, key, wait.words);
    Flow flow(page, Measure::kGap);
    if (beside) flow.go_on();
    int number = 0;
    for (const WaitLink& to : links) {
        flow.place_link(to.words);
        if (link(page, key + "." + std::to_string(number++), to.words)) context.go = to.place;
    }
}

} // namespace

void draw_task_reasons(Page& page, Context& context, TaskId task, TaskReasons& reasons) {
    if (!task) return;
    const ReadReasons& read =
        reasons.read.of(context.book, {today(), task.value},
                        [&](const auto&) { return read_reasons(context.book, today(), task); });
    if (!read.open) return;
    int number = 0;
    const auto next_key = [&] { return "task.reason." + std::to_string(number++); };
    if (read.waits.empty())
        words(page, "ready" + (read.unlocks.empty() ? "" : ", unlocks " + read.unlocks),
              Role::verdigris);
    else
        fine_words(page, "waits for");
    for (const Wait& wait : read.waits)
        draw_reason(page, context, next_key(), wait);
    if (!read.in_the_end.empty()) fine_words(page, "held up, further back, by");
    for (const HeldUpBy& held : read.in_the_end)
        draw_reason(page, context, next_key(), held.wait);
    if (!read.span.empty()) fine_print(page, read.span);
    gap(page);
}

} // namespace fettle::ui

#include "ui/screens/tasks/task_worked.h"

#include "ui/widgets/acts.h"
#include "ui/widgets/readings.h"

#include <algorithm>

namespace fettle::ui {
namespace {

Result<std::vector<WorkedForTask>> read_worked(const Notebook& book, TaskId task) {
    auto latest = desk::latest_results(book, task);
    if (!latest) return latest.failure();
    std::vector<WorkedForTask> all;
    for (desk::LatestResult& result : *latest)
        all.push_back({result.day, result.kept, shown_answer(std::move(result.answer))});
    return all;
}

void call_done(Page& page, Context& context, const Task& task) {
    if (task.state != TaskState::open) return;
    if (button(page, "task.reached", "call the task done", {.weight = Weight::next}))
        context.went_well(set_task_state(context.book, task.id, TaskState::done, today()));
}

} // namespace

void draw_task_worked(Page& page, Context& context, const Task& task, TaskWorked& worked) {
    if (!task.id) return;
    const auto& results = worked.results.of(
        context.book, task.id, [&](TaskId id) { return read_worked(context.book, id); });
    if (results.empty()) return;
    gap(page, Measure::kMargin);
    rule(page);
    gap(page);
    heading(page, "Worked out for it");
    for (const WorkedForTask& each : results) {
        const calc::Answer& answer = each.newest.answer;
        const std::string key = "task.worked." + answer.sheet_id;
        words(page, answer.sheet_title);
        const std::string count =
            each.kept == 1 ? "one result" : "the last of " + std::to_string(each.kept) + " results";
        fine_words(page, count + ", " + to_words(each.day));
        note(page, key, answer.sheet_title, count);
        sheet_results(page, key, each.newest, worked.working_open[answer.sheet_id], {.kept = true});
        if (calc::has_note(answer, calc::NoteLevel::reached)) call_done(page, context, task);
        gap(page, Measure::kGap);
    }
}

} // namespace fettle::ui

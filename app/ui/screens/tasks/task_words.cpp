#include "ui/screens/tasks/task_words.h"

#include "base/text.h"
#include "ui/widgets/day_words.h"

namespace fettle::ui {

std::string task_hours_words(const TaskStanding& standing) {
    const auto& estimate = standing.task.estimate_hours;
    if (estimate && standing.spent_hours > 0)
        return said_number(standing.spent_hours) + " of " + hours_in_words(*estimate);
    if (estimate) return hours_in_words(*estimate);
    if (standing.spent_hours > 0) return hours_in_words(standing.spent_hours) + " spent";
    return {};
}

Role role_of(const TaskStanding& standing) {
    if (standing.ready()) return Role::verdigris;
    return standing.task.state == TaskState::open ? Role::brass : Role::pencil;
}

std::string task_under_words(const TaskStanding& standing) {
    if (standing.task.state != TaskState::open)
        return standing.task.done_on ? to_words(*standing.task.done_on) : std::string();
    if (!standing.waits.empty()) return "for " + waits_in_words(standing);
    std::string said = unlocks_in_words(standing);
    if (!said.empty()) said = "unlocks " + said;
    const std::string_view note = trim(standing.task.note);
    if (note.empty()) return said;
    return (said.empty() ? "" : said + "; ") + std::string(note.substr(0, note.find('\n')));
}

std::vector<WaitLink> links_of(const Wait& wait) {
    std::vector<WaitLink> links;
    if (wait.task) links.push_back({"the task", {"tasks", wait.task.value}});
    if (wait.part) links.push_back({wait.tag, {"parts", wait.part.value}});
    if (wait.consignment) links.push_back({wait.firm, {"sent_out", wait.consignment.value}});
    return links;
}

} // namespace fettle::ui

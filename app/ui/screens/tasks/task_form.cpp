#include "ui/screens/tasks/task_form.h"

#include "base/quantity.h"
#include "base/text.h"
#include "desk/drafting.h"
#include "ui/candidates.h"
#include "ui/frame/input_queue.h"
#include "ui/widgets/acts.h"
#include "ui/widgets/fields.h"
#include "ui/widgets/flow.h"

#include <imgui.h>

#include <algorithm>

namespace fettle::ui {
namespace {

constexpr float kFindField = 440;

const std::vector<Candidate>& all_tasks(const Notebook& book, TaskForm& form) {
    return form.tasks.of(book, 0, [&](int) -> Result<std::vector<Candidate>> {
        auto tasks = list_tasks(book, today());
        if (!tasks) return tasks.failure();
        std::vector<Candidate> all;
        for (const TaskStanding& standing : *tasks)
            if (standing.task.id != form.task.id)
                all.push_back({standing.task.id.value, "", standing.task.title,
                               standing.task.state == TaskState::open
                                   ? ""
                                   : std::string(word(standing.task.state))});
        return all;
    });
}

bool leave_out(Page& page, const std::string& key, float room_before) {
    ImGui::SameLine(room_before);
    return button(page, key, "leave out", {.weight = Weight::quiet});
}

void needs(Page& page, Context& context, TaskForm& form) {
    const auto& known = all_tasks(context.book, form);
    const auto answer = find_as_you_type(page, "task.needs", form.need, known,
                                         {.label = "what must be done first",
                                          .hint = "a few letters of another task",
                                          .error = form.needs_error,
                                          .width = kFindField});
    if (answer.edited) form.needs_error.clear();
    if (answer.taken) {
        const TaskId id{*answer.taken};
        if (std::ranges::find(form.needs, id, &NamedNeed::task) == form.needs.end())
            form.needs.push_back({id, candidate_with(known, id.value)->name});
        form.need = {.take_focus = true};
        form.needs_error.clear();
    }
    for (std::size_t i = 0; i < form.needs.size(); ++i) {
        const std::string key = "task.need." + std::to_string(form.needs[i].task.value);
        const float room = page.px(kFindField);
        words_beside(page, cut_to(page, form.needs[i].title, room - page.px(Measure::kGap)));
        note(page, key, form.needs[i].title);
        if (!leave_out(page, key + ".out", ImGui::GetCursorPosX() + room)) continue;
        form.needs.erase(form.needs.begin() + std::ptrdiff_t(i));
        form.needs_error.clear();
        break;
    }
}

void positions(Page& page, Context& context, TaskForm& form) {
    const auto& known =
        form.places.of(context.book, 0, [&](int) { return position_candidates(context.book); });
    const auto answer = find_as_you_type(
        page, "task.positions", form.position, known,
        {.label = "positions it needs filled",
         .hint = known.empty() ? "no parts list taken in yet" : "a few letters or a number",
         .width = kFindField});
    if (answer.taken) {
        form.positions.push_back({{PositionId{*answer.taken}, Condition::cleaned},
                                  candidate_with(known, *answer.taken)->name});
        form.position = {.take_focus = true};
    }
    for (std::size_t i = 0; i < form.positions.size(); ++i) {
        auto& [needed, name] = form.positions[i];
        const std::string key = "task.position." + std::to_string(needed.position.value);
        const float room = page.px(kFindField);
        words_beside(page, cut_to(page, name, room - page.px(Measure::kGap)));
        const bool out = leave_out(page, key + ".out", ImGui::GetCursorPosX() + room);
        int condition = static_cast<int>(needed.condition);
        fine_words(page, "at least");
        if (choice(page, key, all_words<Condition>(), condition))
            needed.condition = static_cast<Condition>(condition);
        if (!out) continue;
        form.positions.erase(form.positions.begin() + std::ptrdiff_t(i));
        break;
    }
}

void deliveries(Page& page, Context& context, TaskForm& form) {
    const auto& known = form.consignments.of(
        context.book, 0, [&](int) { return consignment_candidates(context.book); });
    const auto answer =
        find_as_you_type(page, "task.deliveries", form.delivery, known,
                         {.label = "what must have come, or come back",
                          .hint = known.empty() ? "nothing is sent out or on its way"
                                                : "a few letters of a firm or a purpose",
                          .width = kFindField});
    if (answer.taken) {
        const ConsignmentId id{*answer.taken};
        if (std::ranges::find(form.deliveries, id, &NamedDelivery::consignment) ==
            form.deliveries.end())
            form.deliveries.push_back({id, candidate_with(known, id.value)->name});
        form.delivery = {.take_focus = true};
    }
    for (std::size_t i = 0; i < form.deliveries.size(); ++i) {
        const auto& [consignment, name] = form.deliveries[i];
        const std::string key = "task.delivery." + std::to_string(consignment.value);
        const float room = page.px(kFindField);
        words_beside(page, cut_to(page, name, room - page.px(Measure::kGap)));
        note(page, key, name);
        if (!leave_out(page, key + ".out", ImGui::GetCursorPosX() + room)) continue;
        form.deliveries.erase(form.deliveries.begin() + std::ptrdiff_t(i));
        break;
    }
}

void figures(Page& page, TaskForm& form) {
    ImGui::BeginGroup();
    const FieldChange hours =
        field_with_unit(page, "task.hours", form.hours,
                        {.label = "estimate", .unit = "hours", .error = form.hours_error});
    ImGui::EndGroup();
    ImGui::SameLine(0, page.px(Measure::kMargin));
    ImGui::BeginGroup();
    const FieldChange warmth = field_with_unit(
        page, "task.temperature", form.temperature,
        {.label = "not below", .hint = "any", .unit = "°C", .error = form.temperature_error});
    ImGui::EndGroup();
    if (hours.edited) form.hours_error.clear();
    if (warmth.edited) form.temperature_error.clear();
}

bool read_hours(TaskForm& form, Task& task) {
    const auto hours = desk::parse_hours(form.hours);
    form.hours_error = hours ? std::string() : hours.failure().sentence;
    if (hours) task.estimate_hours = *hours;
    return hours.ok();
}

bool read_temperature(TaskForm& form, Task& task) {
    form.temperature_error.clear();
    task.least_temperature_c.reset();
    if (trim(form.temperature).empty()) return true;
    const auto typed = parse_quantity(form.temperature, "temperature", "°C");
    if (!typed) {
        form.temperature_error = typed.failure().sentence;
        return false;
    }
    if (const auto celsius = to_unit(typed->si, "temperature", "°C"))
        task.least_temperature_c = *celsius;
    return true;
}

void note_refusal(TaskForm& form, const std::string& sentence) {
    if (sentence.find("title") != std::string::npos)
        form.title_error = sentence;
    else if (sentence.find("estimate") != std::string::npos)
        form.hours_error = sentence;
    else
        form.needs_error = sentence;
}

bool keep(Context& context, TaskForm& form) {
    Task task = form.task;
    const bool hours = read_hours(form, task), warmth = read_temperature(form, task);
    if (!hours || !warmth) return false;
    task.needs.clear();
    for (const NamedNeed& need : form.needs)
        task.needs.push_back(need.task);
    task.positions.clear();
    for (const NamedPosition& position : form.positions)
        task.positions.push_back(position.needed);
    task.deliveries.clear();
    for (const NamedDelivery& delivery : form.deliveries)
        task.deliveries.push_back(delivery.consignment);
    const auto kept = keep_task(context.book, task);
    if (!kept) note_refusal(form, kept.failure().sentence);
    return kept.ok();
}

} // namespace

TaskForm form_of(const Notebook& book, const Task& task) {
    TaskForm form;
    form.task = task;
    if (task.estimate_hours) form.hours = format_number(*task.estimate_hours, 4);
    if (task.least_temperature_c) form.temperature = format_number(*task.least_temperature_c, 4);
    for (const TaskId id : task.needs)
        if (const auto needed = task_by_id(book, id)) form.needs.push_back({id, needed->title});
    const auto places = position_candidates(book);
    for (const NeededPosition& needed : task.positions) {
        const Candidate* place = places ? candidate_with(*places, needed.position.value) : nullptr;
        form.positions.push_back({needed, place ? place->name : "a position"});
    }
    const auto consignments = consignment_candidates(book);
    for (const ConsignmentId id : task.deliveries) {
        const Candidate* known = consignments ? candidate_with(*consignments, id.value) : nullptr;
        form.deliveries.push_back({id, known ? known->name : "a consignment"});
    }
    return form;
}

FormEnd draw_task_form(Page& page, Context& context, TaskForm& form) {
    constexpr Chord kKeep{'K', true}; // Ctrl Enter writes the entry, wherever one is
    const bool escaped = pressed({.key = static_cast<int>(Key::escape)});
    heading(page, form.task.id ? "Change the task" : "A new task");
    gap(page);
    draw_task_reasons(page, context, form.task.id, form.reasons);
    const FieldChange title = text_field(page, "task.title", form.task.title,
                                         {.label = "what is to be done",
                                          .hint = "ream the shackle bush",
                                          .error = form.title_error,
                                          .take_focus = form.take_focus});
    form.take_focus = false;
    if (title.edited) form.title_error.clear();
    needs(page, context, form);
    positions(page, context, form);
    deliveries(page, context, form);
    figures(page, form);
    text_field(page, "task.waits_for", form.task.waits_for,
               {.label = "waits for, besides", .hint = "an answer, a pair of hands"});
    text_area(page, "task.note", form.task.note, 3, {.label = "note"});
    gap(page);
    const bool wanted = button(page, "task.keep", form.task.id ? "keep the task" : "add the task",
                               {.weight = Weight::next, .key_hint = words_of(kKeep)});
    ImGui::SameLine(0, page.px(Measure::kGap));
    const bool left = button(page, "task.leave", "leave", {.key_hint = "Esc"});
    draw_task_worked(page, context, form.task, form.worked);
    if ((wanted || pressed(kKeep, true)) && keep(context, form)) return FormEnd::kept;
    return left || escaped ? FormEnd::left : FormEnd::goes_on;
}

} // namespace fettle::ui

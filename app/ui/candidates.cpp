#include "ui/candidates.h"

#include "notebook/consignments.h"
#include "notebook/parts.h"
#include "notebook/people.h"
#include "notebook/tasks.h"
#include "notebook/vehicles.h"

#include <algorithm>

namespace fettle::ui {

Result<std::vector<Candidate>> maker_candidates(const Notebook& book) {
    auto makers = list_makers(book);
    if (!makers) return makers.failure();
    std::vector<Candidate> all;
    for (const Maker& maker : *makers)
        all.push_back({maker.id.value, "", maker.name, maker.sign});
    return all;
}

Result<std::vector<Candidate>> contact_candidates(const Notebook& book) {
    auto contacts = list_contacts(book);
    if (!contacts) return contacts.failure();
    std::vector<Candidate> all;
    for (const Contact& contact : *contacts)
        all.push_back({contact.id.value, "", contact.name, ""});
    return all;
}

Result<std::vector<Candidate>> position_candidates(const Notebook& book) {
    auto vehicles = list_vehicles(book);
    if (!vehicles) return vehicles.failure();
    std::vector<Candidate> all;
    for (const Vehicle& vehicle : *vehicles) {
        auto positions = list_positions(book, vehicle.id);
        if (!positions) return positions.failure();
        for (const auto& fill : *positions)
            all.push_back({fill.position.id.value, fill.position.number, fill.position.name,
                           fill.position.group});
    }
    return all;
}

Result<std::vector<Candidate>> part_candidates(const Notebook& book) {
    auto parts = list_parts(book);
    if (!parts) return parts.failure();
    std::vector<Candidate> all;
    for (const Part& part : *parts)
        all.push_back({part.id.value, part.tag, part.name, ""});
    return all;
}

Result<std::vector<Candidate>> consignment_candidates(const Notebook& book) {
    auto consignments = list_consignments(book, today());
    if (!consignments) return consignments.failure();
    std::vector<Candidate> all;
    for (const Consignment& one : *consignments)
        all.push_back(
            {one.id.value, "", one.firm + ", " + one.purpose, standing_words(one, today())});
    return all;
}

Result<std::vector<Candidate>> open_task_candidates(const Notebook& book) {
    auto tasks = list_tasks(book, today());
    if (!tasks) return tasks.failure();
    std::vector<Candidate> all;
    for (const TaskStanding& standing : *tasks)
        if (standing.task.state == TaskState::open)
            all.push_back({standing.task.id.value, "", standing.task.title, "task"});
    return all;
}

const Candidate* candidate_with(const std::vector<Candidate>& candidates, std::int64_t id) {
    const auto found = std::ranges::find(candidates, id, &Candidate::id);
    return found == candidates.end() ? nullptr : &*found;
}

} // namespace fettle::ui

// What stands in the way of tasks: one reading of all that matters for it, and the reasons made of
// that. For this room only.
#pragma once

#include "notebook/consignments.h"
#include "notebook/tasks.h"

#include <unordered_map>

namespace fettle {

struct PartTowards { // intended for a position
    PartId id;
    std::string tag, place;
    Condition condition = Condition::as_found;
    int there = 1; // pieces at hand, or in their place already
    int away_pieces = 0;
    Away away; // the first of the consignments it, or its assembly, is on, when some are away
    std::string unfit; // why it fills nothing all the same: "is on hold"; blank: it may
};

struct PositionToFill {
    std::string name;
    int quantity = 1;
    PartId chosen{}; // of the alternates
    std::vector<PartTowards> parts;
};

struct IdHash {
    template <class Tag>
    std::size_t operator()(Id<Tag> id) const {
        return std::hash<std::int64_t>{}(id.value);
    }
};

// Everything that bears on what is ready, read at once.
struct Situation {
    Day today{};
    std::optional<double> temperature_c;
    std::vector<Task> tasks; // by id
    std::unordered_map<TaskId, TaskPlace, IdHash> places;
    std::unordered_map<PositionId, PositionToFill, IdHash> positions; // those that tasks need
    std::unordered_map<ConsignmentId, Consignment, IdHash> deliveries;
    std::vector<double> spent; // hours, by place

    const Task* task(TaskId id) const {
        const auto found = places.find(id);
        return found == places.end() ? nullptr : &tasks[found->second];
    }
};

Task task_of(const store::Statement& row); // of the columns in kTaskColumns
extern const std::string_view kTaskColumns;

Situation look_round(store::Database& database, Day today);
std::string task_words(const Task& task); // "task 3, strip the axle"
std::vector<Wait> reasons_to_wait(const Task& task, const Situation& situation);

} // namespace fettle

// How the screens speak of a task: how it stands, its hours, what it waits for, and where what it
// waits for can be followed.
#pragma once

#include "notebook/tasks.h"
#include "ui/context.h"
#include "ui/frame/theme.h"

#include <string>
#include <vector>

namespace fettle::ui {

std::string task_hours_words(const TaskStanding& standing); // "1.5 of 4 h"
Role role_of(const TaskStanding& standing);                 // of the word for how it stands
// Below its title: what it waits for, what it unlocks, when it was done, else its note.
std::string task_under_words(const TaskStanding& standing);

// Where a reason to wait can be followed: the part, who has it, the other task.
struct WaitLink {
    std::string words;
    Place place;
};
std::vector<WaitLink> links_of(const Wait& wait);

} // namespace fettle::ui

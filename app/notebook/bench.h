// What one finds on the bench today: tasks by what stands in their way, what is out, and what waits
// for a look: arrivals, photos tied to nothing, runs to be confirmed. Computed, never stored, but
// for the word that an arrival was looked at.
#pragma once

#include "notebook/consignments.h"
#include "notebook/tasks.h"

#include <vector>

namespace fettle {

// A part of which pieces came, and of which nothing has been written since: no entry, no
// measurement, no later condition.
struct Arrival {
    ConsignmentId consignment{};
    PartId part{};
    std::string tag, name, firm;
    bool inward = false;
    int pieces = 1;
    Day on{};
};

// A photo in which tags were read of things that a consignment still awaits.
struct SeenArrival {
    ConsignmentId consignment{};
    PhotoId photo{};
    std::vector<std::string> tags;
};

struct OnBench {
    std::vector<TaskStanding> tasks; // as list_tasks() gives them
    std::optional<double> hours;     // one has today
    std::optional<double> temperature_c;
    std::vector<Consignment> consignments; // that are not over
    std::vector<Arrival> arrivals;         // the last first
    std::vector<SeenArrival> seen;
    int untied_photos = 0;
    int runs_to_confirm = 0;
    bool nothing_yet = false; // no task, photo, part, entry or consignment at all
};
Result<OnBench> on_bench(const Notebook& notebook, Day today);

// Arrivals not looked at yet.
Result<std::vector<Arrival>> arrivals_to_look_at(const Notebook& notebook);
// Says that one was looked at, when there is nothing to write of it.
Done looked_at(Notebook& notebook, ConsignmentId consignment, PartId part, Day on);

} // namespace fettle

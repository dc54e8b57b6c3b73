// The copies of a notebook that are kept on several machines: which one this is, and when the
// others were last met.
#pragma once

#include "base/date.h"
#include "notebook/notebook.h"

#include <vector>

namespace fettle {

inline constexpr int kMostSides = 4; // what ids leave room for

struct Side {
    int number = 0;
    std::string copy;      // names this very copy; empty: not heard of yet
    std::string name;      // of the machine, as shown
    std::int64_t seen = 0; // all that was written there up to this moment is known here
    std::int64_t met = 0;  // the moment its last set was carried; 0: never met
    bool operator==(const Side&) const = default;
};

struct Sides {
    std::string notebook; // names the notebook, the same on every machine; empty: never carried
    int own = 0;
    std::vector<Side> sides; // this one among them
    const Side* at(int number) const;
};

Result<Sides> sides_of(const Notebook& notebook);
Sides stored_sides(store::Database& database);

// What this machine is called on the other one.
void name_own_side(store::Database& database, const std::string& name);

// The name of this computer, for a side that was given none.
std::string name_of_machine();

// 32 hex digits that nothing else has.
std::string new_name();
bool is_name(std::string_view text);

// The day of a moment, in local time.
Day day_of_moment(std::int64_t moment);

} // namespace fettle

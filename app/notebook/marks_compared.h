// Marks held against each other and against the vehicle: where a mark has been seen before, and
// parts that carry the mark of somebody whose parts belong on another vehicle.
#pragma once

#include "notebook/marks.h"
#include "notebook/parts.h"
#include "notebook/vehicles.h"

#include <string>
#include <string_view>
#include <vector>

namespace fettle {

// Nearest first.
enum class Likeness { same_reading_and_maker, same_reading, near_reading, same_maker };

struct LikeMark {
    Mark mark;
    Likeness how = Likeness::same_maker;
};

// The marks of the notebook that may be the same stamp as one with this reading and maker (either
// may be blank), the nearest first; `except` is left out. Readings are compared without case and
// blanks, `?` stands for a sign that could not be read, and a reading is near when it is a sixth of
// its signs apart or less, at least one.
Result<std::vector<LikeMark>> marks_like(const Notebook& notebook, std::string_view reading,
                                         std::string_view maker, MarkId except = {});

// How two readings stand to each other; nothing when they are too far apart, or one is blank.
std::optional<Likeness> compare_readings(std::string_view one, std::string_view other);

// Makers whose marks belong on a vehicle, by name. With none told, anybody's do.
Result<std::vector<std::string>> makers_on(const Notebook& notebook, VehicleId vehicle);
// Replaces them; a new name adds a maker.
Done set_makers_on(Notebook& notebook, const Vehicle& vehicle,
                   const std::vector<std::string>& makers);

// A part whose mark is of a maker not told for the vehicle it is intended or held for.
struct Disagreement {
    Part part;
    Mark mark;
    Vehicle vehicle;              // it is for now
    std::vector<Vehicle> fits;    // on which the maker's marks belong
    std::string sentence() const; // why it is here, in words
};

// By tag; marks read as unsure count as well, and say so. Parts that are on hold or scrap have been
// dealt with and are left out.
Result<std::vector<Disagreement>> disagreeing_parts(const Notebook& notebook);

// Holds the part for another vehicle: off its position, decision hold. One act.
Done hold_for(Notebook& notebook, PartId part, const Vehicle& vehicle);

} // namespace fettle

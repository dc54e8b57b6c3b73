// One direction of a plot: which stretch of the quantity is shown, where its round figures fall.
// Internal to the room.
#pragma once

#include "calc/answer.h"

#include <string>
#include <string_view>
#include <vector>

namespace fettle::calc {

struct Tick {
    double si = 0;
    std::string text;
};

struct Stretch {
    double least = 0, greatest = 1; // SI
    double size() const { return greatest - least; }
};

// What shows all values with a little room; from nothing upwards where nothing is near.
Stretch stretch_over(const std::vector<double>& values, std::string_view quantity);

// At most `most` round figures of the unit within the stretch. Things that are counted get whole
// ones.
std::vector<Tick> ticks(const Stretch& stretch, std::string_view quantity, std::string_view unit,
                        int most);

// 1, 2 or 5 times a power of ten, at least `size`.
double round_step(double size);

} // namespace fettle::calc

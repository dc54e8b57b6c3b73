// What each field accepts: one place for the description that the host checks by, and for the
// sheets, which refuse the same in words of their own. Header only, SI, no state.
#pragma once

#include "coat/words.h"

#include <initializer_list>
#include <optional>
#include <string>

namespace fettle::coat {

struct Bounds {
    double least;
    double greatest;
};

inline constexpr Bounds kAirBounds = {kIce - 20, kIce + 50};
inline constexpr Bounds kSteelBounds = {kIce - 30, kIce + 60};
inline constexpr Bounds kCureBounds = {kIce - 20, kIce + 150};
inline constexpr Bounds kShareBounds = {0.01, 1};
inline constexpr Bounds kPressureBounds = {60e3, 108e3};
inline constexpr Bounds kTimeBounds = {60, 1e7}; // a minute to four months
inline constexpr Bounds kSinceBounds = {0, 1e7};
inline constexpr Bounds kFilmBounds = {1e-6, 2e-3};

struct Checked {
    const char* field;
    const std::optional<double>& value;
    Bounds bounds;
    std::string (*spell)(double);
    bool required;
};

// The first field that is missing or out of bounds, refused.
inline std::optional<plugin::Refusal> unfit(std::initializer_list<Checked> fields) {
    for (const Checked& checked : fields) {
        const std::string range = plugin::line("accepted are ", checked.spell(checked.bounds.least),
                                               " to ", checked.spell(checked.bounds.greatest), ".");
        const std::string field = checked.field;
        if (!checked.value && checked.required)
            return plugin::Refusal{field, plugin::line(field, ": nothing is typed; ", range)};
        if (!checked.value) continue;
        if (*checked.value >= checked.bounds.least && *checked.value <= checked.bounds.greatest)
            continue;
        return plugin::Refusal{field, plugin::line(field, ": ", checked.spell(*checked.value),
                                                   " is out of bounds; ", range)};
    }
    return std::nullopt;
}

} // namespace fettle::coat

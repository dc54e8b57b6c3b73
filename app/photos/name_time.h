// The time in a file's name, as phones, cameras and messengers write it: P2026_0307_194205.jpg,
// "2026-03-07 19.42.05.jpg", IMG-20260307-WA0012.jpg. Pure functions on text.
#pragma once

#include "base/date.h"

#include <optional>
#include <string>
#include <string_view>

namespace fettle::photos {

// A day between 1990 and 2099 with what stands behind it as a clock; noon when nothing does.
std::optional<Moment> time_in_name(std::string_view name);

// The counting number at the end of a name, before its extension: "TL000412.JPG" is 412 of the
// series "TL".
struct Counted {
    std::string series;
    std::int64_t number = 0;
};
std::optional<Counted> counted_name(std::string_view name);

} // namespace fettle::photos

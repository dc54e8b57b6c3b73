// The texts of EXIF 2.32 in our terms: times with sub-second and offset, degrees, plain strings.
// Pure functions on text; what is blank, zero or out of range is "not known", never an error.
#pragma once

#include "base/date.h"

#include <optional>
#include <string>
#include <string_view>

namespace fettle::photos {

// "YYYY:MM:DD HH:MM:SS", the sub-second digits ("25" is a quarter of a second; beyond milliseconds
// cut off) and the offset ("+01:00"); the last two may be empty or blank.
std::optional<Moment> moment_of_exif(std::string_view time, std::string_view subsecond,
                                     std::string_view offset);

// Degrees as some phones write them against the standard, as text: "52,50,34.01" or, with decimal
// commas, "52,00000,50,00000,34,01180".
std::optional<double> degrees_of_text(std::string_view text);

// Without padding (blanks, NUL), as valid UTF-8.
std::string exif_string(std::string_view text);

} // namespace fettle::photos

// What one look at a picture file tells: its identity, when and with what it was taken, how it
// appears in small. Made by the worker (fettlebook-decode), handed over by Decoder.
// Plain values; knows neither the notebook nor how anything is stored.
#pragma once

#include "base/date.h"

#include <cstddef>
#include <cstdint>
#include <optional>
#include <string>
#include <vector>

namespace fettle::photos {

inline constexpr int kThumbnailSide = 320;

// WGS 84, degrees, north and east positive; altitude in metres, below the sea negative.
struct Place {
    double latitude = 0;
    double longitude = 0;
    std::optional<double> altitude_m;
    bool operator==(const Place&) const = default;
};

// What the EXIF block of a file says. Empty strings: not said. All strings are valid UTF-8.
struct ExifFacts {
    int orientation = 1;         // 1 to 8; whatever else the file says counts as 1
    std::optional<Moment> taken; // DateTimeOriginal, else Digitized, else DateTime
    std::string camera_make;
    std::string camera_model;
    std::string lens;
    std::optional<Place> place;
};

struct Look {
    std::string hash; // XXH3-128 of the whole file, 32 hex digits as `xxhsum -H2` prints it
    std::uint64_t bytes = 0;
    std::string format; // as format_of() names it: "JPEG", "HEIC", "PNG" ...
    int width = 0;      // of the upright picture
    int height = 0;
    ExifFacts exif;
    bool damaged = false;            // pixels could be read, but not all of them
    std::string damage;              // then: what is wrong, half a sentence
    std::vector<std::string> tags;   // codes of tags that are in the picture, each once
    std::optional<double> sharpness; // see likeness.h
    std::optional<std::uint64_t> likeness;
    std::vector<std::byte> thumbnail; // JPEG, upright, longest side kThumbnailSide or smaller
};

} // namespace fettle::photos

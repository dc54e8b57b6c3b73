// A torch set out of picture files: photos are read by the decoder, the ball is looked for, the
// relief worked out (relief/torch_set.h), and what is seen of it written as a picture. Originals
// are only read. Knows no notebook.
#pragma once

#include "photos/decoder.h"
#include "relief/ball.h"
#include "relief/look.h"
#include "relief/torch_set.h"

#include <filesystem>
#include <optional>
#include <vector>

namespace fettle::desk {

// A region and the margin that moved photos need around it are of this many pixels at most: a set
// of 24 then takes about 1.3 GB.
inline constexpr std::int64_t kMostTorchPixels = 16'000'000;

enum class Lamps {
    unknown,     // worked out of the photos, relief/lights.h
    ball_given,  // circled in the first photo
    ball_sought, // a shiny ball somewhere in the photos
};

struct TorchWish {
    std::vector<std::filesystem::path> photos;
    std::optional<relief::Rectangle> region = {}; // of the upright first photo; nothing: all of it
    Lamps lamps = Lamps::unknown;
    relief::Ball ball = {}; // where given, in pixels of the upright first photo
    bool still = false;     // the camera stood still: photos are not laid on each other
    relief::Work work = {};
};

struct TorchSet {
    relief::Relief relief; // poses lie about the middle of the region with its margin
    relief::Rectangle region;
    std::optional<relief::Ball> ball; // found or given
};

// Refused (invalid): another number of photos than 4 to 24, photos of several sizes or of another
// part, a region that is not within or too large, what the relief's room refuses; and as Decoder
// fails, naming the file. Fails with cancelled.
Result<TorchSet> work_torch_set(photos::Decoder& decoder, const TorchWish& wish);

// Refused when something stands at this place already.
Done check_new_file(const std::filesystem::path& file);

// As PNG in a new file. Refused when something stands there already; io when it cannot be written.
Done write_grey_png(const relief::GreyPicture& picture, const std::filesystem::path& file);

} // namespace fettle::desk

// Pictures spoilt at random: what a failing card, a broken download or a hostile hand makes of
// them.
#pragma once

#include <cstddef>
#include <cstdint>
#include <filesystem>
#include <random>
#include <string>
#include <vector>

namespace picture_campaign {

// Of the small pictures all are made as wide and high as this, so that a picture's size can be
// found in its bytes whatever the format.
inline constexpr unsigned kWidth = 75, kHeight = 53;

struct Original {
    std::filesystem::path file; // as it came from the reference program
    std::string ending;         // ".jpg"
    std::string bytes;
};

// Of each format `of_each`, all different, made by ImageMagick (and exiv2 for what cameras write)
// in that folder. Throws when one of these programs is missing.
std::vector<Original> make_originals(const std::filesystem::path& folder, int of_each);

enum class Spoiling { flipped, cut, doubled, spliced, lengths, dimensions };
inline constexpr int kSpoilings = 6;

struct Spoilt {
    std::string bytes;
    std::string ending;
};
Spoilt spoil(const std::vector<Original>& originals, Spoiling how, std::mt19937_64& random);

} // namespace picture_campaign

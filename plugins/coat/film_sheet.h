// The sheet coat.film in words: how thick to lay the paint on wet, and how many litres it takes. SI
// units (m, m2, m3, s, shares of 1). Knows refusals and notes of the plugin contract, but no host.
#pragma once

#include "coat/bounds.h"
#include "coat/film.h"
#include "picture.hpp"

#include <array>
#include <optional>
#include <string>
#include <vector>

namespace fettle::coat {

inline constexpr std::array<const char*, 2> kAreaBy = {"list of parts", "known area"};
inline constexpr std::array<const char*, 2> kPacks = {"one pack", "two pack"};

inline constexpr Bounds kCoatBounds = {1, 20};
inline constexpr Bounds kThinningBounds = {0, 1};
inline constexpr Bounds kLossBounds = {0, 0.9};
inline constexpr Bounds kAreaBounds = {1e-4, 1e4};
inline constexpr Bounds kTinBounds = {1e-5, 1};
inline constexpr Bounds kMixBounds = {0.01, 1000};
inline constexpr Bounds kProfileBounds = {0, 2e-4};

struct FilmTyped {
    std::optional<double> dry_film; // m, all coats together
    std::optional<double> coats;
    std::optional<double> solids, thinning, loss;
    std::optional<double> profile; // m, dry film that only fills the blasted surface
    std::string area_by;           // one of kAreaBy, "" for the first
    std::optional<double> area;
    std::vector<double> parts; // rows of shape, length, width, depth, pieces; NaN for blank
    std::vector<double> comb;  // m, teeth of the wet film comb
    std::optional<double> most_wet;
    std::optional<double> tin;
    std::string pack; // one of kPacks, "" for the first
    std::optional<double> base_parts, hardener_parts, pot_life, since_mixed;
};

struct PartArea {
    double number, area, paint;
};

struct CoatRow {
    double number, wet, dry_so_far, paint;
};

struct FilmAnswer {
    double dry_coat; // m a coat
    double wet_film; // m a coat
    std::string comb;
    double area;
    double paint; // m3 unthinned, all coats, loss counted
    double per_coat;
    double thinner;
    std::string tins;
    double coverage;                      // m2 a litre, one coat, no loss
    double coverage_us;                   // ft2 a US gallon
    std::optional<double> base, hardener; // m3 for one coat
    std::vector<PartArea> parts;
    std::vector<CoatRow> rows;
    plugin::Account account;
    plugin::Picture picture;
};

plugin::Outcome<FilmAnswer> work_film(const FilmTyped& typed);

} // namespace fettle::coat

// What is seen of a picture as a whole: how sharp it is, and a short mark by which pictures of one
// burst are told to be alike. Plain figures of brightness; knows no file. Pure, any thread.
//
// Sharpness: the variance of the Laplacian (J. L. Pech-Pacheco and others, "Diatom autofocusing in
// brightfield microscopy", ICPR 2000; LAPV in S. Pertuz and others, "Analysis of focus measure
// operators for shape-from-focus", Pattern Recognition 46, 2013; both from memory) over the
// variance of brightness, in tiles of the picture at about 1000 pixels; over the tenth of the tiles
// with the strongest edges, since close photos have little in focus, and less what the tenth with
// the weakest has, which is noise. 0 is without any edge; comparable between photos of one thing.
// Likeness: the difference hash (N. Krawetz, "Kind of Like That", 2013; from memory): brightness in
// 9 x 8 fields, a bit for each pair side by side, set where the left one is brighter.
#pragma once

#include "photos/grey.h"

#include <cstdint>
#include <optional>

namespace fettle::photos {

// Nothing for a picture smaller than a few tiles, or without contrast anywhere.
std::optional<double> sharpness_of(const Grey& grey);

// Of the upright picture. Nothing for one smaller than 9 x 8 pixels.
std::optional<std::uint64_t> likeness_of(const Grey& grey);

} // namespace fettle::photos

// A torch set that is kept with a mark: the recipe by which its relief is made again from the
// originals, and the view of it as a picture among the photos.
#pragma once

#include "desk/torch.h"
#include "notebook/marks.h"
#include "notebook/photos.h"

#include <optional>
#include <stop_token>
#include <string>
#include <string_view>
#include <vector>

namespace fettle::desk {

struct TorchRecipe {
    std::vector<PhotoId> photos;           // the first is the one that the mark is read from
    relief::Rectangle region;              // of the upright first photo
    std::optional<relief::Ball> ball = {}; // as it lies there; nothing: lights are not known
    bool still = false;                    // photos are not laid on each other
    relief::View view = {};
    PhotoId picture{}; // what the view was kept as; none: not at all
    bool operator==(const TorchRecipe&) const = default;
};

// As it stands below "torch" in what a mark was seen with (photos/seen_with.h):
//   {"photos": [33, 34, 35, 36],      their numbers, 4 to 24 different ones
//    "region": [900, 700, 800, 400],  x, y, width and height in whole pixels, 32 a side or more
//    "ball": [1820.5, 640, 95],       middle and radius in pixels; null: none
//    "still": false,
//    "view": {"kind": "relief", ...}, relief/look.h
//    "picture": 41}                   left out where there is none
std::string to_json(const TorchRecipe& recipe);
// `ball`, `still`, `view` and `picture` may be left out. Refused (invalid): no JSON object, an
// unknown name, a value that is not as above.
Result<TorchRecipe> torch_recipe_from_json(std::string_view text);

// What a mark was seen with; nothing when there is no torch set in it. Fails as the readings do.
Result<std::optional<TorchRecipe>> torch_recipe_of(const Mark& mark);
// The same text with this torch set in it.
Result<std::string> seen_with_torch(std::string_view seen_with, const TorchRecipe& recipe);

// What is to be worked out: the photos' files. Fails with not_found, naming the photo.
Result<TorchWish> torch_wish(const Notebook& notebook, const TorchRecipe& recipe);

// By the scale that is set for the photo, across the middle of the region; nothing without one, or
// where it cannot be told.
Result<std::optional<double>> millimetres_a_pixel(const Notebook& notebook, PhotoId photo,
                                                  const relief::Rectangle& region);

struct TorchKeep {
    Mark mark;          // overwritten where it has an id; its photo and region come of the recipe
    TorchRecipe recipe; // with the view; its picture is set here
    relief::GreyPicture picture;
    std::stop_token stop = {};
};
struct TorchKept {
    Mark mark; // as it is kept
    PhotoId picture;
};
// The picture is taken in as "2026-03-07 10.11.12 torch set OV 36, relief.png", by the time of the
// first photo, and tied to the mark's part as the first photo is; the mark is kept with the recipe.
// All of it is one step of undo. Any thread. Fails as take_in() and keep_mark() do.
Result<TorchKept> keep_torch_mark(Notebook& notebook, TorchKeep wish);

} // namespace fettle::desk

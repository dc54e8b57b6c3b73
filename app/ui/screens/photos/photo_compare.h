// Two photos compared: beside each other, zoomed and moved as one, or laid on each other with an
// edge that is dragged to wipe from one to the other. Matching points lay them on each other.
#pragma once

#include "notebook/photo_pairs.h"
#include "notebook/photos.h"
#include "ui/beside/snapshot.h"
#include "ui/context.h"
#include "ui/pictures/photo_view.h"

#include <optional>
#include <string>
#include <utility>
#include <vector>

namespace fettle::ui {

struct ComparedFacts {
    Photo one, other;
    std::string one_said, other_said; // "before, 7 Mar 2026"
    PhotoPair pair;                   // of the other laid onto the one
    std::vector<PhotoId> others;      // that the one may be compared with, the likeliest first
};

// How the other photo lies on the one.
struct Laid {
    photos::PlaneMap map; // pixels of the other to pixels of the one
    bool by_points = false;
    std::string trouble;   // why the points settle nothing; empty: they do, or there are none
    photos::Misses misses; // in pixels of the one
    bool more_than_needed = false; // so that the points can miss at all
};

// What a person is in the middle of with matching points.
struct MatchingState {
    bool on = false;
    photos::PlaneMap map;             // of the other, while it lasts: pictures stand still
    std::optional<PicturePoint> half; // put in one photo and wanted in the other
    bool half_in_one = false;
    std::optional<std::size_t> dragged;
    bool dragged_in_one = false;
    std::vector<MatchingPoint> moved; // the points while one is dragged
    std::string refused;              // why the last point was not taken
};

struct CompareState {
    PhotoId one{}, other{};
    PhotoView view; // of the one; the other goes with it
    bool fitted = true;
    enum Way { beside, wiped };
    int way = beside;
    bool edge_lies = false; // level instead of upright
    double edge = 0.5;      // where it stands, as a share of the picture area
    bool edge_dragged = false;
    bool only_turned = false; // the other is turned and sized, never bent
    bool all_come = true;
    bool takes_keyboard = true;
    MatchingState matching;
    Snapshot<ComparedFacts, std::pair<std::int64_t, std::int64_t>> facts;
};

// The photos that one may be compared with: those of the same parts, at the other side of the work
// (before or after) first. Empty when it is tied to no part that has more.
Result<std::vector<PhotoId>> photos_to_compare(const Notebook& book, PhotoId photo);
// With the likeliest other photo, the one taken before the work on the left.
Result<CompareState> compare_with_likeliest(const Notebook& book, PhotoId photo);

Laid laid_on(const ComparedFacts& facts, bool only_turned);

// False: it is left.
bool draw_photo_compare(Page& page, Context& context, CompareState& state);

} // namespace fettle::ui

// Photos as they were taken: in working spells, those with something untied first if wished, with
// the tag runs they are in; and how all this lies on a page of a given width.
// Pure; knows no Dear ImGui and no notebook beyond its records.
#pragma once

#include "notebook/bursts.h"
#include "notebook/photos.h"
#include "notebook/runs.h"

#include <cstddef>
#include <functional>
#include <string>
#include <unordered_map>
#include <vector>

namespace fettle::ui {

// Photos of one day with no pause of more than two hours between them; those without a time are one
// spell at the end.
struct Spell {
    std::size_t first = 0, count = 0; // among the photos
};
std::vector<Spell> working_spells(const std::vector<Photo>& photos);

std::string day_words(const Photo& photo); // "Sat 7 Mar 2026"; "Without a time"
std::string hours_words(const std::vector<Photo>& photos, const Spell& spell); // "19:12 to 21:40"
std::string count_words(std::size_t count); // "1 photo", "23 photos"

// What laying out looks at of each photo, close together in memory: the records themselves are so
// large that going through a hundred thousand of them takes longer than a frame.
struct PhotoOutline {
    int width = 0, height = 0;
    bool has_remark = false; // something is pointed out in it, or its time is guessed
};

inline constexpr std::size_t kNone = static_cast<std::size_t>(-1);

struct PhotoList {
    std::vector<Photo> photos;
    std::vector<Spell> spells;
    std::vector<Run> runs;                               // proposed and accepted, by time
    std::vector<std::size_t> run_of;                     // the run each photo is in, or kNone
    std::vector<Seen> seen;                              // what is pointed out in each photo
    std::size_t doubtful = 0;                            // so many of them
    std::vector<PhotoOutline> outlines;                  // of each photo
    std::unordered_map<std::int64_t, std::size_t> place; // of a photo's id among the photos
    std::size_t still_to_tie =
        0; // so many spells, which come first, hold untied photos; 0: by time

    // `photos` in the order of time.
    static PhotoList of(std::vector<Photo> photos, std::vector<Run> runs = {},
                        bool untied_first = false);
    const Photo* find(PhotoId id) const;
    const Run* run_at(PhotoId id) const; // that the photo is in; nullptr: none
    const Run* run_with(RunId id) const;
};

// One line of the page: the head of a part of it, of a spell, of a run, or photos side by side.
enum class LineOf { section, spell, run, photos };
struct PhotoLine {
    LineOf kind = LineOf::photos;
    std::size_t spell = 0;
    std::size_t run = kNone;          // of a run's head and its photos
    std::size_t first = 0, count = 0; // photos; in a run's head those that follow side by side
    float top = 0, height = 0;
};

struct PhotoPage {
    std::vector<PhotoLine> lines;
    float height = 0;

    // The line a photo stands in, and the lines between two heights with `around` more on each
    // side.
    std::size_t line_of(std::size_t photo) const;
    std::pair<std::size_t, std::size_t> between(float top, float bottom, std::size_t around) const;
};

struct PhotoPageLook {
    float width = 0, spacing = 0, head = 0, line = 0;
    float section = 0, run_head = 0, accepted_head = 0;
    float beside_run = 0;                         // width taken at both sides of a run's photos
    std::function<float(std::size_t)> below = {}; // height a photo needs for remarks of its own
    std::function<float(std::size_t)> width_of;   // of a photo
};
PhotoPage lay_out(const PhotoList& list, const PhotoPageLook& look);

} // namespace fettle::ui

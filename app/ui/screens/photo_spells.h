// Photos as they were taken: in working spells, and how these lie on a page of a given width.
// Pure; knows no Dear ImGui and no notebook beyond its records.
#pragma once

#include "notebook/photos.h"

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

struct PhotoList {
    std::vector<Photo> photos;
    std::vector<Spell> spells;
    std::unordered_map<std::int64_t, std::size_t> place; // of a photo's id among the photos
    std::uint64_t reading = 0;                           // which one this is, counted by the reader

    static PhotoList of(std::vector<Photo> photos);
    const Photo* find(PhotoId id) const;
};

// One line of the page: the head of a spell, or photos side by side.
struct PhotoLine {
    bool head = false;
    std::size_t spell = 0;
    std::size_t first = 0, count = 0; // photos; none in a head
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
    std::function<float(const Photo&)> width_of;
};
PhotoPage lay_out(const PhotoList& list, const PhotoPageLook& look);

} // namespace fettle::ui

// Photos of one burst: taken by one camera a few seconds apart, and alike. Which of them is the
// sharpest, which are blurred, which repeat the one before. Only points out; knows no pixels.
#pragma once

#include "notebook/photos.h"

#include <string>
#include <vector>

namespace fettle {

struct Seen {
    bool blurred = false;
    bool like_before = false; // of the same burst as the photo before it
    int sharpest_of = 0;      // of so many in its burst, two at least; 0: another is, or no burst

    bool anything() const { return blurred || like_before || sharpest_of > 0; }
    bool doubtful() const { return blurred || like_before; } // worth a second look
};

// The bits in which two pictures differ, of 64.
int unlikeness(std::uint64_t a, std::uint64_t b);

// One for each photo. Precondition: the photos are in the order of time, as list_photos gives them.
// Photos without the figures, or without a time, are passed over.
std::vector<Seen> look_over(const std::vector<Photo>& photos);

std::string to_words(const Seen& seen); // "blurred, much like the one before"; empty: nothing

} // namespace fettle

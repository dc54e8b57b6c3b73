// Pictures in grey, one byte a pixel: what looking for tags needs, and what JPEG gives cheapest.
// A Grey owns its samples. All functions are pure and may be called from any thread.
#pragma once

#include "photos/picture.h"

#include <cstdint>
#include <vector>

namespace fettle::photos {

// Rows from the top, no padding; 0 is black.
struct Grey {
    int width = 0;
    int height = 0;
    std::vector<std::uint8_t> samples;

    const std::uint8_t* row(int y) const { return samples.data() + std::size_t(y) * width; }
    Size size() const { return {width, height}; }
};

// A rectangle of whole pixels.
struct Box {
    int x = 0;
    int y = 0;
    int width = 0;
    int height = 0;
    bool operator==(const Box&) const = default;
};

// Luma by ITU-R BT.601, as JPEG has it.
Grey grey_of(const Picture& picture);

// At half the size, each pixel the mean of four; a last odd row or column is left out.
// Precondition: both sides are at least 2.
Grey halved(const Grey& grey);

// Precondition: the box lies within the picture and is not empty.
Grey cropped(const Grey& grey, const Box& box);

// The leading `from` pixels at `size`, each pixel the mean of what it covers.
// Precondition: neither side grows.
Grey shrunk(const Grey& grey, Size from, Size size);

// At `size`, with straight lines between the pixels.
Grey enlarged(const Grey& grey, Size size);

} // namespace fettle::photos

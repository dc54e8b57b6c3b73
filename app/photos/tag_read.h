// Reads tags: QR codes (ISO/IEC 18004, through zxing-cpp) that hold the text of a tag. Other codes,
// and text that is no tag, count as not there. In the worker only: pictures are foreign bytes.
#pragma once

#include "photos/grey.h"

#include <string>
#include <vector>

namespace fettle::photos {

struct TagRead {
    std::string tag;
    Box box; // round its code, in pixels of the piece
};

// The tags in a piece of a picture, each place once. `module` is about how many pixels a code's
// modules have there; the piece is looked at sharpened, at sizes that suit the reader, at last
// mirrored too, and again until `codes` have been read. A quick look stops after the first two.
enum class Effort { quick, thorough };
std::vector<TagRead> tags_in(const Grey& piece, double module, std::size_t codes, Effort effort);

} // namespace fettle::photos

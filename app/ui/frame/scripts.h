// Names in writing systems other than those of Europe: which of their letters the faces of fonts.h
// do not hold, and how a line of Hebrew or Arabic stands when it is drawn from the left.
#pragma once

#include <cstdint>
#include <set>
#include <string>
#include <string_view>
#include <vector>

namespace fettle::ui {

// Adds each code point of `text` from U+1000 on that is no sign or arrow (U+2000 to U+2FFF):
// Chinese, Japanese, Korean and others. Bytes that are not UTF-8 add nothing.
void add_far_letters(std::string_view text, std::set<std::uint16_t>& letters);

// Which way a line runs in which something is written from the right: as its first letter that
// has a direction, or from the left, as the program's own sentences do, whatever name they begin
// with.
enum class Reading { by_first_letter, from_left };

// One sign of a line as it is drawn from the left, and at which byte of the line stands what it
// was made of.
struct DrawnSign {
    std::size_t from = 0;
    std::string sign;
};

// Whether there are letters that are written from the right.
bool runs_from_right(std::string_view text);

// The signs of one line in the order in which they stand from left to right, Arabic ones in their
// joined forms, by the Unicode Bidirectional Algorithm (UAX 9, by FriBidi).
std::vector<DrawnSign> in_drawn_order(std::string_view line,
                                      Reading reading = Reading::by_first_letter);

// The same for each line of a text, as text; what does not run from the right comes back as it is.
std::string as_drawn(std::string_view text, Reading reading = Reading::by_first_letter);

} // namespace fettle::ui

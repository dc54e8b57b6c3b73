// Names in writing systems other than those of Europe: which of their letters the faces of fonts.h
// do not hold, and how a line of Hebrew or Arabic stands when it is drawn from the left.
#pragma once

#include <cstdint>
#include <set>
#include <string>
#include <string_view>

namespace fettle::ui {

// Adds each code point of `text` from U+1000 on that is no sign or arrow (U+2000 to U+2FFF):
// Chinese, Japanese, Korean and others. Bytes that are not UTF-8 add nothing.
void add_far_letters(std::string_view text, std::set<std::uint16_t>& letters);

// The letters of each line in the order in which they stand from left to right, Arabic ones in
// their joined forms, by the Unicode Bidirectional Algorithm (UAX 9, by FriBidi); text without
// letters that are written from the right comes back as it is.
std::string as_drawn(std::string_view text);

} // namespace fettle::ui

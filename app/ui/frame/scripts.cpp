#include "ui/frame/scripts.h"

#include <fribidi.h>
#include <imgui_internal.h>

#include <algorithm>
#include <vector>

namespace fettle::ui {
namespace {

unsigned char byte_of(char c) {
    return static_cast<unsigned char>(c);
}

// The first byte of a letter of three bytes, U+1000 to U+FFFF; signs begin with E2.
bool begins_far(char c) {
    return byte_of(c) >= 0xE1 && byte_of(c) <= 0xEF && byte_of(c) != 0xE2;
}

// The first byte of letters U+0580 to U+07FF, among them all of Hebrew and Arabic.
bool begins_from_right(char c) {
    return byte_of(c) >= 0xD6 && byte_of(c) <= 0xDF;
}

std::string line_as_drawn(std::string_view line) {
    std::vector<FriBidiChar> letters(line.size() + 1), drawn(line.size() + 1);
    const auto count =
        fribidi_charset_to_unicode(FRIBIDI_CHAR_SET_UTF8, line.data(),
                                   static_cast<FriBidiStrIndex>(line.size()), letters.data());
    FriBidiParType direction = FRIBIDI_PAR_ON; // by the first letter that has one
    if (!fribidi_log2vis(letters.data(), count, &direction, drawn.data(), nullptr, nullptr,
                         nullptr))
        return std::string(line);
    // Where two letters became one, and where a mark only told the direction.
    const auto left = fribidi_remove_bidi_marks(drawn.data(), count, nullptr, nullptr, nullptr);
    std::string text(static_cast<std::size_t>(left) * 4 + 1, '\0');
    text.resize(static_cast<std::size_t>(
        fribidi_unicode_to_charset(FRIBIDI_CHAR_SET_UTF8, drawn.data(), left, text.data())));
    return text;
}

} // namespace

void add_far_letters(std::string_view text, std::set<std::uint16_t>& letters) {
    for (auto at = std::ranges::find_if(text, begins_far); at != text.end();
         at = std::find_if(at, text.end(), begins_far)) {
        unsigned letter = 0;
        const char* const from = text.data() + (at - text.begin());
        const int bytes = ImTextCharFromUtf8(&letter, from, text.data() + text.size());
        if (letter >= 0x1000 && letter < 0xFFFD) letters.insert(static_cast<std::uint16_t>(letter));
        at += std::max(1, bytes);
    }
}

std::string as_drawn(std::string_view text) {
    if (std::ranges::none_of(text, begins_from_right)) return std::string(text);
    std::string drawn;
    while (true) {
        const auto end = text.find('\n');
        drawn += line_as_drawn(text.substr(0, end));
        if (end == std::string_view::npos) return drawn;
        drawn += '\n';
        text.remove_prefix(end + 1);
    }
}

} // namespace fettle::ui

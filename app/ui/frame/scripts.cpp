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

bool runs_from_right(std::string_view text) {
    return std::ranges::any_of(text, begins_from_right);
}

std::vector<DrawnSign> in_drawn_order(std::string_view line, Reading reading) {
    std::vector<FriBidiChar> letters;
    std::vector<std::size_t> starts;
    for (std::size_t at = 0; at < line.size();) {
        unsigned letter = 0;
        const int bytes = ImTextCharFromUtf8(&letter, line.data() + at, line.data() + line.size());
        letters.push_back(letter);
        starts.push_back(at);
        at += static_cast<std::size_t>(std::max(1, bytes));
    }
    const auto count = static_cast<FriBidiStrIndex>(letters.size());
    std::vector<FriBidiChar> drawn(letters.size() + 1);
    std::vector<FriBidiStrIndex> from(letters.size() + 1);
    FriBidiParType direction = reading == Reading::from_left ? FRIBIDI_PAR_LTR : FRIBIDI_PAR_ON;
    std::vector<DrawnSign> signs;
    if (!fribidi_log2vis(letters.data(), count, &direction, drawn.data(), nullptr, from.data(),
                         nullptr))
        return signs;
    // Where two letters became one, and where a mark only told the direction.
    const auto left = fribidi_remove_bidi_marks(drawn.data(), count, nullptr, from.data(), nullptr);
    for (std::size_t at = 0; at < static_cast<std::size_t>(left); ++at) {
        char sign[5];
        signs.push_back(
            {starts[static_cast<std::size_t>(from[at])], ImTextCharToUtf8(sign, drawn[at])});
    }
    return signs;
}

std::string as_drawn(std::string_view text, Reading reading) {
    if (!runs_from_right(text)) return std::string(text);
    std::string drawn;
    while (true) {
        const auto end = text.find('\n');
        for (const DrawnSign& one : in_drawn_order(text.substr(0, end), reading))
            drawn += one.sign;
        if (end == std::string_view::npos) return drawn;
        drawn += '\n';
        text.remove_prefix(end + 1);
    }
}

} // namespace fettle::ui

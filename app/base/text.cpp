#include "base/text.h"

#include <algorithm>

namespace fettle {
namespace {

constexpr std::string_view kBlanks = " \t\r\n\v\f";
constexpr std::string_view kReplacement = "\xEF\xBF\xBD"; // U+FFFD
constexpr std::size_t kMostQuoted = 60;

char lower(char c) {
    return c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
}

// Bytes of the well-formed character at the front (Unicode 15, table 3-7), 0 when there is none.
std::size_t character_length(std::string_view bytes) {
    auto at = [&](std::size_t i) { return static_cast<unsigned char>(bytes[i]); };
    const unsigned first = at(0);
    if (first < 0x80) return 1;
    const std::size_t length = first >= 0xC2 && first <= 0xDF   ? 2
                               : first >= 0xE0 && first <= 0xEF ? 3
                               : first >= 0xF0 && first <= 0xF4 ? 4
                                                                : 0;
    if (length == 0 || bytes.size() < length) return 0;
    // The second byte shuts out overlong forms, surrogates and what lies beyond U+10FFFF.
    const unsigned least = first == 0xE0 ? 0xA0 : first == 0xF0 ? 0x90 : 0x80;
    const unsigned most = first == 0xED ? 0x9F : first == 0xF4 ? 0x8F : 0xBF;
    if (at(1) < least || at(1) > most) return 0;
    for (std::size_t i = 2; i < length; ++i) {
        if ((at(i) & 0xC0) != 0x80) return 0;
    }
    return length;
}

} // namespace

std::string_view trim(std::string_view text) {
    const auto first = text.find_first_not_of(kBlanks);
    if (first == std::string_view::npos) return {};
    return text.substr(first, text.find_last_not_of(kBlanks) - first + 1);
}

std::vector<std::string_view> split(std::string_view text, char separator) {
    std::vector<std::string_view> pieces;
    for (;;) {
        const auto end = text.find(separator);
        pieces.push_back(text.substr(0, end));
        if (end == std::string_view::npos) return pieces;
        text.remove_prefix(end + 1);
    }
}

std::string join(const std::vector<std::string>& pieces, std::string_view between) {
    std::string whole;
    for (const std::string& piece : pieces) {
        if (&piece != &pieces.front()) whole += between;
        whole += piece;
    }
    return whole;
}

std::string lower_ascii(std::string_view text) {
    std::string lowered(text);
    std::ranges::transform(lowered, lowered.begin(), lower);
    return lowered;
}

std::string counted_as(std::string_view number) {
    std::string key;
    for (std::size_t at = 0; at < number.size();) {
        std::size_t end = at;
        while (end < number.size() && number[end] >= '0' && number[end] <= '9')
            ++end;
        if (end == at) {
            key += lower_ascii(number.substr(at++, 1));
            continue;
        }
        while (at + 1 < end && number[at] == '0')
            ++at;
        key += static_cast<char>('0' + std::min<std::size_t>(end - at, 40)); // how long it is
        key += number.substr(at, end - at);
        at = end;
    }
    return key;
}

bool same_but_for_case(std::string_view one, std::string_view other) {
    return std::ranges::equal(one, other, {}, lower, lower);
}

std::string safe_utf8(std::string_view bytes) {
    std::string safe;
    safe.reserve(bytes.size());
    while (!bytes.empty()) {
        const std::size_t length = character_length(bytes);
        safe += length == 0 ? kReplacement : bytes.substr(0, length);
        bytes.remove_prefix(std::max<std::size_t>(length, 1));
    }
    return safe;
}

std::string quoted(std::string_view value) {
    const std::string safe = safe_utf8(value);
    std::string_view rest = safe;
    std::string sentence = "\"";
    for (std::size_t count = 0; !rest.empty(); ++count) {
        if (count == kMostQuoted) {
            sentence += "…";
            break;
        }
        const std::size_t length = character_length(rest);
        const bool control = static_cast<unsigned char>(rest[0]) < 0x20 || rest[0] == 0x7F;
        sentence += control ? kReplacement : rest.substr(0, length);
        rest.remove_prefix(length);
    }
    return sentence + "\"";
}

} // namespace fettle

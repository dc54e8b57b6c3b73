#include "base/text.h"
#include "photos/shelf.h"

#include <algorithm>
#include <array>

namespace fettle::photos {
namespace {

constexpr std::size_t kMostNameBytes = 120;
constexpr std::size_t kMostExtensionBytes = 12;

bool is_unsafe(unsigned char c) {
    return c < 0x20 || c == 0x7f ||
           std::string_view("/\\:*?\"<>|").find(char(c)) != std::string_view::npos;
}

// `text` is valid UTF-8; where it was made so, U+FFFD stands.
std::string with_safe_characters(std::string_view text) {
    constexpr std::string_view kReplaced = "\xef\xbf\xbd";
    std::string safe;
    while (!text.empty()) {
        const bool was_replaced = text.starts_with(kReplaced);
        safe += was_replaced || is_unsafe(static_cast<unsigned char>(text[0])) ? '_' : text[0];
        text.remove_prefix(was_replaced ? kReplaced.size() : 1);
    }
    return safe;
}

// Names that stand for devices on Windows, where a notebook on a stick may be opened one day.
bool is_device_name(std::string_view stem) {
    constexpr std::array<std::string_view, 4> devices{"con", "prn", "aux", "nul"};
    const auto lower = lower_ascii(stem);
    if (std::find(devices.begin(), devices.end(), lower) != devices.end()) return true;
    return lower.size() == 4 && (lower.starts_with("com") || lower.starts_with("lpt")) &&
           lower[3] >= '1' && lower[3] <= '9';
}

// At most `most` bytes, not ending inside a character.
std::string_view cut(std::string_view text, std::size_t most) {
    if (text.size() <= most) return text;
    while (most > 0 && (static_cast<unsigned char>(text[most]) & 0xc0) == 0x80)
        --most;
    return text.substr(0, most);
}

} // namespace

std::string shelf_name(const std::filesystem::path& original) {
    std::string name = with_safe_characters(safe_utf8(original.filename().native()));
    const auto last = name.find_last_not_of(". ");
    name.resize(last == name.npos ? 0 : last + 1);
    name.erase(0, std::min(name.find_first_not_of(". "), name.size()));
    if (name.empty()) name = "photo";

    const std::filesystem::path parts(name);
    std::string extension(cut(parts.extension().native(), kMostExtensionBytes));
    std::string stem = parts.stem().native();
    if (is_device_name(stem)) stem += '_';
    return std::string(cut(stem, kMostNameBytes - extension.size())) + extension;
}

} // namespace fettle::photos

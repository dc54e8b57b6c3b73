#include "base/tag.h"

#include <algorithm>

namespace fettle {
namespace {

constexpr std::string_view kStart = "fettlebook:";

bool is_tag_letter(char c) {
    return (c >= 'A' && c <= 'Z') || (c >= 'a' && c <= 'z') || (c >= '0' && c <= '9') || c == '-';
}

} // namespace

bool is_tag(std::string_view text) {
    return !text.empty() && text.size() <= kLongestTag && std::ranges::all_of(text, is_tag_letter);
}

std::string code_of_tag(std::string_view tag) {
    return std::string(kStart) + std::string(tag);
}

std::optional<std::string> tag_of_code(std::string_view code) {
    if (!code.starts_with(kStart)) return {};
    const auto tag = code.substr(kStart.size());
    if (!is_tag(tag)) return {};
    return std::string(tag);
}

} // namespace fettle

// The code on a part's tag, and the text that its QR code holds: "fettlebook:H7" for the tag H7.
// Pure functions on text.
#pragma once

#include <optional>
#include <string>
#include <string_view>

namespace fettle {

inline constexpr std::size_t kLongestTag = 16;

// 1 to kLongestTag letters (ASCII), digits and hyphens.
bool is_tag(std::string_view text);

std::string code_of_tag(std::string_view tag);
// None for text that is no tag's code.
std::optional<std::string> tag_of_code(std::string_view code);

} // namespace fettle

// Whole numbers as people type counts: digits with a sign before them or not, blanks around,
// nothing else. Pure; any thread.
#pragma once

#include "base/text.h"

#include <charconv>
#include <optional>
#include <string_view>

namespace fettle {

inline std::optional<int> whole_number(std::string_view typed) {
    const auto text = trim(typed);
    int number = 0;
    const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), number);
    if (error != std::errc() || end != text.data() + text.size()) return {};
    return number;
}

} // namespace fettle

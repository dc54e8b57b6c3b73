// Small things done to text everywhere: trimming, splitting, joining, ASCII case, and making
// foreign bytes fit for a screen. Knows nothing of fields, units or files. Pure functions, any
// thread.
#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace fettle {

// Without blanks, tabs and line ends at both ends. Only ASCII blanks count.
std::string_view trim(std::string_view text);

// The pieces between separators, untrimmed; "a,,b" has three, "" has one (empty).
std::vector<std::string_view> split(std::string_view text, char separator);

std::string join(const std::vector<std::string>& pieces, std::string_view between);

// A-Z and a-z only; every other byte stays.
std::string lower_ascii(std::string_view text);
// To order names by: small letters, and a run of digits counts as the number it is, so that F2
// stands before F10.
std::string counted_as(std::string_view name);
bool same_but_for_case(std::string_view one, std::string_view other);

// Valid UTF-8 whatever the bytes are: each byte that belongs to no character becomes U+FFFD.
// For display only; file names keep their raw bytes elsewhere.
std::string safe_utf8(std::string_view bytes);

// A value as error sentences quote it: in double quotes, valid UTF-8, control characters as U+FFFD,
// cut with … after 60 characters.
std::string quoted(std::string_view value);

} // namespace fettle

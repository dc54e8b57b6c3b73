// How far two spellings are apart, and names to suggest when one was mistyped. Any thread.
#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace fettle {

// Letters to insert, drop or replace to get from one to the other (Levenshtein, 1966), in bytes.
std::size_t letters_apart(std::string_view one, std::string_view other);

// Up to `most` of `names`, the nearest to `typed` first: those that contain it or differ from it in
// a third of its letters or fewer. Empty when none is near.
std::vector<std::string> near_names(std::string_view typed, const std::vector<std::string>& names,
                                    std::size_t most = 5);

} // namespace fettle

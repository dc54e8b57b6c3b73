#include "base/near_names.h"

#include <algorithm>
#include <numeric>
#include <utility>

namespace fettle {

std::size_t letters_apart(std::string_view one, std::string_view other) {
    std::vector<std::size_t> row(other.size() + 1);
    std::iota(row.begin(), row.end(), std::size_t{0});
    for (std::size_t i = 1; i <= one.size(); ++i) {
        std::size_t diagonal = std::exchange(row[0], i);
        for (std::size_t j = 1; j <= other.size(); ++j) {
            const std::size_t replaced = diagonal + (one[i - 1] == other[j - 1] ? 0 : 1);
            diagonal = std::exchange(row[j], std::min({replaced, row[j] + 1, row[j - 1] + 1}));
        }
    }
    return row.back();
}

std::vector<std::string> near_names(std::string_view typed, const std::vector<std::string>& names,
                                    std::size_t most) {
    constexpr std::size_t kLongest = 100; // nobody mistypes a name of this length
    if (typed.empty() || typed.size() > kLongest) return {};
    std::vector<std::pair<std::size_t, std::string>> ranked;
    for (const std::string& name : names) {
        const bool contained = name.find(typed) != std::string::npos;
        const std::size_t apart = contained ? 0 : letters_apart(typed, name);
        if (apart <= std::max<std::size_t>(2, typed.size() / 3)) ranked.emplace_back(apart, name);
    }
    std::ranges::sort(ranked);
    std::vector<std::string> nearest;
    for (auto& [apart, name] : ranked)
        if (nearest.size() < most) nearest.push_back(std::move(name));
    return nearest;
}

} // namespace fettle

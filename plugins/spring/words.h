// How the sheets of this plugin write numbers in a sentence: metric first, inch beside it where a
// person would measure it.
#pragma once

#include "spoken.hpp"

#include <cmath>
#include <string>
#include <vector>

namespace fettle::spring {

inline bool positive(double value) {
    return std::isfinite(value) && value > 0;
}
using plugin::mm;
using plugin::mpa;
using plugin::percent;

inline std::string both(double metres, int digits = 3) {
    return plugin::line(mm(metres, digits), " (", plugin::figure(metres / 0.0254, digits), " in)");
}
inline std::string newtons(double force) {
    return plugin::line(plugin::figure(force), " N");
}
inline std::string n_per_mm(double rate) {
    return plugin::line(plugin::figure(rate / 1e3, 3), " N/mm");
}
inline std::string hertz(double frequency) {
    return plugin::line(plugin::figure(frequency, 3), " Hz");
}

// "leaf 2", "leaves 2, 3 and 5"; indices count from 0, people from 1.
inline std::string leaf_name(std::size_t index) {
    return plugin::line("leaf ", std::to_string(index + 1));
}
inline std::string leaf_names(const std::vector<std::size_t>& indices) {
    if (indices.size() == 1) return leaf_name(indices[0]);
    std::string all = "leaves ";
    for (std::size_t i = 0; i < indices.size(); ++i) {
        if (i > 0) all += i + 1 == indices.size() ? " and " : ", ";
        all += std::to_string(indices[i] + 1);
    }
    return all;
}

inline std::string capital(std::string sentence) {
    if (!sentence.empty() && sentence[0] >= 'a' && sentence[0] <= 'z') sentence[0] -= 'a' - 'A';
    return sentence;
}

} // namespace fettle::spring

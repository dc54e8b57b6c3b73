#include "shim/words.h"

#include <algorithm>
#include <cmath>
#include <numeric>

namespace fettle::shim {
namespace {

using plugin::figure;
using plugin::line;
using plugin::Refusal;

constexpr double kDust = 1e-9; // m: what decimals leave in the last binary places
constexpr std::size_t kMostReadings = 1000;

std::string pair(double metres, const char* pattern) {
    char text[96];
    const double settled = std::fabs(metres) < kDust ? 0 : metres; // no "-0.0000"
    std::snprintf(text, sizeof text, pattern, settled / kInch, settled * 1e3);
    return text;
}

std::string bounds(double least, double greatest) {
    return line("; accepted is ", both(least), " to ", both(greatest), ".");
}

} // namespace

std::string both(double metres) {
    return pair(metres, "%.4f in (%.3f mm)");
}

std::string both_fine(double metres) {
    return pair(metres, "%.5f in (%.4f mm)");
}

std::string both_torque(double torque) {
    return line(figure(torque / kInchPound, 3), " lbf·in (", figure(torque, 3), " N·m)");
}

double mean(const std::vector<double>& readings) {
    return std::accumulate(readings.begin(), readings.end(), 0.0) /
           static_cast<double>(readings.size());
}

double spread(const std::vector<double>& readings) {
    const auto [least, greatest] = std::minmax_element(readings.begin(), readings.end());
    return *greatest - *least;
}

std::string summed(const std::vector<double>& lengths) {
    std::string words;
    for (const double length : lengths)
        words += line(words.empty() ? "" : " + ", both(length));
    return words;
}

bool Range::holds(double value) const {
    return value >= low - kDust && value <= high + kDust;
}

std::string both(Range range) {
    if (range.high - range.low < kDust) return both(range.low);
    char text[96];
    std::snprintf(text, sizeof text, "%.4f to %.4f in (%.3f to %.3f mm)", range.low / kInch,
                  range.high / kInch, range.low * 1e3, range.high * 1e3);
    return text;
}

plugin::Outcome<Range> range_of(const char* field, const std::vector<double>& typed) {
    if (typed.empty() || typed.size() > 2) {
        return Refusal{field, line(field, ": ", std::to_string(typed.size()),
                                   " figures typed; accepted are one, or lowest and highest.")};
    }
    if (typed.back() < typed.front()) {
        return Refusal{field,
                       line(field, ": the highest, ", both(typed.back()), ", is below the lowest, ",
                            both(typed.front()), "; accepted are lowest, then highest.")};
    }
    return Range{typed.front(), typed.back()};
}

std::optional<Refusal> unfit_length(const char* field, const std::optional<double>& length,
                                    double least, double greatest) {
    if (!length) return Refusal{field, line(field, ": nothing typed", bounds(least, greatest))};
    if (*length >= least - kDust && *length <= greatest + kDust) return std::nullopt;
    return Refusal{field, line(field, ": ", both(*length), bounds(least, greatest))};
}

std::optional<Refusal> unfit_readings(const char* field, const std::vector<double>& readings,
                                      std::size_t fewest, double least, double greatest) {
    if (readings.size() < fewest || readings.size() > kMostReadings) {
        return Refusal{field, line(field, ": ", std::to_string(readings.size()),
                                   " readings typed; accepted are ", std::to_string(fewest), " to ",
                                   std::to_string(kMostReadings), ".")};
    }
    for (const double reading : readings) {
        if (auto no = unfit_length(field, reading, least, greatest)) return no;
    }
    return std::nullopt;
}

} // namespace fettle::shim

#include "coat/cure.h"

#include <cmath>

namespace fettle::coat {

double activation_energy(const CurePoint& one, const CurePoint& other) {
    return kGas * std::log(other.time / one.time) / (1 / other.temperature - 1 / one.temperature);
}

double time_at(const CureRule& rule, double temperature, double time) {
    if (rule.energy > 0) {
        const double inverse = 1 / temperature - 1 / rule.known.temperature;
        return time * std::exp(rule.energy / kGas * inverse);
    }
    return time * std::exp2((rule.known.temperature - temperature) / rule.halving);
}

std::optional<double> temperature_for_time(const CureRule& rule, double time) {
    const double share = time / rule.known.time;
    if (rule.energy > 0) {
        const double inverse = 1 / rule.known.temperature + kGas / rule.energy * std::log(share);
        if (inverse <= 0) return std::nullopt;
        return 1 / inverse;
    }
    return rule.known.temperature - rule.halving * std::log2(share);
}

} // namespace fettle::coat

#include "calc/short_quantity.h"

#include "base/quantity.h"

#include <algorithm>

namespace fettle::calc {

std::string short_quantity(double si, std::string_view kind, std::string_view unit) {
    constexpr int kDigits = 6;
    std::string text = format_quantity(si, kind, unit, kDigits);
    const std::size_t end = std::min(text.find_first_not_of("-0123456789."), text.size());
    std::string number = text.substr(0, end);
    if (number.find('.') == std::string::npos) return text;
    number.erase(number.find_last_not_of('0') + 1);
    if (number.back() == '.') number.pop_back();
    return number + text.substr(end);
}

} // namespace fettle::calc

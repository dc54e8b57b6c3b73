// Money in minor units with its currency; amounts in different currencies are never added up.
#pragma once

#include "base/result.h"

#include <cstdint>
#include <string>
#include <string_view>

namespace fettle {

struct Money {
    std::int64_t minor = 0; // pence, cents
    std::string currency;   // ISO 4217, three capital letters
    bool operator==(const Money&) const = default;
};

// "12.50 GBP", "3 GBP". Refuses more than two decimals and what is no amount.
Result<Money> parse_money(std::string_view text);
std::string to_words(const Money& money);

} // namespace fettle

// Money in minor units with its currency; amounts in different currencies are never added up.
#pragma once

#include "base/result.h"

#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

namespace fettle {

struct Money {
    std::int64_t minor = 0; // pence, cents
    std::string currency;   // ISO 4217, three capital letters
    bool operator==(const Money&) const = default;
};

// Decimals of a currency's minor unit: 2 for most, none for JPY, 3 for KWD. ISO 4217, list of
// currencies (its exceptions seen in secondary tables that agree, not in the standard itself).
int decimals_of(std::string_view currency);

// "12.50 GBP", "3 GBP", "1500 JPY", "1.250 KWD". Refuses more decimals than the currency has and
// what is no amount.
Result<Money> parse_money(std::string_view text);
std::string to_words(const Money& money);

// Amounts by currency, each added up for itself; the order of currencies is that of the alphabet.
class Purse {
  public:
    // Refused when the sum would not fit any longer; then nothing is added.
    Done add(const Money& money);
    const std::vector<Money>& amounts() const { return amounts_; }
    bool empty() const { return amounts_.empty(); }
    std::int64_t in(std::string_view currency) const; // 0 when there is none
    bool holds(std::string_view currency) const;

  private:
    std::vector<Money> amounts_;
};
std::string to_words(const Purse& purse); // "12.50 GBP, 3.00 EUR"; blank for none

} // namespace fettle

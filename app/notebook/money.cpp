#include "notebook/money.h"

#include "base/text.h"

#include <algorithm>
#include <array>
#include <cctype>
#include <charconv>

namespace fettle {
namespace {

constexpr std::array<std::string_view, 17> kWithoutDecimals = {
    "BIF", "CLP", "DJF", "GNF", "ISK", "JPY", "KMF", "KRW", "PYG",
    "RWF", "UGX", "UYI", "VND", "VUV", "XAF", "XOF", "XPF"};
constexpr std::array<std::string_view, 7> kWithThree = {"BHD", "IQD", "JOD", "KWD",
                                                        "LYD", "OMR", "TND"};
constexpr std::array<std::string_view, 2> kWithFour = {"CLF", "UYW"};
constexpr std::size_t kMostDigits = 12; // before the point

bool is_digit(char letter) {
    return std::isdigit(static_cast<unsigned char>(letter)) != 0;
}

Failure no_amount(std::string_view text) {
    return {FailureKind::invalid,
            quoted(text) + " is no amount of money: accepted is a number with as many decimals as "
                           "the currency has, and its code, such as 12.50 GBP or 1500 JPY."};
}

bool has(std::string_view currency, const auto& list) {
    return std::ranges::find(list, currency) != list.end();
}

} // namespace

int decimals_of(std::string_view currency) {
    if (has(currency, kWithoutDecimals)) return 0;
    if (has(currency, kWithThree)) return 3;
    return has(currency, kWithFour) ? 4 : 2;
}

Result<Money> parse_money(std::string_view text) {
    const auto blank = text.find(' ');
    if (blank == std::string_view::npos) return no_amount(text);
    const auto amount = text.substr(0, blank);
    auto currency = std::string(trim(text.substr(blank)));
    std::ranges::transform(currency, currency.begin(), [](char letter) {
        return static_cast<char>(std::toupper(static_cast<unsigned char>(letter)));
    });
    const bool is_code = currency.size() == 3 && std::ranges::all_of(currency, [](char letter) {
                             return letter >= 'A' && letter <= 'Z';
                         });
    if (!is_code) return no_amount(text);
    const auto decimals = static_cast<std::size_t>(decimals_of(currency));
    const auto point = amount.find('.');
    const auto whole = amount.substr(0, point);
    std::string minor(point == std::string_view::npos ? "" : amount.substr(point + 1));
    const bool fine = !whole.empty() && whole.size() <= kMostDigits && minor.size() <= decimals &&
                      (point == std::string_view::npos || !minor.empty()) &&
                      std::ranges::all_of(whole, is_digit) && std::ranges::all_of(minor, is_digit);
    if (!fine) return no_amount(text);
    minor.resize(decimals, '0');
    const std::string digits = std::string(whole) + minor;
    Money money{0, currency};
    std::from_chars(digits.data(), digits.data() + digits.size(), money.minor);
    return money;
}

std::string to_words(const Money& money) {
    const auto decimals = static_cast<std::size_t>(decimals_of(money.currency));
    const bool owed = money.minor < 0;
    // The least number has no positive twin.
    const auto size = owed ? 0 - static_cast<std::uint64_t>(money.minor)
                           : static_cast<std::uint64_t>(money.minor);
    std::string digits = std::to_string(size);
    if (digits.size() <= decimals) digits.insert(0, decimals + 1 - digits.size(), '0');
    if (decimals > 0) digits.insert(digits.size() - decimals, ".");
    return (owed ? "-" : "") + digits + " " + money.currency;
}

Done Purse::add(const Money& money) {
    auto at = std::ranges::lower_bound(amounts_, money.currency, {}, &Money::currency);
    if (at == amounts_.end() || at->currency != money.currency)
        at = amounts_.insert(at, {0, money.currency});
    std::int64_t sum = 0;
    if (__builtin_add_overflow(at->minor, money.minor, &sum))
        return Failure{FailureKind::invalid, "The sum of " + to_words(*at) + " and " +
                                                 to_words(money) +
                                                 " is too large to be added up: smaller amounts "
                                                 "are accepted."};
    at->minor = sum;
    return done();
}

std::int64_t Purse::in(std::string_view currency) const {
    const auto at = std::ranges::find(amounts_, currency, &Money::currency);
    return at == amounts_.end() ? 0 : at->minor;
}

bool Purse::holds(std::string_view currency) const {
    return std::ranges::find(amounts_, currency, &Money::currency) != amounts_.end();
}

std::string to_words(const Purse& purse) {
    std::vector<std::string> said;
    for (const auto& money : purse.amounts())
        said.push_back(to_words(money));
    return join(said, ", ");
}

} // namespace fettle

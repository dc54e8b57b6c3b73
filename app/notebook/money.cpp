#include "notebook/money.h"

#include <algorithm>
#include <cctype>
#include <cstdio>

namespace fettle {
namespace {

bool is_digit(char letter) {
    return std::isdigit(static_cast<unsigned char>(letter)) != 0;
}

Failure no_amount(std::string_view text) {
    return {FailureKind::invalid,
            "\"" + std::string(text) +
                "\" is no amount of money: accepted is a number with up to two "
                "decimals and a currency code, such as 12.50 GBP."};
}

} // namespace

Result<Money> parse_money(std::string_view text) {
    const auto blank = text.find(' ');
    if (blank == std::string_view::npos) return no_amount(text);
    const auto amount = text.substr(0, blank);
    auto currency = std::string(text.substr(text.find_last_of(' ') + 1));
    std::ranges::transform(currency, currency.begin(), [](char letter) {
        return static_cast<char>(std::toupper(static_cast<unsigned char>(letter)));
    });
    const auto point = amount.find('.');
    const auto whole = amount.substr(0, point);
    auto cents =
        point == std::string_view::npos ? std::string("00") : std::string(amount.substr(point + 1));
    if (cents.size() == 1) cents += '0';
    const bool fine = !whole.empty() && whole.size() <= 12 && cents.size() == 2 &&
                      std::ranges::all_of(whole, is_digit) &&
                      std::ranges::all_of(cents, is_digit) && currency.size() == 3 &&
                      std::ranges::all_of(currency, [](char letter) {
                          return std::isupper(static_cast<unsigned char>(letter)) != 0;
                      });
    if (!fine) return no_amount(text);
    return Money{std::stoll(std::string(whole)) * 100 + std::stoll(cents), currency};
}

std::string to_words(const Money& money) {
    char amount[32];
    std::snprintf(amount, sizeof amount, "%lld.%02lld", static_cast<long long>(money.minor / 100),
                  static_cast<long long>(money.minor % 100));
    return amount + (" " + money.currency);
}

} // namespace fettle

#include "base/typed_text.h"

#include <algorithm>
#include <array>

namespace fettle {
namespace {

struct Plain {
    std::string_view typed;
    std::string_view plain;
};

constexpr std::array kPlain = {
    Plain{"\u00A0", " "},    Plain{"\u2007", " "},    Plain{"\u2008", " "},
    Plain{"\u2009", " "},    Plain{"\u200A", " "},    Plain{"\u202F", " "},
    Plain{"\u2002", " "},    Plain{"\u2003", " "},    Plain{"\u2005", " "},
    Plain{"\t", " "},        Plain{"\u2212", "-"},    Plain{"\u2010", "-"},
    Plain{"\u2011", "-"},    Plain{"\u2013", "-"},    Plain{"\u207B", "-"},
    Plain{"\u2044", "/"},    Plain{"\u2215", "/"},    Plain{"\u00B7", "."},
    Plain{"\u22C5", "."},    Plain{"\u2219", "."},    Plain{"\u2022", "."},
    Plain{"\u00D7", "*"},    Plain{"\u2032", "'"},    Plain{"\u2018", "'"},
    Plain{"\u2019", "'"},    Plain{"\u00B4", "'"},    Plain{"\u2033", "\""},
    Plain{"\u201C", "\""},   Plain{"\u201D", "\""},   Plain{"\u00B5", "u"},
    Plain{"\u03BC", "u"},    Plain{"\u00B0", "deg"},  Plain{"\u00BA", "deg"},
    Plain{"\u2103", "degC"}, Plain{"\u2109", "degF"}, Plain{"\u212A", "K"},
};

constexpr std::array kFractions = {
    Plain{"¼", "1/4"},  Plain{"½", "1/2"}, Plain{"¾", "3/4"}, Plain{"⅐", "1/7"}, Plain{"⅑", "1/9"},
    Plain{"⅒", "1/10"}, Plain{"⅓", "1/3"}, Plain{"⅔", "2/3"}, Plain{"⅕", "1/5"}, Plain{"⅖", "2/5"},
    Plain{"⅗", "3/5"},  Plain{"⅘", "4/5"}, Plain{"⅙", "1/6"}, Plain{"⅚", "5/6"}, Plain{"⅛", "1/8"},
    Plain{"⅜", "3/8"},  Plain{"⅝", "5/8"}, Plain{"⅞", "7/8"},
};

constexpr std::array<std::string_view, 10> kRaised = {"⁰", "¹", "²", "³", "⁴",
                                                      "⁵", "⁶", "⁷", "⁸", "⁹"};
constexpr std::array<std::string_view, 10> kLowered = {"₀", "₁", "₂", "₃", "₄",
                                                       "₅", "₆", "₇", "₈", "₉"};

bool is_digit(char c) {
    return c >= '0' && c <= '9';
}

// Reads a run of raised or lowered digits off the front of `text`.
std::string take_digits(std::string_view& text, const std::array<std::string_view, 10>& digits) {
    std::string run;
    for (;;) {
        const auto digit =
            std::ranges::find_if(digits, [&](auto d) { return text.starts_with(d); });
        if (digit == digits.end()) return run;
        run += static_cast<char>('0' + (digit - digits.begin()));
        text.remove_prefix(digit->size());
    }
}

// A fraction right behind a whole number belongs to it: 1¾ is "1 3/4", never "13/4".
void add_fraction(std::string& plain, std::string_view fraction) {
    if (!plain.empty() && is_digit(plain.back())) plain += ' ';
    plain += fraction;
}

} // namespace

std::string plain_typed(std::string_view text) {
    std::string plain;
    while (!text.empty()) {
        auto starts = [&](const Plain& p) { return text.starts_with(p.typed); };
        if (const auto f = std::ranges::find_if(kFractions, starts); f != kFractions.end()) {
            add_fraction(plain, f->plain);
            text.remove_prefix(f->typed.size());
        } else if (const auto p = std::ranges::find_if(kPlain, starts); p != kPlain.end()) {
            plain += p->plain;
            text.remove_prefix(p->typed.size());
        } else if (const std::string raised = take_digits(text, kRaised); !raised.empty()) {
            const bool fraction = text.starts_with("⁄") || text.starts_with("/");
            fraction ? add_fraction(plain, raised) : void(plain += raised);
        } else if (const std::string lowered = take_digits(text, kLowered); !lowered.empty()) {
            plain += lowered;
        } else {
            plain += text.front();
            text.remove_prefix(1);
        }
    }
    return plain;
}

} // namespace fettle

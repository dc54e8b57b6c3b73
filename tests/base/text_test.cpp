#include "base/text.h"

#include <doctest/doctest.h>

using namespace fettle;

TEST_CASE("trimming takes blanks and line ends off both ends only") {
    CHECK(trim("  a b\t\r\n") == "a b");
    CHECK(trim(" \n ").empty());
    CHECK(trim("").empty());
}

TEST_CASE("splitting keeps empty pieces, and joining puts them together again") {
    const auto pieces = split("a,,b", ',');
    REQUIRE(pieces.size() == 3);
    CHECK(pieces[1].empty());
    CHECK(split("", ',').size() == 1);
    CHECK(split("a,", ',').size() == 2);
    CHECK(join({"a", "", "b"}, ",") == "a,,b");
    CHECK(join({}, ",").empty());
    CHECK(join({"x", "x"}, ", ") == "x, x");
}

TEST_CASE("case is folded for ASCII letters and nothing else") {
    CHECK(lower_ascii("5/16 BSF Ä") == "5/16 bsf Ä");
    CHECK(same_but_for_case("PSI", "psi"));
    CHECK_FALSE(same_but_for_case("psi", "ps"));
    CHECK_FALSE(same_but_for_case("[", "{"));
}

// Ill-formed sequences as in the Unicode Standard 15, table 3-7 and section 3.9.
TEST_CASE("bytes that belong to no character become U+FFFD, all others stay") {
    struct Case {
        const char* bytes;
        const char* shown;
    };
    for (const auto& [bytes, shown] : {
             Case{"café 日本 𝄞", "café 日本 𝄞"},
             Case{"a\xFFz", "a\uFFFDz"},                           // never a lead byte
             Case{"\xC3", "\uFFFD"},                               // cut short
             Case{"\xC0\xAF", "\uFFFD\uFFFD"},                     // overlong slash
             Case{"\xED\xA0\x80", "\uFFFD\uFFFD\uFFFD"},           // surrogate
             Case{"\xF4\x90\x80\x80", "\uFFFD\uFFFD\uFFFD\uFFFD"}, // beyond U+10FFFF
             Case{"\x80", "\uFFFD"},
         }) {
        CHECK(safe_utf8(bytes) == shown);
    }
}

TEST_CASE("a quoted value is short, has no control characters and never half a character") {
    CHECK(fettle::quoted("12 parsecs") == "\"12 parsecs\"");
    CHECK(fettle::quoted("a\nb\x7F") == "\"a\uFFFDb\uFFFD\"");
    std::string many;
    std::string sixty;
    for (int i = 0; i < 100; ++i)
        many += "½";
    for (int i = 0; i < 60; ++i)
        sixty += "½";
    CHECK(fettle::quoted(many) == "\"" + sixty + "…\"");
    CHECK(fettle::quoted(sixty) == "\"" + sixty + "\"");
}

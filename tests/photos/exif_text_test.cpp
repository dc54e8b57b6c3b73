// Formats after EXIF 2.32 (CIPA DC-008), tags DateTime, SubSecTime, OffsetTime; UTF-8 after RFC
// 3629.
#include "photos/exif_text.h"

#include <doctest/doctest.h>

using namespace fettle;
using namespace fettle::photos;
using namespace std::chrono;
using namespace std::chrono_literals;

TEST_CASE("EXIF times are read with what is known of sub-second and offset") {
    struct Case {
        std::string_view time, subsecond, offset;
        milliseconds fraction;
        bool has_subsecond;
        std::optional<minutes> expected_offset;
    };
    for (const auto& [time, subsecond, offset, fraction, has_subsecond, expected_offset] :
         {Case{"2026:03:07 19:42:05", "", "", 0ms, false, {}},
          Case{"2026:03:07 19:42:05", "25", "+01:00", 250ms, true, 60min},
          Case{"2026:03:07 19:42:05", "007", "-03:30", 7ms, true, -210min},
          Case{"2026:03:07 19:42:05", "1239999", "Z", 123ms, true, 0min},
          Case{"2026:03:07 19:42:05", "0", "+00:00", 0ms, true, 0min},
          Case{"2026:03:07 19:42:05", "   ", "   :  ", 0ms, false, {}},
          Case{"2026:03:07 19:42:05", "2x", "+25:00", 0ms, false, {}},
          Case{std::string_view("2026:03:07 19:42:05\0\0", 21), "5 ", "+14:00", 500ms, true,
               840min},
          Case{"2026-03-07 19:42:05", "", "", 0ms, false, {}}}) {
        CAPTURE(time);
        CAPTURE(subsecond);
        CAPTURE(offset);
        auto moment = moment_of_exif(time, subsecond, offset);
        REQUIRE(moment.has_value());
        CHECK(moment->local == local_days(2026y / March / 7) + 19h + 42min + 5s + fraction);
        CHECK(moment->has_subsecond == has_subsecond);
        CHECK(moment->offset == expected_offset);
    }
}

TEST_CASE("an EXIF time that is blank, zero or no time of any day is not known") {
    for (std::string_view time :
         {"", "    :  :     :  :  ", "0000:00:00 00:00:00", "2026:00:07 19:42:05",
          "2026:02:30 19:42:05", "2026:03:07 24:00:00", "2026:03:07 19:60:05", "2026:03:07",
          "2026:03:07   :  :  ", "yesterday at tea time"}) {
        CAPTURE(time);
        CHECK_FALSE(moment_of_exif(time, "25", "+01:00").has_value());
    }
}

TEST_CASE("degrees written as text are read, with points and with decimal commas") {
    CHECK(*degrees_of_text("52,50,34.0118") == doctest::Approx(52 + 50 / 60.0 + 34.0118 / 3600));
    CHECK(*degrees_of_text("52,00000,50,00000,34,01180") ==
          doctest::Approx(52 + 50 / 60.0 + 34.0118 / 3600));
    for (std::string_view text : {"", "52", "a,b,c", "1,2,3,4", "1,,3"}) {
        CAPTURE(text);
        CHECK_FALSE(degrees_of_text(text).has_value());
    }
}

TEST_CASE("strings lose their padding and come out as valid UTF-8") {
    CHECK(exif_string(std::string_view("  Box 2 \0\0", 10)) == "Box 2");
    CHECK(exif_string(std::string_view("Box\0rest", 8)) == "Box");
    CHECK(exif_string("\xc3\xbc\xe6\x97\xa5\xf0\x9f\x9a\x9c") ==
          "\xc3\xbc\xe6\x97\xa5\xf0\x9f\x9a\x9c");
    CHECK(exif_string("caf\xe9!") == "caf\xef\xbf\xbd!");
}

#include "photos/name_time.h"

#include <doctest/doctest.h>

using namespace fettle::photos;

namespace {

std::string time_of(std::string_view name) {
    const auto moment = time_in_name(name);
    return moment ? to_iso(*moment) : "";
}

} // namespace

TEST_CASE("times are read from names as phones, cameras and messengers write them") {
    struct Case {
        const char *name, *time;
    };
    for (const auto& [name, time] : {
             Case{"P2026_0307_194205.jpg", "2026-03-07T19:42:05"},
             Case{"20260307_194205.heic", "2026-03-07T19:42:05"},
             Case{"IMG_20260307_194205123.jpg", "2026-03-07T19:42:05"},
             Case{"20260307194205.jpg", "2026-03-07T19:42:05"},
             Case{"2026-03-07 19.42.05.png", "2026-03-07T19:42:05"},
             Case{"2026-03-07T19-42-05.png", "2026-03-07T19:42:05"},
             Case{"Picture 2026-03-07 at 19.42.05.png", "2026-03-07T19:42:05"},
             Case{"IMG-20260307-WA0012.jpg", "2026-03-07T12:00:00"},
             Case{"axle 2026-03-07.jpg", "2026-03-07T12:00:00"},
             Case{"1234_20260307_194205.jpg", "2026-03-07T19:42:05"},
         }) {
        CAPTURE(name);
        CHECK(time_of(name) == time);
    }
}

TEST_CASE("numbers that are no time are not taken for one") {
    for (const char* name :
         {"", "TL000412.JPG", "IMG_1234.jpg", "20261307_194205.jpg", "20260230_194205.jpg",
          "19360307_194205.jpg", "2026-03.jpg", "x99920260307.jpg"}) {
        CAPTURE(name);
        CHECK(time_of(name).empty());
    }
    CHECK(time_of("20260307_256199.jpg") == "2026-03-07T12:00:00"); // a day with some number
}

TEST_CASE("the counting number stands at the end of a name") {
    CHECK(counted_name("TL000412.JPG")->number == 412);
    CHECK(counted_name("TL000412.JPG")->series == "TL");
    CHECK(counted_name("7")->number == 7);
    for (const char* name : {"axle.jpg", "", ".jpg", "a1234567890123456.jpg"})
        CHECK_FALSE(counted_name(name).has_value());
}

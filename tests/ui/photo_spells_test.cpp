#include "notebook/fixture.h"
#include "ui/screens/photos/photo_spells.h"

#include <doctest/doctest.h>

using namespace fettle;
using namespace fettle::ui;

namespace {

std::vector<Photo> taken_at(std::initializer_list<const char*> times) {
    std::vector<Photo> photos;
    for (const char* time : times) {
        Photo photo;
        photo.id = PhotoId{std::int64_t(photos.size()) + 1};
        photo.width = 400, photo.height = 300;
        if (*time != '\0') photo.taken = must(parse_moment(time));
        photos.push_back(photo);
    }
    return photos;
}

std::vector<std::size_t> sizes(const std::vector<Photo>& photos) {
    std::vector<std::size_t> counts;
    for (const Spell& spell : working_spells(photos))
        counts.push_back(spell.count);
    return counts;
}

} // namespace

TEST_CASE("a pause of more than two hours or another day begins a working spell") {
    using Sizes = std::vector<std::size_t>;
    CHECK(sizes(taken_at({})) == Sizes{});
    CHECK(sizes(taken_at({"2026-03-07T10:00:00", "2026-03-07T12:00:00"})) == Sizes{2});
    CHECK(sizes(taken_at({"2026-03-07T10:00:00", "2026-03-07T12:00:01"})) == Sizes{1, 1});
    CHECK(sizes(taken_at({"2026-03-07T23:50:00", "2026-03-08T00:10:00"})) == Sizes{1, 1});
    CHECK(sizes(taken_at({"2026-03-07T10:00:00", "", ""})) == Sizes{1, 2});
}

TEST_CASE("a spell says its day, hours and count") {
    const auto photos = taken_at({"2026-03-07T09:12:00", "2026-03-07T10:40:00"});
    // 7 March 2026 is a Saturday: `date -d 2026-03-07 +%a` (GNU coreutils).
    CHECK(day_words(photos[0]) == "Sat 7 Mar 2026");
    CHECK(hours_words(photos, {0, 2}) == "09:12 to 10:40");
    CHECK(hours_words(photos, {1, 1}) == "10:40");
    CHECK(count_words(1) == "1 photo");
    CHECK(count_words(23) == "23 photos");
}

TEST_CASE("photos fill lines from the left and a spell begins a new one") {
    const auto list = PhotoList::of(taken_at({"2026-03-07T09:00:00", "2026-03-07T09:01:00",
                                              "2026-03-07T09:02:00", "2026-03-09T09:00:00"}));
    const auto page = lay_out(
        list, {.width = 210, .spacing = 10, .head = 50, .line = 80, .width_of = [](std::size_t) {
                   return 100.0F;
               }});
    REQUIRE(page.lines.size() == 5);
    CHECK(page.lines[0].kind == LineOf::spell);
    CHECK(page.lines[1].count == 2);
    CHECK(page.lines[2].count == 1);
    CHECK(page.lines[3].kind == LineOf::spell);
    CHECK(page.lines[4].first == 3);
    CHECK(page.height == 2 * 50 + 3 * 80);
    CHECK(page.line_of(2) == 2);
    CHECK(page.line_of(3) == 4);
    const auto [from, to] = page.between(60, 100, 0); // within the first line of photos
    CHECK(from == 1);
    CHECK(to == 2);
}

#include "fixture.h"

using namespace fettle;

TEST_CASE("a photo keeps its time to the millisecond, its offset and its place") {
    Desk desk;
    Photo photo{.hash = "ab",
                .file = "photos/é.jpg",
                .original_name = "é.jpg",
                .bytes = 5,
                .format = "JPEG",
                .width = 30,
                .height = 20,
                .orientation = 6,
                .taken = must(parse_moment("2026-03-07T19:42:05.250+01:00")),
                .camera_make = "Tarnlight",
                .camera_model = "T2",
                .lens = "35",
                .latitude = 54.1,
                .longitude = -2.7,
                .altitude = 190.0,
                .damage = "cut short"};
    auto back = must(photo_by_id(desk.book, must(add_photo(desk.book, photo))));
    CHECK(back.taken == photo.taken);
    CHECK(back.file == photo.file);
    CHECK(back.latitude == photo.latitude);
    CHECK(back.damage == "cut short");
    CHECK(photo_file(desk.book, back) == desk.book.folder() / "photos/é.jpg");
    CHECK(holds(sentence(add_photo(desk.book, photo)), "already"));
    CHECK(must(photo_with_hash(desk.book, "ab")) == back.id);
    CHECK(must(photo_with_hash(desk.book, "cd")) == std::nullopt);
}

TEST_CASE("photos come in the order of time and are narrowed by day and by what they are tied to") {
    Desk desk;
    auto late = desk.photo("late.jpg", "2026-03-08T10:00:00");
    auto early = desk.photo("early.jpg", "2026-03-07T23:59:59");
    auto timeless = desk.photo("timeless.jpg");
    auto ids = [&](const PhotoFilter& filter) {
        std::vector<PhotoId> found;
        for (const auto& photo : must(list_photos(desk.book, filter)))
            found.push_back(photo.id);
        return found;
    };
    CHECK(ids({}) == std::vector{early, late, timeless});
    CHECK(ids({.from = must(parse_day("2026-03-08"))}) == std::vector{late});
    CHECK(ids({.to = must(parse_day("2026-03-07"))}) == std::vector{early});
    auto part = desk.part("H7", "hanger");
    must(tie_photos(desk.book, {late}, part.id, Stage::before));
    CHECK(ids({.part = part.id}) == std::vector{late});
    CHECK(ids({.untied_only = true}) == std::vector{early, timeless});
    CHECK(must(count_untied_photos(desk.book)) == 2);
}

TEST_CASE("tying again changes the stage, untying leaves the photo, each is one undo") {
    Desk desk;
    auto part = desk.part("H7", "hanger");
    std::vector photos{desk.photo("a.jpg"), desk.photo("b.jpg")};
    must(tie_photos(desk.book, photos, part.id, Stage::before));
    CHECK(desk.book.next_undo() == "tied 2 photos to H7");
    must(tie_photos(desk.book, {photos[0]}, part.id, Stage::after));
    auto ties = must(ties_to(desk.book, part.id));
    REQUIRE(ties.size() == 2);
    CHECK(ties[0].stage == Stage::after);
    CHECK(ties[0].name == "H7 hanger");
    must(untie_photos(desk.book, photos, part.id));
    CHECK(must(ties_to(desk.book, part.id)).empty());
    CHECK(must(list_photos(desk.book)).size() == 2);
    must(desk.book.undo());
    CHECK(must(ties_of_photo(desk.book, photos[0])).front().stage == Stage::after);
}

TEST_CASE("a tie to an entry calls it by its day") {
    Desk desk;
    auto photo = desk.photo("a.jpg");
    must(tie_photos(desk.book, {photo}, desk.entry("2026-03-07", "x"), Stage::proof));
    CHECK(must(ties_of_photo(desk.book, photo)).front().name == "entry of 7 Mar 2026");
    CHECK(desk.book.next_undo() == "tied 1 photo to entry of 7 Mar 2026");
}

TEST_CASE("ties to what is not there are refused whole") {
    Desk desk;
    auto photo = desk.photo("a.jpg");
    CHECK(holds(sentence(tie_photos(desk.book, {photo}, PartId{99}, Stage::before)), "99"));
    auto part = desk.part("H7", "hanger");
    CHECK(
        holds(sentence(tie_photos(desk.book, {photo, PhotoId{99}}, part.id, Stage::before)), "99"));
    CHECK(must(ties_of_photo(desk.book, photo)).empty());
}

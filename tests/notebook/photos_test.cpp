#include "fixture.h"
#include "notebook/bursts.h"
#include "notebook/ties.h"

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

TEST_CASE(
    "a burst is one camera's photos seconds apart and alike, and its blurred shots are told") {
    Desk desk;
    int made = 0;
    const auto shot = [&](const char* time, std::optional<double> sharpness,
                          std::optional<std::uint64_t> likeness, const char* camera = "P2026") {
        Photo photo;
        photo.hash = std::to_string(++made);
        photo.taken = must(parse_moment(std::string("2026-03-07T") + time));
        photo.camera_model = camera;
        photo.sharpness = sharpness;
        photo.likeness = likeness;
        must(add_photo(desk.book, photo));
    };
    constexpr std::uint64_t kOther = 0xaaaaaaaaaaaaaaaa; // 32 bits from 0
    shot("10:00:00", 0.5, 0);
    shot("10:00:01", 0.9, kOther, "TL04"); // somebody else's camera in between
    shot("10:00:03", 0.2, 3);
    shot("10:00:05", 0.6, kOther); // another subject
    shot("10:01:00", 0.6, kOther); // the same one, much later
    shot("10:01:02", {}, {});      // taken in before there were figures
    shot("10:30:00", 0.01, 0);     // blurred beside nothing
    const auto seen = look_over(must(list_photos(desk.book)));
    REQUIRE(seen.size() == 7);
    CHECK(to_words(seen[0]) == "sharpest of 2");
    CHECK(to_words(seen[1]).empty());
    CHECK(to_words(seen[2]) == "blurred, much like the one before");
    for (const std::size_t plain : {3, 4, 5})
        CHECK(to_words(seen[plain]).empty());
    CHECK(to_words(seen[6]) == "blurred");
}

TEST_CASE("what photos were tied to last is told, the latest first and each once") {
    Desk desk;
    const auto one = desk.photo("a", "2026-03-07T10:00:00"), two = desk.photo("b");
    const auto hanger = desk.part("H7", "spring hanger");
    const auto bush = desk.task("ream the bush");
    const auto log = desk.entry("2026-03-07", "Off at last.");
    must(tie_photos(desk.book, {one}, hanger.id, Stage::before));
    must(tie_photos(desk.book, {one}, log, Stage::during));
    must(tie_photos(desk.book, {one, two}, bush, Stage::before));
    must(tie_photos(desk.book, {two}, hanger.id, Stage::before));
    const std::vector<Target> expected = {
        {hanger.id, "H7 spring hanger"}, {bush, "ream the bush"}, {log, "entry of 7 Mar 2026"}};
    CHECK(must(recent_targets(desk.book, 9)) == expected);
    CHECK(must(recent_targets(desk.book, 1)).size() == 1);
}

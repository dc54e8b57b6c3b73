#include "desk/take_in.h"
#include "notebook/fixture.h"
#include "photos/shelf.h"
#include "photos/thumbs.h"

#include <map>

using namespace fettle;

namespace {

namespace fs = std::filesystem;

void make_picture(const fs::path& file, const std::string& colour) {
    fs::create_directories(file.parent_path());
    const auto command =
        "convert -size 640x480 gradient:" + colour + "-white '" + file.string() + "'";
    REQUIRE(std::system(command.c_str()) == 0);
}

desk::TakeInReport take(Desk& desk, std::vector<fs::path> paths) {
    return must(desk::take_in(desk.book, {.paths = std::move(paths)}));
}

} // namespace

TEST_CASE(
    "a folder is taken in: good ones kept, doubles recognised, bad ones named, nothing stops") {
    Desk desk;
    const auto from = desk.folder / "phone";
    make_picture(from / "a.jpg", "red");
    make_picture(from / "deeper/b.png", "green");
    fs::copy_file(from / "a.jpg", from / "copy of a.jpg");
    write_file(from / "notes.jpg", "these are notes, not a picture\n");
    const auto before = file_text(from / "a.jpg");

    auto report = take(desk, {from});
    CHECK(report.taken.size() == 2);
    CHECK(report.already_held.size() == 1);
    REQUIRE(report.unreadable.size() == 1);
    CHECK(report.unreadable[0].file.filename() == "notes.jpg");
    CHECK(holds(report.unreadable[0].sentence, "notes.jpg"));
    CHECK(file_text(from / "a.jpg") == before);

    for (const auto& photo : must(list_photos(desk.book))) {
        CHECK(must(photos::hash_of_file(photo_file(desk.book, photo))) == photo.hash);
        CHECK(photo.width == 640);
        auto thumbs = must(photos::ThumbnailCache::open(desk.book.cache_folder()));
        CHECK(thumbs.find(photo.hash).has_value());
    }
    // Once more: all held, nothing new.
    report = take(desk, {from});
    CHECK(report.taken.empty());
    CHECK(report.already_held.size() == 3);
    CHECK(must(list_photos(desk.book)).size() == 2);
}

TEST_CASE("one undo takes a whole take-in back, and taking in again brings it again") {
    Desk desk;
    const auto from = desk.folder / "phone";
    make_picture(from / "a.jpg", "red");
    make_picture(from / "b.jpg", "blue");
    take(desk, {from});
    must(desk.book.undo());
    CHECK(must(list_photos(desk.book)).empty());
    CHECK(take(desk, {from}).taken.size() == 2);
    for (const auto& photo : must(list_photos(desk.book)))
        CHECK(fs::exists(photo_file(desk.book, photo)));
}

TEST_CASE("what a killed take-in left half copied is swept before the next one") {
    Desk desk;
    const auto half = desk.book.photos_folder() / "undated/.half-copy-1234-0";
    fs::create_directories(half.parent_path());
    write_file(half, "half a picture");
    make_picture(desk.folder / "phone/a.jpg", "red");
    CHECK(take(desk, {desk.folder / "phone"}).taken.size() == 1);
    CHECK_FALSE(fs::exists(half));
}

TEST_CASE("photos left in place are not copied") {
    Desk desk;
    make_picture(desk.folder / "phone/a.jpg", "red");
    auto report =
        must(desk::take_in(desk.book, {.paths = {desk.folder / "phone"}, .in_place = true}));
    REQUIRE(report.taken.size() == 1);
    auto photo = must(photo_by_id(desk.book, report.taken[0]));
    CHECK(photo_file(desk.book, photo) == desk.folder / "phone/a.jpg");
    CHECK(fs::is_empty(desk.book.photos_folder()));
}

TEST_CASE("a take-in that is stopped keeps what it has and says so") {
    Desk desk;
    for (int i = 0; i < 6; ++i)
        make_picture(desk.folder / ("phone/" + std::to_string(i) + ".jpg"), i % 2 ? "red" : "blue");
    std::stop_source stop;
    auto report = must(desk::take_in(
        desk.book,
        {.paths = {desk.folder / "phone"},
         .workers = 1,
         .stop = stop.get_token(),
         .progress = [&](std::size_t, std::size_t, const std::string&) { stop.request_stop(); }}));
    CHECK(report.stopped);
    CHECK(must(list_photos(desk.book)).size() == report.taken.size());
    CHECK(report.taken.size() < 6);
}

TEST_CASE("a folder that is not there is named and nothing else happens") {
    Desk desk;
    auto report = take(desk, {desk.folder / "gone"});
    REQUIRE(report.unreadable.size() == 1);
    CHECK(holds(report.unreadable[0].sentence, "gone"));
    CHECK(must(list_photos(desk.book)).empty());
}

TEST_CASE("a photo without a time is placed by its name, or by the numbered ones beside it") {
    Desk desk;
    const auto from = desk.folder / "phone";
    const auto shot = [&](const std::string& name, const std::string& colour,
                          const std::string& taken = {}) {
        make_picture(from / name, colour);
        const auto command = "exiv2 -M 'set Exif.Photo.DateTimeOriginal " + taken + "' '" +
                             (from / name).string() + "'";
        if (!taken.empty()) REQUIRE(std::system(command.c_str()) == 0);
    };
    shot("TL0410.jpg", "red", "2026:03:07 19:40:00");
    shot("TL0411.jpg", "green");
    shot("TL0412.jpg", "blue", "2026:03:07 19:44:00");
    shot("TL0414.jpg", "black");
    shot("TL0600.jpg", "yellow"); // too far from any
    shot("QM0411.jpg", "orange"); // another series
    shot("P2026_0307_194205.png", "brown");
    shot("axle.jpg", "pink");
    const auto report = take(desk, {from});
    CHECK(report.guessed.size() == 3);
    std::map<std::string, std::string> times;
    for (const auto& photo : must(list_photos(desk.book)))
        times[photo.original_name] =
            photo.taken ? to_iso(*photo.taken) + " " + std::string(word(photo.taken_from)) : "";
    CHECK(times["TL0410.jpg"] == "2026-03-07T19:40:00 camera");
    CHECK(times["TL0411.jpg"] == "2026-03-07T19:42:00 neighbours"); // half way
    CHECK(times["TL0414.jpg"] == "2026-03-07T19:44:02 neighbours");
    CHECK(times["P2026_0307_194205.png"] == "2026-03-07T19:42:05 file name");
    for (const char* name : {"TL0600.jpg", "QM0411.jpg", "axle.jpg"})
        CHECK(times[name].empty());
    must(desk.book.undo()); // guesses and photos are one step
    CHECK(must(list_photos(desk.book)).empty());
}

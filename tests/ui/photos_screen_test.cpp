#include "notebook/search.h"
#include "notebook/ties.h"
#include "notebook/weather.h"
#include "ui/screens/parts/parts.h"
#include "ui/screens/photos/photos.h"
#include "ui/workshop.h"

using namespace fettle;
using namespace fettle::ui;
using fettle::ui::testing::Driver;
using fettle::ui::testing::Workshop;

namespace {

constexpr Chord kTie{'T'}, kEntry{'E'}, kSpell{'A'};
constexpr Chord kBefore{'2', false, false, true}, kAfter{'4', false, false, true};

struct Bench : Workshop {
    PhotosState photos;
    SideWork work{[] {}};
    PartsState parts;
    bool on_parts = false;

    Driver begin() {
        return drive([this](Page& page) {
            if (on_parts)
                draw_parts(page, context, work, parts);
            else
                draw_photos(page, context, photos);
        });
    }
    // A photo that is only a record: most of the screen needs no pixels.
    PhotoId at(const std::string& time) { return photo(time + ".jpg", "2026-03-07T" + time); }
    std::string key(PhotoId id) { return "photos.photo." + std::to_string(id.value); }
    std::string caption(Driver& driver, PhotoId id) {
        return driver.expect_visible(key(id) + ".caption").label;
    }
    std::size_t chosen() { return photos.chosen.size(); }
};

} // namespace

TEST_CASE("photos are tied as before and after to a part in a few keystrokes") {
    Bench bench;
    const auto before = bench.real_photo("rust.jpg", 640, 480, "2026:03:07 10:00:00");
    const auto after = bench.real_photo("paint.jpg", 640, 480, "2026:03:07 10:30:00");
    bench.part("B1", "brake drum");
    const auto hanger = bench.part("H7", "spring hanger");
    auto driver = bench.begin();
    CHECK(holds(bench.caption(driver, before), "untied"));

    // The keyboard's frame stands on the first photo: Alt 2, T, h, Enter ties it as before.
    driver.press(kBefore);
    driver.press(kTie);
    driver.type("h");
    driver.press(Key::enter);
    // It has gone on to the next; Alt 4 and the digit tie that as after to the part tied to last.
    driver.press(kAfter);
    driver.press(Chord{'1'});

    const auto ties = must(ties_to(bench.book, hanger.id));
    REQUIRE(ties.size() == 2);
    CHECK(ties[0].photo == before);
    CHECK(ties[0].stage == fettle::Stage::before);
    CHECK(ties[1].photo == after);
    CHECK(ties[1].stage == fettle::Stage::after);
    CHECK(holds(bench.caption(driver, before), "H7 before"));

    // Both stand side by side on the part's page.
    bench.on_parts = true;
    lead_to(bench.parts, {"parts", hanger.id.value});
    driver.settle();
    const Noted left = driver.expect_visible("part.before");
    const Noted right = driver.expect_visible("part.after");
    CHECK(left.label == "rust.jpg");
    CHECK(right.label == "paint.jpg");
    CHECK(left.rect.top == right.rect.top);
    CHECK(left.rect.right < right.rect.left);

    // One undo takes back one tie, and the page follows.
    must(bench.book.undo());
    driver.settle();
    CHECK(driver.expect_visible("part.after").value == "none");
}

TEST_CASE("photos are chosen by press, with Ctrl, with Shift and by Space") {
    Bench bench;
    const PhotoId ids[] = {bench.at("10:00:00"), bench.at("10:01:00"), bench.at("10:02:00"),
                           bench.at("15:00:00")};
    auto driver = bench.begin();
    driver.click(bench.key(ids[0]));
    CHECK(driver.value("photos.chosen") == "1");
    driver.click(bench.key(ids[1]));
    CHECK(driver.value("photos.chosen") == "1");
    testing::click_with(bench.stage, driver, bench.key(ids[0]), Key::left_ctrl);
    CHECK(driver.value("photos.chosen") == "2");
    driver.settle(60); // else it would be the second press of a double one
    driver.click(bench.key(ids[0]));
    testing::click_with(bench.stage, driver, bench.key(ids[2]), Key::left_shift);
    CHECK(driver.value("photos.chosen") == "3");
    CHECK(holds(bench.caption(driver, ids[1]), "chosen"));
    driver.press(Key::escape);
    CHECK(driver.value("photos.chosen") == "0");
    driver.press(Key::space); // the frame is on the last one pressed
    REQUIRE(bench.chosen() == 1);
    CHECK(bench.photos.chosen.front() == ids[2]);
    driver.press(Key::left);
    driver.press(Key::space);
    CHECK(driver.value("photos.chosen") == "2");
    driver.press(kSpell);
    CHECK(driver.value("photos.chosen") == "3"); // not the one taken five hours later
}

TEST_CASE("several chosen photos are tied in one act that undo takes back") {
    Bench bench;
    bench.at("10:00:00");
    bench.at("10:01:00");
    const auto task = bench.task("ream the shackle bush");
    auto driver = bench.begin();
    driver.press(kSpell);
    driver.press(kTie);
    driver.type("shackle");
    driver.press(Key::enter);
    CHECK(must(ties_to(bench.book, task)).size() == 2);
    CHECK(driver.value("photos.chosen") == "0");
    must(bench.book.undo());
    CHECK(must(ties_to(bench.book, task)).empty());
}

TEST_CASE("the filter words show all photos, those untied, and those of a part") {
    Bench bench;
    const auto tied = bench.at("10:00:00");
    bench.at("10:01:00");
    const auto hanger = bench.part("H7", "spring hanger");
    must(tie_photos(bench.book, {tied}, hanger.id, fettle::Stage::during));
    auto driver = bench.begin();
    CHECK(driver.value("photos.count") == "2");
    driver.click("photos.show.1");
    CHECK(driver.value("photos.count") == "1");
    CHECK_FALSE(driver.shows(bench.key(tied)));
    driver.click("photos.show.2");
    driver.type("h7");
    driver.press(Key::enter);
    driver.settle();
    CHECK(driver.value("photos.count") == "1");
    CHECK(driver.shows(bench.key(tied)));
    CHECK(driver.expect_visible("photos.of").label == "H7 spring hanger");
}

TEST_CASE("a key puts the chosen photos into the entry being written") {
    Bench bench;
    const auto photo = bench.at("10:00:00");
    auto driver = bench.begin();
    driver.press(kEntry);
    REQUIRE(bench.draft.photos.size() == 1);
    CHECK(bench.draft.photos[0].photo == photo);
    CHECK(bench.context.draft_edited);
    driver.press(kEntry); // and not twice
    CHECK(bench.draft.photos.size() == 1);
}

TEST_CASE("only photos in sight are drawn, and any can be brought there") {
    Bench bench;
    const auto step = must(bench.book.new_step());
    for (int i = 0; i < 200; ++i) {
        Photo photo;
        photo.hash = std::to_string(i);
        photo.original_name = photo.hash;
        photo.width = 400, photo.height = 300;
        must(add_photo(bench.book, photo, step));
    }
    auto driver = bench.begin();
    CHECK(driver.shows("photos.photo.1"));
    CHECK_FALSE(driver.shows("photos.photo.190"));
    driver.scroll_to("photos.list", 189);
    CHECK(driver.shows("photos.photo.190"));
    CHECK_FALSE(driver.shows("photos.photo.1"));
}

TEST_CASE("an empty page says what it is for and takes a path in") {
    Bench bench;
    std::vector<std::filesystem::path> asked;
    bench.context.take_in = [&](std::vector<std::filesystem::path> paths) { asked = paths; };
    auto driver = bench.begin();
    CHECK(holds(driver.expect_visible("photos.empty").label, "Drop photos or folders"));
    driver.click("photos.path");
    driver.type("/nowhere/at/all");
    driver.click("photos.path.take_in");
    CHECK(asked.empty());
    CHECK(holds(driver.expect_visible("photos.path.error").label, "/nowhere/at/all"));
    bench.photos.intake.path = bench.folder.path().string();
    driver.click("photos.path.take_in");
    CHECK(asked == std::vector{bench.folder.path()});
}

TEST_CASE("nothing is read again while nothing has changed") {
    Bench bench;
    bench.at("10:00:00");
    int reads = 0;
    Snapshot<int, std::string> snapshot;
    const auto read = [&](const std::string&) -> Result<int> { return ++reads; };
    (void)snapshot.of(bench.book, "untied", read);
    (void)snapshot.of(bench.book, "untied", read);
    CHECK(reads == 1);
    (void)snapshot.of(bench.book, "all", read); // another question
    CHECK(reads == 2);
    bench.at("10:01:00");
    (void)snapshot.of(bench.book, "all", read);
    CHECK(reads == 3);
}

TEST_CASE("after an act only what was read from a table that it changed is read again") {
    Bench bench;
    const PhotoId photo = bench.at("10:00:00");
    int reads = 0;
    Snapshot<int> ties, outer, words;
    const auto count = [&](int) -> Result<int> {
        ++reads;
        return static_cast<int>(must(ties_of_photo(bench.book, photo)).size());
    };
    CHECK(ties.of(bench.book, 0, count) == 0);
    must(set_weather(bench.book, today(), {.temperature_c = 11.0}));
    CHECK(ties.of(bench.book, 0, count) == 0);
    CHECK(reads == 1);
    const PartId part = bench.part("H7", "spring hanger").id; // its name is read with its ties
    CHECK(ties.of(bench.book, 0, count) == 0);
    CHECK(reads == 2);
    must(tie_photos(bench.book, {photo}, part, fettle::Stage::during));
    CHECK(ties.of(bench.book, 0, count) == 1);
    must(bench.book.undo());
    CHECK(ties.of(bench.book, 0, count) == 0);
    must(bench.book.redo());
    // One that stands on another is read again with it, even where the other was up to date.
    (void)ties.of(bench.book, 0, count);
    const auto doubled = [&](int) -> Result<int> { return 2 * ties.of(bench.book, 0, count); };
    CHECK(outer.of(bench.book, 0, doubled) == 2);
    must(bench.book.undo());
    CHECK(outer.of(bench.book, 0, doubled) == 0);
    // What is not told by history, such as the words, may change with any act.
    int searches = 0;
    const auto search = [&](int) -> Result<int> {
        ++searches;
        return static_cast<int>(must(find(bench.book, "hanger")).size());
    };
    CHECK(words.of(bench.book, 0, search) == 1);
    must(set_weather(bench.book, today(), {.temperature_c = 12.0}));
    CHECK(words.of(bench.book, 0, search) == 1);
    CHECK(searches == 2);
}

// Single acts on runs, and what is pointed out in photos, on the screen of photos.
#include "notebook/runs.h"
#include "notebook/ties.h"
#include "ui/screens/photos/photos.h"
#include "ui/workshop.h"

using namespace fettle;
using namespace fettle::ui;
using fettle::ui::testing::Driver;
using fettle::ui::testing::Workshop;

namespace {

struct Bench : Workshop {
    PhotosState photos;
    int made = 0;

    Driver begin() {
        return drive([this](Page& page) { draw_photos(page, context, photos); });
    }
    PhotoId shot(const std::string& time, const std::vector<std::string>& tags = {},
                 std::optional<double> sharpness = {}, std::optional<std::uint64_t> likeness = {},
                 const std::string& camera = "P2026") {
        Photo fresh;
        fresh.hash = std::to_string(++made);
        fresh.original_name = fresh.hash;
        fresh.width = 400, fresh.height = 300;
        fresh.camera_model = camera;
        fresh.taken = must(parse_moment("2026-03-07T" + time));
        fresh.sharpness = sharpness;
        fresh.likeness = likeness;
        const auto id = must(add_photo(book, fresh));
        must(note_tags(book, id, tags));
        return id;
    }
    std::string key(PhotoId id) { return "photos.photo." + std::to_string(id.value); }
    std::string remark(PhotoId id) {
        const Noted* noted = stage.reg().find(key(id) + ".remark");
        return noted ? noted->label : "";
    }
};

} // namespace

TEST_CASE(
    "a run is bracketed under the tag and name of its part, and accepted or dismissed by press") {
    Bench bench;
    const auto hanger = bench.part("H7", "spring hanger");
    bench.shot("19:00:00", {"H7"});
    bench.shot("19:01:00");
    bench.shot("19:02:00");
    must(propose_runs(bench.book));
    auto driver = bench.begin();
    CHECK(driver.expect_visible("photos.run.1").label == "H7 spring hanger");
    CHECK(driver.value("photos.run.1") == "2 to confirm");
    driver.click("photos.run.1.accept");
    driver.settle();
    CHECK(must(ties_to(bench.book, hanger.id)).size() == 3);
    CHECK(driver.value("photos.run.1") == "accepted");
    must(bench.book.undo());
    driver.settle();
    driver.click("photos.run.1.dismiss");
    driver.settle();
    CHECK(must(ties_to(bench.book, hanger.id)).size() == 1);
    CHECK_FALSE(driver.shows("photos.run.1"));
}

TEST_CASE("the start of a run is dragged to an earlier photo, and a drag beside all photos does "
          "nothing") {
    Bench bench;
    bench.part("H7", "spring hanger");
    const auto before = bench.shot("18:59:00");
    bench.shot("19:00:00", {"H7"});
    bench.shot("19:01:00");
    must(propose_runs(bench.book));
    auto driver = bench.begin();
    const Rect from = driver.expect_visible("photos.run.1.first").rect;
    driver.drag("photos.run.1.first", 0, 300);
    driver.settle();
    CHECK(must(run_by_id(bench.book, RunId{1})).photos.size() == 2);
    const Rect to = driver.expect_visible(bench.key(before)).rect;
    driver.drag("photos.run.1.first", (to.left + to.right - from.left - from.right) / 2,
                (to.top + to.bottom - from.top - from.bottom) / 2);
    driver.settle();
    const auto run = must(run_by_id(bench.book, RunId{1}));
    REQUIRE(run.photos.size() == 3);
    CHECK(run.photos.front().photo == before);
    // Past the tag's own photo it cannot go: the sentence stands for the bottom line.
    driver.drag("photos.run.1.last", 0, 0);
    driver.click(bench.key(before));
    driver.press(Chord{'L'});
    driver.settle();
    CHECK(holds(bench.context.trouble, "shows the tag H7"));
}

TEST_CASE("a tag on no part is named, and its photos are tied once the part is there") {
    Bench bench;
    bench.shot("19:00:00", {"X9"});
    bench.shot("19:01:00");
    must(propose_runs(bench.book));
    auto driver = bench.begin();
    CHECK(holds(driver.expect_visible("photos.tags.without").label, "X9"));
    const auto late = bench.part("X9", "late part");
    driver.settle();
    CHECK(holds(driver.expect_visible("photos.tags.found").label, "1 photo shows a tag"));
    driver.press(Chord{'P'});
    driver.settle();
    CHECK(must(ties_to(bench.book, late.id)).size() == 1);
    CHECK(driver.value("photos.runs") == "1");
}

TEST_CASE("spells with something untied come first, all by time when the word is taken off") {
    Bench bench;
    const auto tied = bench.shot("08:00:00"), loose = bench.shot("15:00:00");
    const auto hanger = bench.part("H7", "spring hanger");
    must(tie_photos(bench.book, {tied}, hanger.id, fettle::Stage::before));
    auto driver = bench.begin();
    const auto top = [&](PhotoId id) { return driver.expect_visible(bench.key(id)).rect.top; };
    CHECK(top(loose) < top(tied));
    CHECK(driver.shows("photos.section.untied"));
    driver.click("photos.untied_first");
    driver.settle();
    CHECK(top(tied) < top(loose));
    CHECK_FALSE(driver.shows("photos.section.untied"));
}

TEST_CASE("blurred shots, repeats and the sharpest of a burst are said below the photos and "
          "stepped through") {
    Bench bench;
    const auto first = bench.shot("19:00:00", {}, 0.8, 0b1111);
    const auto second = bench.shot("19:00:02", {}, 0.3, 0b0111);
    const auto other = bench.shot("19:00:04", {}, 0.9, 0x5a5a5a5a5a5a5a5a);
    const auto old = bench.shot("19:00:06"); // taken in before there were figures
    auto driver = bench.begin();
    CHECK(bench.remark(first) == "sharpest of 2");
    CHECK(bench.remark(second) == "blurred, much like the one before");
    CHECK(bench.remark(other).empty());
    CHECK(bench.remark(old).empty());
    driver.press(Chord{'D'});
    driver.settle();
    CHECK(bench.photos.at == second);
}

TEST_CASE("a guessed time says so, and by what") {
    Bench bench;
    Photo fresh;
    fresh.hash = "a";
    fresh.width = 400, fresh.height = 300;
    fresh.taken = must(parse_moment("2026-03-07T19:00:00"));
    fresh.taken_from = TakenFrom::file_name;
    const auto id = must(add_photo(bench.book, fresh));
    auto driver = bench.begin();
    CHECK(bench.remark(id) == "time guessed (file name)");
}

TEST_CASE("photos are tied to what was tied to last by one digit each, and a digit stays") {
    Bench bench;
    const auto hanger = bench.part("H7", "spring hanger"), drum = bench.part("B1", "brake drum");
    const auto log = bench.entry("2026-03-07", "Hanger off at last.");
    PhotoId shots[4];
    for (int i = 0; i < 4; ++i)
        shots[i] = bench.shot("19:0" + std::to_string(i) + ":00");
    must(tie_photos(bench.book, {shots[0]}, hanger.id, fettle::Stage::before));
    must(tie_photos(bench.book, {shots[0]}, drum.id, fettle::Stage::before));
    auto driver = bench.begin();
    CHECK(driver.expect_visible("photos.numbered.1").label.starts_with("B1"));
    CHECK(driver.expect_visible("photos.numbered.2").label.starts_with("H7"));
    driver.press(Chord{'J'}); // to the first untied one
    driver.settle();
    driver.press(Chord{'2'});
    driver.settle();
    CHECK(must(ties_of_photo(bench.book, shots[1])).front().to == TieTarget(hanger.id));
    CHECK(driver.expect_visible("photos.numbered.2").label.starts_with("H7"));
    // The keyboard has gone on to the next; an entry is found by its words.
    CHECK(bench.photos.at == shots[2]);
    driver.press(Chord{'T'});
    driver.type("off at");
    driver.press(Key::enter);
    driver.settle();
    CHECK(must(ties_of_photo(bench.book, shots[2])).front().to == TieTarget(log));
    CHECK(driver.shows("photos.numbered.3"));
    driver.click("photos.numbered.3");
    driver.settle();
    CHECK(must(ties_of_photo(bench.book, shots[3])).front().to == TieTarget(log));
}

TEST_CASE("a clock is put right by two photos of one moment, and by its zone") {
    Bench bench;
    // The old camera is two hours and a minute ahead.
    const auto wrong = bench.shot("21:01:00", {}, {}, {}, "TL04"), right = bench.shot("19:00:00");
    auto driver = bench.begin();
    driver.click(bench.key(wrong));
    testing::click_with(bench.stage, driver, bench.key(right), Key::left_ctrl);
    driver.press(Chord{'K'});
    driver.settle();
    CHECK(holds(driver.expect_visible("clocks.effect").label, "1 photo moves back 2:01:00"));
    driver.click("clocks.set");
    driver.settle();
    CHECK(must(photo_by_id(bench.book, wrong)).taken->local ==
          must(photo_by_id(bench.book, right)).taken->local);
    driver.click("clocks.zone");
    driver.type("moon");
    driver.settle();
    CHECK(holds(driver.expect_visible("clocks.zone.error").label, "+01:00"));
    driver.click("clocks.as_written");
    driver.settle();
    CHECK(to_iso(*must(photo_by_id(bench.book, wrong)).taken).substr(11, 8) == "21:01:00");
}

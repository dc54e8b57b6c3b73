// A restorer's Saturday in the window, from the phone to the part: what a person would press, drag
// and type, and what the notebook holds after it.
#include "notebook/clocks.h"
#include "notebook/runs.h"
#include "notebook/ties.h"
#include "ui/saturday.h"
#include "workroom_fixture.h"

using namespace fettle;
using namespace fettle::ui;
using fettle::ui::testing::kShots;
using fettle::ui::testing::WorkroomTest;

namespace {

struct Saturday : WorkroomTest {
    PartId hanger = part("H7", "spring hanger").id, shackle = part("S2", "shackle").id;
    PartId pins = part("K1", "shackle pins").id;
    TaskId bushes = task("ream the shackle bush");
    std::vector<PhotoId> ids; // in the order they were taken

    void drop(const std::vector<std::filesystem::path>& files) {
        FilesDropped dropped;
        for (const auto& file : files)
            dropped.paths.push_back(file.string());
        bench->stage.input().push(dropped);
        REQUIRE(bench->until_shown("report"));
        for (const Photo& photo : must(list_photos(book)))
            ids.push_back(photo.id);
        driver().press(Key::f4);
        driver().settle();
    }
    std::string key(int shot) {
        return "photos.photo." + std::to_string(ids.at(std::size_t(shot)).value);
    }
    std::size_t tied_to(TieTarget target) { return must(ties_to(book, target)).size(); }
    Run run_of(PartId part) {
        for (const RunState state : {RunState::proposed, RunState::accepted})
            for (const Run& run : must(list_runs(book, state)))
                if (run.part == part) return run;
        FAIL("there is no run of the part");
        return {};
    }
};

void mend_an_edge(Saturday& day) {
    auto& driver = day.driver();
    // Three runs are proposed; R leads to the first. Its end was missed by two photos: the edge is
    // dragged from shot 9 to shot 7, and the two go to the next run.
    CHECK(driver.value("photos.runs") == "3");
    driver.press(Chord{'R'});
    driver.settle();
    const std::string edge =
        "photos.run." + std::to_string(day.run_of(day.hanger).id.value) + ".last";
    driver.scroll_to("photos.list", 8);
    const Rect from = driver.expect_visible(edge).rect, to = driver.expect_visible(day.key(7)).rect;
    driver.drag(edge, (to.left + to.right - from.left - from.right) / 2,
                (to.top + to.bottom - from.top - from.bottom) / 2);
    driver.settle();
    CHECK(day.run_of(day.hanger).photos.size() == 8);
    CHECK(day.run_of(day.shackle).photos.size() == 12);
    // Undone by a key, and dragged again by keys: the frame on shot 7, and L.
    driver.press(Chord{'U'});
    driver.settle();
    CHECK(day.run_of(day.hanger).photos.size() == 10);
    driver.click(day.key(7));
    driver.press(Chord{'L'});
    driver.press(Key::escape);
    driver.settle();
    CHECK(day.run_of(day.hanger).photos.size() == 8);
}

void accept_and_dismiss(Saturday& day) {
    auto& driver = day.driver();
    // One key accepts the first run, another dismisses the second; undo, and all the rest at once.
    driver.press(Chord{'C'});
    driver.settle();
    CHECK(day.tied_to(day.hanger) == 8);
    driver.press(Chord{'N'});
    driver.settle();
    CHECK(day.tied_to(day.shackle) == 1); // its tag shows
    driver.press(Chord{'U'});
    driver.press(Chord{'C', false, true});
    driver.settle();
    CHECK(day.tied_to(day.shackle) == 12);
    CHECK(day.tied_to(day.pins) == 10);
    CHECK(driver.value("photos.runs") == "0");
    must(day.book.undo()); // accepted together, taken back together
    CHECK(day.tied_to(day.shackle) == 1);
    CHECK(day.tied_to(day.pins) == 1);
    must(day.book.redo());
    driver.settle();
}

void tie_a_spell(Saturday& day) {
    auto& driver = day.driver();
    // What is left: J leads to shot 40, after lunch. The whole spell goes to a task by a few
    // letters.
    driver.press(Chord{'J'});
    driver.settle();
    driver.press(Chord{'A'});
    driver.settle();
    CHECK(driver.value("photos.chosen") == "20");
    driver.press(Chord{'T'});
    driver.type("ream b");
    driver.press(Key::enter);
    driver.settle();
    CHECK(day.tied_to(day.bushes) == 20);
    CHECK(must(count_untied_photos(day.book)) == 10);
}

void tie_ten_by_a_digit(Saturday& day) {
    auto& driver = day.driver();
    // The keyboard has gone on to shot 20. Ten are chosen with Shift and the arrows, and tied by
    // one digit to the hanger, as after.
    const auto chosen = [&day] { return std::stoi(day.bench->said("photos.chosen")); };
    const auto step = [&](Key arrow) {
        driver.press({static_cast<int>(arrow), false, true});
        driver.settle();
    };
    for (int lines = 0; lines < 5 && chosen() < 10; ++lines)
        step(Key::down); // each takes a line of photos more
    for (int i = 0; i < 20 && chosen() != 10; ++i)
        step(chosen() > 10 ? Key::left : Key::right);
    driver.press(Chord{'4', false, false, true});
    std::string digit;
    for (char number = '1'; number <= '9'; ++number)
        if (const Noted* target =
                day.bench->stage.reg().find(std::string("photos.numbered.") + number);
            target && target->label.starts_with("H7"))
            digit = number;
    REQUIRE(digit.size() == 1);
    driver.press(Chord{digit[0]});
    driver.settle();
    CHECK(day.tied_to(day.hanger) == 18);
    CHECK(must(ties_of_photo(day.book, day.ids[20])).front().stage == fettle::Stage::after);
    CHECK(must(ties_of_photo(day.book, day.ids[29])).front().stage == fettle::Stage::after);
    CHECK(must(count_untied_photos(day.book)) == 0);
}

void mark_two_stamps(Saturday& day) {
    auto& driver = day.driver();
    // Two stamps are marked: Enter opens the photo, M and Enter take what is seen.
    for (const char* reading : {"OV", "QM"}) {
        driver.press(Key::enter);
        driver.settle();
        driver.press(Chord{'M'});
        driver.press(Key::enter);
        driver.type(reading);
        driver.press(Key::enter);
        driver.press(Key::escape);
        driver.settle();
        driver.press(Key::right);
    }
    const auto marks = must(list_marks(day.book));
    REQUIRE(marks.size() == 2);
    CHECK(marks[0].photo != marks[1].photo);
}

void compare_before_and_after(Saturday& day) {
    auto& driver = day.driver();
    // Shot 25 shows the hanger after the work: V lays one from before the work beside it, W wipes
    // between the two, Esc leads back to the photo and Esc again to all of them.
    driver.reveal(day.key(25));
    driver.click(day.key(25));
    driver.press(Key::enter);
    driver.settle();
    driver.press(Chord{'V'});
    driver.settle();
    REQUIRE(driver.shows("compare.figures"));
    CHECK(holds(driver.value("compare.figures"), "before, 4 Apr 2026  |  after, 4 Apr 2026"));
    CHECK(driver.expect_visible("compare.way").label == "over each other");
    driver.press(Chord{'W'});
    driver.settle();
    CHECK(driver.expect_visible("compare.way").label == "beside each other");
    driver.press(Key::escape);
    driver.press(Key::escape);
    driver.settle();
    CHECK(driver.shows(day.key(25)));
}

} // namespace

TEST_CASE("a Saturday of sixty photos is sorted by a few keys, one drag and no more") {
    Saturday day;
    day.drop(fettle::ui::testing::saturday_pictures(day.folder / "phone"));
    REQUIRE(day.ids.size() == kShots);
    CHECK(holds(day.bench->said("report"), "taken in 60; 3 tied by tag, 27 in runs to confirm"));
    CHECK(must(count_untied_photos(day.book)) == 57);
    day.driver().click("report.close");
    mend_an_edge(day);
    accept_and_dismiss(day);
    tie_a_spell(day);
    tie_ten_by_a_digit(day);
    mark_two_stamps(day);
    compare_before_and_after(day);
}

TEST_CASE(
    "a camera clock is put right by what a photographed clock showed, said before it is done") {
    Saturday day;
    const auto all = fettle::ui::testing::saturday_pictures(day.folder / "phone");
    day.drop({all.begin(), all.begin() + 3});
    auto& driver = day.driver();
    driver.press(Chord{'K'});
    driver.settle();
    CHECK(holds(day.bench->said("clocks.chosen"), "09:00:40"));
    driver.type("8:00");
    driver.settle();
    CHECK_FALSE(day.bench->said("clocks.showed.error").empty());
    day.bench->type_into("clocks.showed", "08:00:10");
    driver.settle();
    // 09:00:40 by the camera, 08:00:10 in truth: an hour and half a minute ahead.
    CHECK(holds(day.bench->said("clocks.effect"), "3 photos move back 1:00:30"));
    CHECK(
        holds(day.bench->said("clocks.effect"), "2026-04-04 09:00:40 becomes 2026-04-04 08:00:10"));
    CHECK(to_iso(*must(photo_by_id(day.book, day.ids[0])).taken).substr(11, 8) == "09:00:40");
    driver.press(Key::enter);
    driver.settle();
    CHECK(to_iso(*must(photo_by_id(day.book, day.ids[0])).taken).substr(11, 8) == "08:00:10");
    CHECK(to_iso(*must(photo_by_id(day.book, day.ids[2])).taken).substr(11, 8) == "08:01:30");
    CHECK(holds(day.bench->stage.reg().find("clocks.camera.0")->value, "1:00:30 ahead"));
    must(day.book.undo());
    CHECK(to_iso(*must(photo_by_id(day.book, day.ids[0])).taken).substr(11, 8) == "09:00:40");
    driver.press(Key::escape);
    driver.settle();
    CHECK_FALSE(driver.shows("clocks.showed"));
}

TEST_CASE("a folder typed to be watched is taken in as it fills, stays watched after a restart, "
          "and stops") {
    Saturday day;
    const auto phone = day.folder / "phone";
    const auto all = fettle::ui::testing::saturday_pictures(day.folder / "made");
    std::filesystem::create_directory(phone);
    std::filesystem::copy_file(all[0], phone / "a.jpg");
    auto& driver = day.driver();
    driver.press(Key::f4);
    driver.settle();
    driver.press(Chord{'W'});
    driver.settle();
    driver.type("/nowhere/at/all");
    driver.press(Key::enter);
    driver.settle();
    CHECK(holds(day.bench->said("photos.folder.error"), "/nowhere/at/all"));
    day.bench->type_into("photos.folder", phone.string());
    driver.press(Key::enter);
    REQUIRE(day.bench->until([&] { return must(list_photos(day.book)).size() == 1; }));
    CHECK(day.bench->said("photos.watched") == phone.string());

    day.bench.reset(); // the window closes and opens again
    day.bench = std::make_unique<fettle::ui::testing::Workbench>(day.book, day.sheets);
    std::filesystem::copy_file(all[1], phone / "b.jpg");
    REQUIRE(day.bench->until([&] { return must(list_photos(day.book)).size() == 2; }));
    REQUIRE(day.bench->until_shown("report.close"));
    day.driver().click("report.close");
    REQUIRE(day.bench->until_shown("watching.stop"));
    day.driver().click("watching.stop");
    day.driver().settle();
    CHECK_FALSE(day.driver().shows("watching"));
    CHECK(must(watched_folder(day.book)).empty());

    // Dropped while its line is open, a folder is watched; else its photos are only taken in.
    day.driver().press(Key::f4);
    day.driver().settle();
    day.driver().press(Chord{'W'});
    day.driver().settle();
    day.bench->stage.input().push(FilesDropped{{phone.string()}});
    REQUIRE(day.bench->until([&] { return day.bench->said("watching") == phone.string(); }));
    CHECK(must(watched_folder(day.book)) == phone.string());
}

// Reading stampings through filters, and measuring, in the large photo.
#include "notebook/marks.h"
#include "notebook/photo_scales.h"
#include "photos/picture_measure.h"
#include "photos/seen_with.h"
#include "ui/photo_bench.h"
#include "ui/pictures/filtered_parts.h"
#include "ui/screens/marks/marks.h"

#include <fcntl.h>

#include <cmath>

using namespace fettle;
using namespace fettle::ui;
using fettle::ui::testing::drag_from;
using fettle::ui::testing::Driver;
using fettle::ui::testing::Workshop;

namespace {

struct Bench : fettle::ui::testing::PhotoBench {
    // Frames and pictures in turn, until all that is wanted has come.
    void settle(Driver& driver) {
        for (int i = 0; i < 4; ++i) {
            pixels.settle();
            driver.settle();
        }
    }
    void press_at(Driver& driver, const PointerMove& at) {
        stage.input().push(at);
        stage.input().push(PointerButton{0, true});
        stage.input().push(PointerButton{0, false});
        driver.drain();
        driver.settle();
    }
};

// Where a place of a picture lies that is smaller than its area: in the middle, one to one.
PointerMove on_screen(const Rect& area, int width, int height, double x, double y) {
    return {float((area.left + area.right) / 2 + x - width / 2.0),
            float((area.top + area.bottom) / 2 + y - height / 2.0)};
}

} // namespace

TEST_CASE("filters are drawn to their amounts, and the light comes from the side that is pressed") {
    Bench bench;
    const auto id = bench.real_photo("plate.jpg", 400, 300, "2026:03:07 10:00:00");
    auto driver = bench.open(id);
    PhotoFiltersState& filters = bench.photos.large.filters;
    CHECK_FALSE(filters.shown());
    driver.press(Chord{'S'});
    CHECK(filters.shown()); // something to begin from
    driver.press(Chord{'Z'});
    CHECK_FALSE(filters.filters.any());
    // The line is 126 pixels long between the halves of its handle.
    driver.drag("filters.relief", 20, 0);
    CHECK(filters.filters.relief == doctest::Approx(0.5 + 20 / 126.0).epsilon(1e-3));
    CHECK(driver.value("filters.relief") == "66 %");
    driver.drag("filters.flatten", 500, 0);
    CHECK(filters.filters.flatten == 1);
    const Rect dial = driver.expect_visible("filters.side").rect;
    bench.press_at(driver, {dial.left + 8, (dial.top + dial.bottom) / 2});
    CHECK(driver.value("filters.side") == "left");
    CHECK(filters.filters.light_from == 270);
    // The picture turned a quarter clockwise takes its light along; a mirror changes its side.
    driver.press(Chord{'R'});
    CHECK(driver.value("filters.side") == "above");
    driver.press(Chord{static_cast<int>(Key::home)});
    driver.press(Chord{'X'});
    CHECK(driver.value("filters.side") == "right");
    bench.press_at(driver, {dial.left + 8, (dial.top + dial.bottom) / 2});
    CHECK(filters.filters.light_from == 90);
    driver.press(Chord{'N'});
    CHECK(filters.filters.invert);
    driver.press(Chord{'W'});
    CHECK_FALSE(filters.shown());
    driver.click("filters.without");
    CHECK(filters.shown());
    bench.settle(driver);
    CHECK(bench.photos.large.all_come); // the small photo was cut into tiles for it
    driver.press(Key::escape);
    CHECK_FALSE(driver.shows("filters.relief"));
    CHECK(bench.photos.large.photo == id); // Esc left the sliders alone
}

TEST_CASE("arrow keys move the slider the keyboard is on, and elsewhere lead to the next photo") {
    Bench bench;
    const auto first = bench.real_photo("a.jpg", 400, 300, "2026:03:07 10:00:00");
    const auto second = bench.real_photo("b.jpg", 400, 300, "2026:03:07 10:05:00");
    auto driver = bench.open(first);
    driver.press(Chord{'S'});
    driver.press(Chord{'Z'});
    driver.press(Key::tab);
    driver.press(Key::right);
    const auto& filters = bench.photos.large.filters.filters;
    CHECK(bench.photos.large.photo == first);
    CHECK(filters.flatten == doctest::Approx(0.05));
    driver.press(Key::right);
    driver.press(Key::left);
    CHECK(filters.flatten == doctest::Approx(0.05));
    driver.press(Key::escape);
    driver.press(Key::right);
    CHECK(bench.photos.large.photo == second);
    CHECK_FALSE(filters.any()); // another photo is seen as it is
}

TEST_CASE("a mark keeps the filters it was read through, and is opened through them") {
    Bench bench;
    const auto id = bench.real_photo("plate.jpg", 400, 300, "2026:03:07 10:00:00");
    auto driver = bench.open(id);
    driver.press(Chord{'R'});
    driver.press(Chord{'S'});
    driver.drag("filters.sharpen", 10, 0);
    const auto set = bench.photos.large.filters.filters;
    driver.press(Chord{'M'});
    driver.press(Key::enter);
    CHECK(holds(driver.value("photo.seen_with"), "sharpen 58 %"));
    CHECK(holds(driver.value("photo.seen_with"), "turned 90°"));
    driver.type("OV 36");
    driver.press(Key::enter);
    const auto mark = must(list_marks(bench.book, {.photo = id})).front();
    const auto seen = must(photos::seen_with_from_json(mark.seen_with));
    CHECK(seen.filters.sharpen == doctest::Approx(set.sharpen).epsilon(1e-3));
    CHECK(seen.filters.flatten == set.flatten);
    CHECK(seen.turn == 90);
    driver.press(Key::escape);
    driver.press(Key::escape);

    Workshop& shop = bench;
    PhotosState again;
    lead_to(again, {"photos", id.value, mark.id.value});
    auto other = shop.drive([&](Page& page) { draw_photos(page, shop.context, again); });
    CHECK(again.large.filters.filters == seen.filters);
    CHECK(again.large.view.turn == 90);
    CHECK(again.large.filters.shown());

    // In the list it is seen as it was read, with what the filters need around it.
    const auto photo = must(photo_by_id(bench.book, id));
    const Region part{100, 100, 60, 40};
    CHECK_FALSE(bench.pixels.filtered_crop(photo, part, 1, seen.filters));
    bench.pixels.settle();
    const auto crop = bench.pixels.filtered_crop(photo, part, 1, seen.filters);
    REQUIRE(crop.has_value());
    CHECK(crop->region.x <= 100);
    CHECK(crop->region.w >= 60);
    CHECK(crop->texture->width() == crop->region.w);
    must(bench.book.undo());
    CHECK(must(list_marks(bench.book)).empty());
}

TEST_CASE("a mark read without filters keeps none") {
    Bench bench;
    const auto id = bench.real_photo("plate.jpg", 400, 300, "2026:03:07 10:00:00");
    auto driver = bench.open(id);
    driver.press(Chord{'S'});
    driver.press(Chord{'W'}); // seen without them
    driver.press(Chord{'M'});
    driver.press(Key::enter);
    driver.type("OV 36");
    driver.press(Key::enter);
    CHECK(must(list_marks(bench.book)).front().seen_with.empty());
}

TEST_CASE("what is made of tiles is what the filters make of the whole picture") {
    photos::Picture whole{1400, 900, {}};
    for (int y = 0; y < whole.height; ++y)
        for (int x = 0; x < whole.width; ++x)
            for (int channel = 0; channel < 4; ++channel)
                whole.rgba.push_back(std::byte(
                    channel == 3 ? 255
                                 : int(128 + 60 * std::sin(x / 7.0) * std::cos(y / 9.0) + x / 50)));
    TempFolder folder;
    const HandedFile file(::open((folder / "tiles").c_str(), O_RDWR | O_CREAT, 0600));
    must(photos::write_tiles(file.descriptor(), whole, 1));
    const auto tiles = must(photos::TileFile::open(folder / "tiles"));
    FilteredParts parts({});
    const photos::StampFilters filters{.flatten = 0.8, .relief = 0.4, .radius = 16};
    parts.want("a", {tiles, "hash", 0, {450, 300, 400, 300}, filters}); // over four tiles
    parts.settle();
    const auto come = parts.take();
    REQUIRE(come.size() == 1);
    const auto& [slot, hash, region, picture] = come.front();
    CHECK(region.x < 450);
    CHECK(region.x + region.w > 850);
    CHECK(picture.width == region.w);
    const auto direct = photos::filtered(whole, filters);
    int worst = 0;
    for (int y = 300; y < 600; ++y)
        for (int x = 450; x < 850; ++x) {
            const auto of = [](const photos::Picture& from, int at_x, int at_y) {
                return int(from.rgba[(std::size_t(at_y) * from.width + at_x) * 4]);
            };
            worst = std::max(worst,
                             std::abs(of(direct, x, y) - of(picture, x - region.x, y - region.y)));
        }
    CHECK(worst <= 6); // the blur reaches a little farther than what is made around it
    // The same again is nothing new; other settings are.
    parts.want("a", {tiles, "hash", 0, {450, 300, 400, 300}, filters});
    parts.settle();
    CHECK(parts.take().empty());
    parts.want("a", {tiles, "hash", 0, {450, 300, 400, 300}, {.invert = true}});
    parts.settle();
    CHECK(parts.take().size() == 1);
}

TEST_CASE("a known length is set, distances are measured, moved, written and taken back") {
    Bench bench;
    const auto id = bench.real_photo("rule.jpg", 400, 300, "2026:03:07 10:00:00");
    auto driver = bench.open(id);
    driver.press(Chord{'D'});
    const Rect area = driver.expect_visible("photo.picture").rect;
    const auto press = [&](double x, double y) {
        bench.press_at(driver, on_screen(area, 400, 300, x, y));
    };
    press(100, 100);
    CHECK(driver.value("measure.set") == "1");
    press(200, 100);
    driver.type("0 mm");
    driver.press(Key::enter);
    CHECK(holds(driver.expect_visible("measure.error").label, "longer than 0"));
    CHECK_FALSE(must(scale_of_photo(bench.book, id)));
    driver.click("measure.length");
    driver.press(Chord{static_cast<int>(Key::a), true});
    driver.type("25.4 mm");
    driver.press(Key::enter);
    CHECK(holds(driver.expect_visible("measure.known").label, "25.4 mm"));
    press(100, 150);
    press(300, 150);
    // Twice as long as 25.4 mm. Each click is sure to sqrt(1 + 1/12) pixels at one to one, the
    // known length to half its last place: U = 2 · 50.8 sqrt(2 · 1.083 (1/200² + 1/100²) +
    // (0.05/25.4)²/3) = 1.7 mm, worked by hand from JCGM 100:2008, formula (12).
    CHECK(driver.value("measure.line.0") == "50.8 ± 1.7 mm  2.00 ± 0.07 in");
    CHECK(bench.book.next_undo() == "measured 50.8 ± 1.7 mm in a photo");
    drag_from(bench.stage, driver, on_screen(area, 400, 300, 300, 150),
              on_screen(area, 400, 300, 350, 150));
    driver.settle();
    CHECK(driver.value("measure.line.0").starts_with("63.5 ± ")); // 2.5 times
    must(bench.book.undo());
    driver.settle();
    CHECK(driver.value("measure.line.0").starts_with("50.8 ± "));
    driver.click("measure.line.0.entry");
    CHECK(holds(bench.context.draft.text, "50.8 ± 1.7 mm (2.00 ± 0.07 in"));
    CHECK(holds(bench.context.draft.text, "25.4 mm"));
    CHECK(bench.context.draft.photos.front().photo == id);
    driver.click("measure.change");
    driver.click("measure.length");
    driver.press(Chord{static_cast<int>(Key::a), true});
    driver.type("2");
    driver.press(Key::enter);
    CHECK(driver.value("measure.line.0").starts_with("102 ± 4 mm")); // 2 in by 2
    driver.click("measure.line.0.remove");
    CHECK_FALSE(driver.shows("measure.line.0"));
    driver.click("measure.remove");
    CHECK_FALSE(must(scale_of_photo(bench.book, id)));
    must(bench.book.undo());
    must(bench.book.undo());
    driver.settle();
    CHECK(driver.shows("measure.line.0"));
    driver.press(Key::escape);
    CHECK_FALSE(driver.shows("measure.known"));
    CHECK(must(list_marks(bench.book)).empty()); // presses were points, not marks
}

TEST_CASE("four corners give the plane, and corners that cross are refused and drawn right") {
    Bench bench;
    const auto id = bench.real_photo("card.jpg", 400, 300, "2026:03:07 10:00:00");
    auto driver = bench.open(id);
    driver.press(Chord{'D'});
    driver.click("measure.kind.1");
    const Rect area = driver.expect_visible("photo.picture").rect;
    const auto at = [&](double x, double y) { return on_screen(area, 400, 300, x, y); };
    // A square seen from its left, its right side two thirds as high; the last two corners change
    // places.
    for (const auto& [x, y] : {std::pair{100, 60}, {300, 90}, {100, 240}, {300, 210}})
        bench.press_at(driver, at(x, y));
    driver.type("100 mm");
    driver.click("measure.height");
    driver.type("100 mm");
    driver.press(Key::enter);
    CHECK(holds(driver.expect_visible("measure.error").label, "cross"));
    CHECK_FALSE(must(scale_of_photo(bench.book, id)));
    drag_from(bench.stage, driver, at(300, 210), at(150, 280));
    drag_from(bench.stage, driver, at(100, 240), at(300, 210));
    drag_from(bench.stage, driver, at(150, 280), at(100, 240));
    driver.click("measure.keep");
    CHECK(driver.shows("measure.known"));
    // By symmetry the middle line is 100 mm wide; the diagonals meet at its middle in truth, at
    // x = 220 in the picture, where 180 and 120 share the 200 pixels between the sides.
    bench.press_at(driver, at(100, 150));
    bench.press_at(driver, at(300, 150));
    CHECK(driver.value("measure.line.0").starts_with("100"));
    bench.press_at(driver, at(100, 150));
    bench.press_at(driver, at(220, 150));
    CHECK(driver.value("measure.line.1").starts_with("50.0 ± "));
    // Two presses on one spot are no distance.
    bench.press_at(driver, at(200, 20));
    bench.press_at(driver, at(200, 20));
    CHECK(holds(driver.expect_visible("measure.error").label, "one spot"));
}

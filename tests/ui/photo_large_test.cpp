#include "notebook/marks.h"
#include "notebook/people.h"
#include "ui/photo_bench.h"

using namespace fettle;
using namespace fettle::ui;
using fettle::ui::testing::drag_from;
using fettle::ui::testing::Driver;

namespace {

using Bench = fettle::ui::testing::PhotoBench;

// Where a place of the picture lies on the screen while the whole picture is shown: in the middle
// of its area, at the zoom that fits, and never larger than one to one.
PointerMove on_screen(const Rect& area, int width, int height, double x, double y) {
    const double zoom =
        std::min({1.0, double(area.width()) / width, double(area.height()) / height});
    return {float((area.left + area.right) / 2 + (x - width / 2.0) * zoom),
            float((area.top + area.bottom) / 2 + (y - height / 2.0) * zoom)};
}

std::string zoom_shown(Driver& driver) {
    return driver.value("photo.picture");
}

// The mean of red, green and blue in a region of the upright picture, 0 to 1, by ImageMagick.
double brightness(const std::filesystem::path& file, const Region& region) {
    const auto geometry = std::to_string(region.w) + "x" + std::to_string(region.h) + "+" +
                          std::to_string(region.x) + "+" + std::to_string(region.y);
    return std::stod(testing::output_of("convert '" + file.string() + "' -auto-orient -crop " +
                                        geometry + " +repage -format '%[fx:mean]' info:"));
}

} // namespace

TEST_CASE("a box dragged round a stamping becomes a mark in picture pixels") {
    // The white plate lies at 200..320 by 60..140 of the pixels as stored. Turned upright by
    // orientation 6 (EXIF 2.32: row 0 is the right side, column 0 the top), a pixel at x, y of a
    // picture 480 high comes to 479 - y, x: the plate is 340..420 by 200..320 there.
    struct Case {
        int orientation, width, height;
        Region plate;
    };
    for (const Case& c :
         {Case{1, 640, 480, {200, 60, 120, 80}}, Case{6, 480, 640, {340, 200, 80, 120}}}) {
        CAPTURE(c.orientation);
        Bench bench;
        const auto id =
            bench.real_photo("plate.jpg", 640, 480, "2026:03:07 10:00:00", c.orientation,
                             "-fill white -draw 'rectangle 200,60 319,139'");
        must(keep_maker(bench.book, {.name = "Orrinvale Forge", .sign = "OV in an oval"}));
        auto driver = bench.open(id);
        const Rect area = driver.expect_visible("photo.picture").rect;
        driver.press(Chord{'M'});
        CHECK(driver.shows("photo.boxing"));
        const auto [x, y, w, h] = c.plate;
        drag_from(bench.stage, driver, on_screen(area, c.width, c.height, x, y),
                  on_screen(area, c.width, c.height, x + w, y + h));
        // The reading line is open and has the caret.
        driver.type("OV 36");
        driver.click("mark.maker");
        driver.type("orr");
        driver.press(Key::enter);

        const auto marks = must(list_marks(bench.book));
        REQUIRE(marks.size() == 1);
        CHECK(marks[0].reading == "OV 36");
        CHECK(marks[0].maker == "Orrinvale Forge");
        CHECK(marks[0].photo == id);
        // Screen pixels are coarser than picture pixels in neither direction by more than two.
        CHECK(std::abs(marks[0].region.x - x) <= 2);
        CHECK(std::abs(marks[0].region.y - y) <= 2);
        CHECK(std::abs(marks[0].region.w - w) <= 3);
        CHECK(std::abs(marks[0].region.h - h) <= 3);
        const auto file = photo_file(bench.book, must(photo_by_id(bench.book, id)));
        CHECK(brightness(file, marks[0].region) > 0.95);
        CHECK_FALSE(driver.shows("mark.reading"));
        CHECK(holds(driver.expect_visible("photo.mark.1").label, "OV 36"));
        must(bench.book.undo());
        driver.settle();
        CHECK_FALSE(driver.shows("photo.mark.1"));
    }
}

TEST_CASE("the wheel zooms to single pixels about the pointer") {
    Bench bench;
    const auto id = bench.real_photo("big.jpg", 1600, 1200, "2026:03:07 10:00:00");
    auto driver = bench.open(id);
    const Rect area = driver.expect_visible("photo.picture").rect;
    const std::string fitted = zoom_shown(driver);
    const PointerMove at = on_screen(area, 1600, 1200, 400, 300);
    bench.stage.input().push(at);
    driver.drain();
    for (int i = 0; i < 30; ++i)
        bench.stage.input().push(Wheel{0, 1});
    driver.drain();
    CHECK(zoom_shown(driver) == "1600 %");
    bench.pixels.settle(); // the tiles at this depth can be had
    driver.settle();
    // 16 screen pixels are one of the picture, and what was under the pointer still is.
    driver.press(Chord{'M'});
    drag_from(bench.stage, driver, at, {at.x + 48, at.y + 32});
    REQUIRE(bench.photos.large.reading.has_value());
    const Region region = bench.photos.large.reading->mark.region;
    CHECK(std::abs(region.x - 400) <= 1);
    CHECK(std::abs(region.y - 300) <= 1);
    CHECK(region.w == 3);
    CHECK(region.h == 2);
    driver.press(Key::escape);
    CHECK_FALSE(driver.shows("mark.reading"));
    driver.press(Chord{'0'});
    CHECK(zoom_shown(driver) == fitted);
    driver.press(Chord{'1'});
    CHECK(zoom_shown(driver) == "100 %");
}

TEST_CASE("dragging without a box moves the picture") {
    Bench bench;
    const auto id = bench.real_photo("big.jpg", 1600, 1200, "2026:03:07 10:00:00");
    auto driver = bench.open(id);
    driver.press(Chord{'1'});
    const double x = bench.photos.large.view.x, y = bench.photos.large.view.y;
    driver.drag("photo.picture", -40, 24);
    CHECK(bench.photos.large.view.x == doctest::Approx(x + 40));
    CHECK(bench.photos.large.view.y == doctest::Approx(y - 24));
    CHECK_FALSE(driver.shows("mark.reading"));
}

TEST_CASE("a mark is read by keyboard alone: what is seen is the box") {
    Bench bench;
    const auto id = bench.real_photo("a.jpg", 400, 300, "2026:03:07 10:00:00");
    auto driver = bench.open(id);
    driver.press(Chord{'M'});
    driver.press(Key::enter);
    driver.type("PW");
    driver.press(Key::enter);
    const auto marks = must(list_marks(bench.book, {.photo = id}));
    REQUIRE(marks.size() == 1);
    CHECK(marks[0].region == Region{0, 0, 400, 300});
    CHECK(marks[0].maker.empty());
    CHECK(marks[0].sure == Sureness::likely);
}

TEST_CASE("an empty reading is refused beside its field and nothing is kept") {
    Bench bench;
    const auto id = bench.real_photo("a.jpg", 400, 300, "2026:03:07 10:00:00");
    auto driver = bench.open(id);
    driver.press(Chord{'M'});
    driver.press(Key::enter);
    driver.click("mark.keep");
    CHECK(holds(driver.expect_visible("mark.reading.error").label, "reading"));
    CHECK(must(list_marks(bench.book)).empty());
}

TEST_CASE("arrows go through the photos and Esc goes back to all of them") {
    Bench bench;
    const auto first = bench.real_photo("a.jpg", 400, 300, "2026:03:07 10:00:00");
    const auto second = bench.real_photo("b.jpg", 400, 300, "2026:03:07 10:05:00");
    auto driver = bench.open(first);
    driver.press(Key::right);
    CHECK(bench.photos.large.photo == second);
    driver.press(Key::right); // the last one
    CHECK(bench.photos.large.photo == second);
    driver.press(Key::left);
    CHECK(bench.photos.large.photo == first);
    driver.press(Key::escape);
    CHECK(driver.shows("photos.photo.1"));
    driver.press(Key::enter); // the frame is where one was
    CHECK(bench.photos.large.photo == first);
}

TEST_CASE("the strip names time, size, place and damage, and ties lead on") {
    Bench bench;
    const auto id = bench.real_photo("a.jpg", 400, 300, "2026:03:07 19:42:05");
    const auto hanger = bench.part("H7", "spring hanger");
    must(tie_photos(bench.book, {id}, hanger.id, fettle::Stage::before));
    const auto file = photo_file(bench.book, must(photo_by_id(bench.book, id)));
    auto driver = bench.open(id);
    const std::string figures = driver.value("photo.figures");
    CHECK(holds(figures, "7 Mar 2026, 19:42"));
    CHECK(holds(figures, "400 × 300"));
    CHECK(holds(figures, "1 of 1"));
    CHECK_FALSE(driver.shows("photo.damage"));
    driver.click("photo.tie.0");
    REQUIRE(bench.context.go.has_value());
    CHECK(bench.context.go->screen == "parts");
    CHECK(bench.context.go->record == hanger.id.value);
    driver.click("photo.tie.0.untie");
    CHECK(must(ties_of_photo(bench.book, id)).empty());
}

TEST_CASE("a photo that cannot be shown says why") {
    Bench bench;
    const auto id = bench.real_photo("a.jpg", 400, 300, "2026:03:07 19:42:05");
    std::filesystem::remove(photo_file(bench.book, must(photo_by_id(bench.book, id))));
    std::filesystem::remove_all(bench.book.cache_folder());
    auto driver = bench.open(id);
    bench.pixels.settle();
    driver.settle();
    CHECK(holds(driver.value("photo.damage"), "a.jpg"));
}

#include "notebook/marks.h"
#include "notebook/photo_pairs.h"
#include "photos/decoder.h"
#include "ui/photo_bench.h"
#include "ui/screens/parts/parts.h"
#include "ui/screens/photos/photo_match.h"

#include <cmath>

using namespace fettle;
using namespace fettle::ui;
using fettle::ui::testing::drag_from;
using fettle::ui::testing::Driver;

namespace {

constexpr int kWidth = 800, kHeight = 600;
// The pointer stands on whole pixels of the screen, here at least 0.6 of them to one of a picture.
constexpr double kClick = 1 / 0.6;

struct Bench : fettle::ui::testing::PhotoBench {
    CompareState& compare() {
        REQUIRE(photos.large.compare.has_value());
        return *photos.large.compare;
    }
};

struct Pair : Bench {
    PhotoId before = real_photo("rusty.jpg", kWidth, kHeight, "2026:03:07 10:00:00");
    PhotoId after = real_photo("blasted.jpg", kWidth, kHeight, "2026:05:09 10:00:00");
    Part hanger = part("H7", "spring hanger");
    Pair() {
        must(tie_photos(book, {before}, hanger.id, fettle::Stage::before));
        must(tie_photos(book, {after}, hanger.id, fettle::Stage::after));
    }
    // Where a place of a picture of this size lies in a pane that shows all of it.
    PointerMove on_pane(Driver& driver, const std::string& key, double x, double y) {
        const Rect area = driver.expect_visible(key).rect;
        const double zoom =
            std::min({1.0, double(area.width()) / kWidth, double(area.height()) / kHeight});
        return {float((area.left + area.right) / 2 + (x - kWidth / 2.0) * zoom),
                float((area.top + area.bottom) / 2 + (y - kHeight / 2.0) * zoom)};
    }
    void click_at(Driver& driver, PointerMove at, int which = 0) {
        stage.input().push(at);
        driver.drain();
        stage.input().push(PointerButton{which, true});
        driver.drain();
        stage.input().push(PointerButton{which, false});
        driver.drain();
        driver.settle();
    }
    void match(Driver& driver, PicturePoint in_one, PicturePoint in_other) {
        click_at(driver, on_pane(driver, "compare.one", in_one.x, in_one.y));
        click_at(driver, on_pane(driver, "compare.other", in_other.x, in_other.y));
    }
    std::vector<MatchingPoint> kept() { return must(photo_pair(book, before, after)).points; }
};

// The middle of what is bright in a dark picture, in the picture's continuous coordinates.
PicturePoint bright_spot(const std::filesystem::path& file) {
    photos::Decoder decoder;
    const auto picture = must(decoder.picture(file));
    double x_sum = 0, y_sum = 0, weight = 0;
    for (int y = 0; y < picture.height; ++y)
        for (int x = 0; x < picture.width; ++x) {
            const auto green = double(
                picture
                    .rgba[(std::size_t(y) * std::size_t(picture.width) + std::size_t(x)) * 4 + 1]);
            if (green < 64) continue;
            x_sum += green * (x + 0.5);
            y_sum += green * (y + 0.5);
            weight += green;
        }
    REQUIRE(weight > 0);
    return {x_sum / weight, y_sum / weight};
}

} // namespace

TEST_CASE("a box round a stamping is right however the picture is turned and mirrored") {
    // A picture 640 by 480 with a plate at 200..320 by 60..140. From the middle (320, 240) a spot
    // lies dx, dy away. A quarter turn clockwise on the screen brings it to -dy, dx, a mirror to
    // -dx, dy, and a mirror with a quarter turn after it to -dy, -dx.
    struct Case {
        std::vector<char> keys;
        double xx, xy, yx, yy;
        std::string said;
    };
    for (const Case& c :
         {Case{{'R'}, 0, -1, 1, 0, "turned 90°"}, Case{{'X'}, -1, 0, 0, 1, "mirrored"},
          Case{{'X', 'R'}, 0, -1, -1, 0, "turned 90°, mirrored"},
          Case{{'R', 'R'}, -1, 0, 0, -1, "turned 180°"}}) {
        CAPTURE(c.said);
        Bench bench;
        const auto id = bench.real_photo("plate.jpg", 640, 480, "2026:03:07 10:00:00");
        auto driver = bench.open(id);
        for (const char key : c.keys)
            driver.press(Chord{key});
        CHECK(holds(driver.value("photo.figures"), c.said));
        const Rect area = driver.expect_visible("photo.picture").rect;
        const double wide = std::abs(c.xx) * 640 + std::abs(c.xy) * 480;
        const double high = std::abs(c.yx) * 640 + std::abs(c.yy) * 480;
        const double zoom =
            std::min({1.0, double(area.width()) / wide, double(area.height()) / high});
        const auto at = [&](double x, double y) {
            const double dx = x - 320, dy = y - 240;
            return PointerMove{
                float((area.left + area.right) / 2 + zoom * (c.xx * dx + c.xy * dy)),
                float((area.top + area.bottom) / 2 + zoom * (c.yx * dx + c.yy * dy))};
        };
        driver.press(Chord{'M'});
        drag_from(bench.stage, driver, at(200, 60), at(320, 140));
        driver.type("OV 36");
        driver.press(Key::enter);
        const auto marks = must(list_marks(bench.book));
        REQUIRE(marks.size() == 1);
        CHECK(std::abs(marks[0].region.x - 200) <= 1);
        CHECK(std::abs(marks[0].region.y - 60) <= 1);
        CHECK(std::abs(marks[0].region.w - 120) <= 2);
        CHECK(std::abs(marks[0].region.h - 80) <= 2);
        // Pressing where it lies now opens it again.
        const auto middle = at(260, 100);
        bench.stage.input().push(middle);
        driver.drain();
        bench.stage.input().push(PointerButton{0, true});
        driver.drain();
        bench.stage.input().push(PointerButton{0, false});
        driver.drain();
        CHECK(driver.shows("mark.reading"));
        driver.press(Key::escape);
        driver.press(Chord{static_cast<int>(Key::home)});
        CHECK_FALSE(holds(driver.value("photo.figures"), c.said));
    }
}

TEST_CASE("a picture is turned by degrees about its middle and still moves with the pointer") {
    Bench bench;
    const auto id = bench.real_photo("big.jpg", 1600, 1200, "2026:03:07 10:00:00");
    auto driver = bench.open(id);
    for (int i = 0; i < 5; ++i)
        driver.press(Chord{'.'});
    driver.press(Chord{','});
    CHECK(holds(driver.value("photo.figures"), "turned 4°"));
    driver.press(Chord{.key = '.', .shift = true});
    CHECK(holds(driver.value("photo.figures"), "turned 4.1°"));
    driver.press(Chord{.key = ',', .shift = true});
    driver.press(Chord{'1'});
    const PhotoView still = bench.photos.large.view;
    driver.drag("photo.picture", -40, 24);
    const PhotoView& moved = bench.photos.large.view;
    // Screen (40, -24) turned back by 4 degrees, by hand: cos 0.997564, sin 0.069756.
    CHECK(moved.x - still.x == doctest::Approx(40 * 0.997564 - 24 * 0.069756).epsilon(1e-3));
    CHECK(moved.y - still.y == doctest::Approx(-40 * 0.069756 - 24 * 0.997564).epsilon(1e-3));
    driver.click("photo.as_taken");
    CHECK(bench.photos.large.view.turn == 0);
}

TEST_CASE("two photos of a part are compared, the one from before the work first") {
    Pair bench;
    auto driver = bench.open(bench.after);
    driver.press(Chord{'V'});
    CHECK(bench.compare().one == bench.before);
    CHECK(bench.compare().other == bench.after);
    CHECK(holds(driver.expect_visible("compare.one").label, "before, 7 Mar 2026"));
    CHECK(holds(driver.expect_visible("compare.other").label, "after, 9 May 2026"));
    // Zoomed and moved in either: the other goes with it.
    const std::string fitted = driver.value("compare.other");
    driver.wheel("compare.one", 3);
    CHECK(driver.value("compare.other") != fitted);
    CHECK(driver.value("compare.other") == driver.value("compare.one"));
    driver.press(Chord{'1'});
    const double x = bench.compare().view.x;
    driver.drag("compare.other", -30, 0);
    CHECK(bench.compare().view.x == doctest::Approx(x + 30));
    driver.press(Chord{'0'});
    CHECK(driver.value("compare.one") == fitted);

    driver.press(Chord{'W'});
    CHECK(driver.shows("compare.laid"));
    const Rect area = driver.expect_visible("compare.laid").rect;
    CHECK(driver.value("compare.edge") == "50 %");
    driver.drag("compare.edge", -area.width() / 4, 0);
    CHECK(driver.value("compare.edge") == "25 %");
    driver.press(Chord{'.'});
    CHECK(driver.value("compare.edge") == "30 %");
    driver.press(Chord{'D'});
    driver.drag("compare.edge", 0, area.height() * 0.2F);
    CHECK(driver.value("compare.edge") == "50 %");
    driver.press(Chord{'S'});
    CHECK(bench.compare().one == bench.after);
    driver.press(Key::escape);
    CHECK_FALSE(bench.photos.large.compare.has_value());
    CHECK(bench.photos.large.photo == bench.after); // back where it began
}

TEST_CASE("comparing is reached from two chosen photos and from a part's page") {
    Pair bench;
    auto driver = bench.drive([&](Page& page) { draw_photos(page, bench.context, bench.photos); });
    bench.photos.chosen = {bench.after, bench.before};
    driver.settle();
    driver.press(Chord{'V'});
    CHECK(bench.compare().one == bench.after);
    CHECK(bench.compare().other == bench.before);

    PartsState parts;
    SideWork work{[] {}};
    lead_to(parts, {"parts", bench.hanger.id.value});
    auto on_parts = bench.drive([&](Page& page) { draw_parts(page, bench.context, work, parts); });
    on_parts.press(Chord{'V'});
    REQUIRE(bench.context.go.has_value());
    CHECK(bench.context.go->record == bench.before.value);
    CHECK(bench.context.go->with == bench.after.value);
    lead_to(bench.photos, *bench.context.go);
    CHECK(bench.compare().one == bench.before);
    CHECK(bench.compare().other == bench.after);
}

TEST_CASE("a photo of no part has nothing to be compared with and says what to do") {
    Bench bench;
    auto driver = bench.open(bench.real_photo("a.jpg", 400, 300, "2026:03:07 10:00:00"));
    driver.press(Chord{'V'});
    CHECK_FALSE(bench.photos.large.compare.has_value());
    CHECK(holds(bench.context.trouble, "tie both to it"));
}

TEST_CASE("four matching points lay a slanted photo on the other to less than a pixel") {
    // ImageMagick's own distortion moves these four spots; a bright disc elsewhere tells whether
    // what lies between them follows. Corners by hand, as a camera held otherwise would see them.
    const PicturePoint from[] = {{100, 100}, {700, 120}, {680, 500}, {90, 520}};
    const PicturePoint to[] = {{130, 90}, {660, 150}, {700, 470}, {120, 540}};
    std::string corners;
    for (int i = 0; i < 4; ++i)
        for (const PicturePoint& at : {from[i], to[i]})
            corners += std::to_string(int(at.x)) + "," + std::to_string(int(at.y)) + " ";
    const std::string disc = "-fill black -draw 'rectangle 0,0 799,599' -fill white -draw "
                             "'circle 520,380 530,380'";
    Pair bench;
    bench.before = bench.real_photo("b.jpg", kWidth, kHeight, "2026:03:08 10:00:00", 1, disc);
    bench.after =
        bench.real_photo("a.jpg", kWidth, kHeight, "2026:05:10 10:00:00", 1,
                         disc + " -virtual-pixel black -distort Perspective '" + corners + "'");
    bench.photos.chosen = {bench.before, bench.after};
    auto driver = bench.drive([&](Page& page) { draw_photos(page, bench.context, bench.photos); });
    driver.press(Chord{'V'});
    driver.press(Chord{'P'});
    CHECK(driver.shows("compare.matching"));
    for (int i = 0; i < 4; ++i)
        bench.match(driver, from[i], to[i]);
    REQUIRE(bench.kept().size() == 4);
    driver.press(Key::escape); // done with the points
    REQUIRE(bench.photos.large.compare.has_value());
    CHECK(holds(driver.value("compare.figures"), "laid on each other by 4 points"));

    const auto file = [&](PhotoId id) {
        return photo_file(bench.book, must(photo_by_id(bench.book, id)));
    };
    const PicturePoint disc_before = bright_spot(file(bench.before));
    const PicturePoint disc_after = bright_spot(file(bench.after));
    CHECK(std::hypot(disc_before.x - disc_after.x, disc_before.y - disc_after.y) > 10);
    ComparedFacts facts;
    facts.one = must(photo_by_id(bench.book, bench.before));
    facts.other = must(photo_by_id(bench.book, bench.after));
    facts.pair = must(photo_pair(bench.book, bench.after, bench.before));
    const Laid laid = laid_on(facts, false);
    REQUIRE(laid.by_points);
    const auto there = laid.map(disc_after);
    CHECK(std::hypot(there.x - disc_before.x, there.y - disc_before.y) < 1);
    // Turned and sized alone it cannot lie right, and that is told in words.
    const Laid stiff = laid_on(facts, true);
    CHECK(stiff.misses.typical > 3);
    CHECK(holds(misses_in_words(stiff), "pixels at point"));
    driver.press(Chord{'B'});
    CHECK(holds(driver.value("compare.figures"), "miss each other by"));
    driver.press(Chord{'W'});
    bench.pixels.settle();
    driver.settle();
    CHECK(driver.shows("compare.laid"));
}

TEST_CASE("matching points are dragged, removed and brought back, each an act") {
    Pair bench;
    auto driver = bench.open(bench.before);
    driver.press(Chord{'V'});
    driver.press(Chord{'P'});
    bench.match(driver, {200, 150}, {210, 160});
    REQUIRE(bench.kept().size() == 1);
    CHECK(std::abs(bench.kept()[0].onto_x - 210) < kClick);
    CHECK(std::abs(bench.kept()[0].x - 200) < kClick);
    bench.match(driver, {600, 450}, {590, 460});
    REQUIRE(bench.kept().size() == 2);
    drag_from(bench.stage, driver, bench.on_pane(driver, "compare.one", 600, 450),
              bench.on_pane(driver, "compare.one", 620, 440));
    CHECK(std::abs(bench.kept()[1].x - 620) < kClick);
    CHECK(std::abs(bench.kept()[1].y - 440) < kClick);
    CHECK(std::abs(bench.kept()[1].onto_x - 590) < kClick);
    bench.click_at(driver, bench.on_pane(driver, "compare.other", 210, 160), 1);
    REQUIRE(bench.kept().size() == 1);
    CHECK(std::abs(bench.kept()[0].x - 620) < kClick);
    must(bench.book.undo());
    CHECK(bench.kept().size() == 2);
    driver.settle();
    driver.press(Chord{static_cast<int>(Key::backspace)});
    CHECK(bench.kept().size() == 1);
    driver.click("compare.match.all");
    CHECK(bench.kept().empty());
    CHECK_FALSE(driver.shows("compare.point.one.1"));
}

TEST_CASE("points that settle nothing are refused with a sentence and not kept") {
    Pair bench;
    auto driver = bench.open(bench.before);
    driver.press(Chord{'V'});
    driver.press(Chord{'P'});
    bench.match(driver, {200, 200}, {200, 200});
    bench.match(driver, {200.5, 200}, {500, 200});
    // The pointer takes the point that is there, so nothing was begun: one is still kept.
    CHECK(bench.kept().size() == 1);
    driver.press(Chord{static_cast<int>(Key::backspace)}); // the half that was put on the right
    bench.match(driver, {400, 300}, {400, 300});
    CHECK(bench.kept().size() == 2);
    bench.match(driver, {600, 400}, {500, 500});
    CHECK(bench.kept().size() == 2);
    CHECK(holds(driver.expect_visible("compare.refused").label, "Points 1, 2 and 3 lie in a line"));
}

TEST_CASE("a picture too large for one piece says its full size is coming, and it can be stopped") {
    Bench bench;
    bench.waits_for_pixels = false;
    const auto id = bench.real_photo("wide.jpg", 3000, 1000, "2026:03:07 10:00:00");
    auto driver = bench.open(id);
    CHECK_FALSE(driver.shows("photo.coming"));
    driver.press(Chord{'1'});
    driver.click("photo.coming.stop");
    CHECK(driver.expect_visible("photo.coming").label == "full size stopped");
    bench.pixels.settle();
    driver.settle();
    const auto photo = must(photo_by_id(bench.book, id));
    CHECK_FALSE(bench.pixels.is_cut(photo));
    driver.press(Chord{static_cast<int>(Key::del)}); // fetch it after all
    bench.pixels.settle();
    driver.settle();
    bench.pixels.settle();
    driver.settle();
    CHECK(bench.pixels.is_cut(photo));
    CHECK_FALSE(driver.shows("photo.coming"));
    CHECK(bench.photos.large.all_come);
}

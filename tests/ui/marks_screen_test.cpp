#include "ui/screens/marks.h"
#include "ui/workshop.h"

using namespace fettle;
using namespace fettle::ui;
using fettle::ui::testing::Workshop;

TEST_CASE("marks stand under their makers, those without one at the end") {
    Workshop shop;
    const auto photo = shop.real_photo("a.jpg", 640, 480, "2026:03:07 10:00:00");
    const auto hanger = shop.part("H7", "spring hanger");
    must(tie_photos(shop.book, {photo}, hanger.id, fettle::Stage::during));
    const auto unknown = must(keep_mark(
        shop.book, {.photo = photo, .region = {10, 20, 60, 40}, .reading = "7 in a circle"}));
    const auto known = must(keep_mark(shop.book, {.photo = photo,
                                                  .region = {100, 100, 120, 80},
                                                  .reading = "OV 36",
                                                  .maker = "Orrinvale Forge"}));
    MarksState marks;
    auto driver = shop.drive([&](Page& page) { draw_marks(page, shop.context, marks); });
    const auto key = [](MarkId id) { return "marks.mark." + std::to_string(id.value); };
    CHECK(driver.expect_visible("marks.maker.0").label == "Orrinvale Forge");
    CHECK(driver.expect_visible("marks.maker.1").label == "maker unknown");
    CHECK(driver.expect_visible(key(known)).rect.bottom <
          driver.expect_visible("marks.maker.1").rect.top);
    CHECK(driver.expect_visible(key(unknown)).rect.top >
          driver.expect_visible("marks.maker.1").rect.bottom);
    // Proportions are those of the region: 120 by 80.
    const Rect crop = driver.expect_visible(key(known)).rect;
    CHECK(crop.width() / crop.height() == doctest::Approx(1.5).epsilon(0.02));

    driver.click(key(known));
    REQUIRE(shop.context.go.has_value());
    CHECK(shop.context.go->screen == "photos");
    CHECK(shop.context.go->record == photo.value);
    CHECK(shop.context.go->mark == known.value);
    driver.click(key(known) + ".part");
    CHECK(shop.context.go->screen == "parts");
    CHECK(shop.context.go->record == hanger.id.value);
}

TEST_CASE("with no mark read the page says how to read one") {
    Workshop shop;
    MarksState marks;
    auto driver = shop.drive([&](Page& page) { draw_marks(page, shop.context, marks); });
    CHECK(holds(driver.expect_visible("marks.empty").label, "press M"));
    driver.click("marks.empty.step");
    REQUIRE(shop.context.go.has_value());
    CHECK(shop.context.go->screen == "photos");
}

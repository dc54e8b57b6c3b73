#include "ui/screens/marks/marks.h"
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

TEST_CASE(
    "where else a mark was seen is asked for and left again, and its crop leads to the photo") {
    Workshop shop;
    const auto photo = shop.real_photo("a.jpg", 640, 480, "2026:03:07 10:00:00");
    const auto other = shop.real_photo("b.jpg", 640, 480, "2026:03:08 10:00:00");
    const auto pin = shop.part("P9", "pin");
    const auto asked = must(keep_mark(shop.book, {.photo = photo,
                                                  .region = {100, 100, 120, 80},
                                                  .reading = "OV 36",
                                                  .maker = "Orrinvale Forge"}));
    const auto like = must(keep_mark(
        shop.book,
        {.photo = other, .region = {10, 10, 120, 80}, .reading = "OV 3?", .part = pin.id}));
    MarksState marks;
    auto driver = shop.drive([&](Page& page) { draw_marks(page, shop.context, marks); });
    driver.click("marks.mark." + std::to_string(asked.value) + ".like");
    const std::string key = "marks.like." + std::to_string(like.value);
    driver.expect_visible(key);
    CHECK_FALSE(driver.shows("marks.maker.0"));
    driver.click(key);
    REQUIRE(shop.context.go.has_value());
    CHECK(shop.context.go->record == other.value);
    CHECK(shop.context.go->mark == like.value);
    driver.press(Key::escape);
    CHECK(driver.shows("marks.maker.0"));
}

TEST_CASE("a part on the wrong vehicle is listed and held for the right one by a press") {
    Workshop shop;
    const auto photo = shop.real_photo("a.jpg", 640, 480, "2026:03:07 10:00:00");
    const auto drover = must(list_vehicles(shop.book)).front();
    must(add_vehicle(shop.book, {.name = "Heavy Drover"}));
    const auto heavy = must(vehicle_named(shop.book, "Heavy Drover"));
    const auto hanger = shop.part("H7", "spring hanger");
    must(set_part_field(shop.book, "H7", "vehicle", drover.name));
    must(keep_mark(shop.book, {.photo = photo,
                               .region = {100, 100, 120, 80},
                               .reading = "OV 36",
                               .maker = "Orrinvale Forge",
                               .part = hanger.id}));
    must(set_makers_on(shop.book, drover, {"Pellworth Spindle"}));
    MarksState marks;
    auto driver = shop.drive([&](Page& page) { draw_marks(page, shop.context, marks); });
    CHECK(holds(driver.expect_visible("marks.wrong.H7").value, "whose marks are not told for"));
    // Told here that Orrinvale Forge's marks belong on the heavy one, it can be held for that.
    driver.click("marks.on.0.1");
    CHECK(must(makers_on(shop.book, heavy.id)) == std::vector<std::string>{"Orrinvale Forge"});
    driver.click("marks.wrong.H7.hold." + std::to_string(heavy.id.value));
    CHECK(must(part_by_id(shop.book, hanger.id)).vehicle == heavy.id);
    CHECK_FALSE(driver.shows("marks.wrong.H7"));
    must(shop.book.undo());
    driver.settle(3);
    driver.click("marks.wrong.H7.hold");
    CHECK(must(part_by_id(shop.book, hanger.id)).decision == Decision::hold);
}

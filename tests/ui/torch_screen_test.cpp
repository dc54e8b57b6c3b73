// A torch set in the window: chosen, worked out, looked at, kept, made again and compared.
#include "desk/torch_marks.h"
#include "notebook/photo_scales.h"
#include "photos/picture_measure.h"
#include "relief/torch_files.h"
#include "ui/photo_bench.h"
#include "ui/screens/marks/marks.h"
#include "ui/screens/photos/photos.h"
#include "ui/workshop.h"

#include <chrono>
#include <thread>

using namespace fettle;
using namespace fettle::ui;
using namespace fettle::ui::testing;

namespace {

// The photos are of 200 by 200 pixels, so they stand pixel for pixel in the middle of their place.
struct TorchShop : Workshop {
    relief_tests::TorchFiles set = relief_tests::torch_files(folder.path(), true);
    std::vector<PhotoId> photos = taken_in(set);
    MarksState marks;
    Driver driver = drive([this](Page& page) {
        if (marks.torch.work) marks.torch.work->settle();
        draw_marks(page, context, marks);
    });

    std::vector<PhotoId> taken_in(const relief_tests::TorchFiles& files) {
        return must(desk::take_in(book, {.paths = files.files, .workers = 1})).taken;
    }
    // False after a minute, which no honest run needs.
    bool until_shown(const std::string& key) {
        const auto end = std::chrono::steady_clock::now() + std::chrono::minutes(1);
        while (!stage.reg().find(key)) {
            if (std::chrono::steady_clock::now() > end) return false;
            driver.settle(1);
            std::this_thread::sleep_for(std::chrono::milliseconds(2));
        }
        driver.settle();
        return true;
    }
    PointerMove at(float x, float y) {
        const Rect where = driver.expect_visible("torch.photo").rect;
        return {(where.left + where.right) / 2 + x - 100, (where.top + where.bottom) / 2 + y - 100};
    }
    void set_up(bool with_ball) {
        driver.click("marks.torch");
        driver.click("torch.set.0.take");
        drag_from(stage, driver, at(20, 20), at(130, 180));
        if (!with_ball) {
            driver.click("torch.ball.2");
            return;
        }
        driver.press({'B'});
        drag_from(stage, driver, at(162 - 26, 160), at(162 + 26, 160));
    }
    void work_out(bool with_ball = true) {
        set_up(with_ball);
        driver.click("torch.go");
        REQUIRE(until_shown("torch.relief"));
    }
    MarkId keep(const std::string& reading) {
        driver.press({'K'});
        driver.type(reading);
        driver.press(Key::enter);
        REQUIRE(until_shown("torch.kept"));
        return MarkId{std::stoll(driver.value("torch.kept"))};
    }
};

} // namespace

TEST_CASE("a suggested set is boxed, its ball circled, worked out and relit by dragging") {
    TorchShop shop;
    shop.set_up(true);
    CHECK(shop.driver.value("torch.photos") == "6");
    CHECK(shop.driver.value("torch.region") == "20,20,110,160");
    CHECK(shop.driver.value("torch.circle") == "162,160, radius 26");
    shop.driver.click("torch.go");
    REQUIRE(shop.until_shown("torch.relief"));
    CHECK(holds(shop.driver.value("torch.figures"), "lights by the ball"));
    CHECK_FALSE(shop.driver.shows("torch.lean_right"));
    // The torch is held to the right of the middle, half as far as to the nearest edge.
    const Rect picture = shop.driver.expect_visible("torch.relief").rect;
    CHECK(picture.width() / picture.height() == doctest::Approx(110.0 / 160).epsilon(0.02));
    shop.driver.drag("torch.relief", picture.width() / 4, 0);
    CHECK(shop.driver.value("torch.relief") == "from 90°, 45° high");
    shop.driver.drag("torch.relief", 0, -picture.width() / 2 + 1);
    CHECK(shop.driver.value("torch.relief") == "from 0°, 2° high");
    shop.driver.press(Key::right);
    shop.driver.press(Key::up);
    CHECK(shop.driver.value("torch.relief") == "from 5°, 7° high");
    REQUIRE(shop.marks.torch.seen.drawn.has_value());
    CHECK(shop.marks.torch.seen.drawn->view == shop.marks.torch.seen.view);
    CHECK(shop.marks.torch.seen.texture.width() == 110);
    CHECK(shop.marks.torch.seen.texture.height() == 160);
}

TEST_CASE("depth has a scale, in millimetres where one is known in the first photo") {
    TorchShop shop;
    shop.work_out();
    shop.driver.press({'3'});
    CHECK(shop.driver.value("torch.kind.2") == "chosen");
    CHECK(holds(shop.driver.value("torch.scale"), " px"));
    shop.driver.press({'2'});
    CHECK_FALSE(shop.driver.shows("torch.scale"));
    // 100 pixels are 5 mm: the scale is 0.05 of that in pixels.
    const photos::KnownLength known{{photos::ClickedPoint{0, 100}, photos::ClickedPoint{100, 100}},
                                    {"5 mm", 0.005, 0.00005}};
    must(keep_scale(shop.book,
                    {shop.photos.front(), photos::to_json(photos::KnownInPicture(known))}, "set"));
    shop.driver.press(Key::escape);
    shop.driver.click("torch.go");
    REQUIRE(shop.until_shown("torch.relief"));
    shop.driver.press({'3'});
    CHECK(holds(shop.driver.value("torch.scale"), " mm"));
    const auto& scale = *shop.marks.torch.seen.drawn->seen.scale;
    CHECK(*scale.white_mm == doctest::Approx(0.05 * scale.white));
    CHECK(scale.white > scale.black);
}

TEST_CASE("without a ball there are sliders for what stays a guess, and keys for all of them") {
    TorchShop shop;
    shop.work_out(false);
    CHECK(holds(shop.driver.value("torch.figures"), "guess"));
    shop.driver.press({'T'});
    CHECK(shop.marks.torch.seen.view.turned_over);
    shop.driver.press(Chord{static_cast<int>(Key::right), false, true});
    CHECK(shop.driver.value("torch.lean_right") == "0.02");
    shop.driver.press(Chord{static_cast<int>(Key::up), false, true});
    CHECK(shop.driver.value("torch.lean_down") == "-0.02");
    CHECK(shop.driver.value("torch.slope") == "1.00 ×");
    shop.driver.press({'.'});
    CHECK(shop.driver.value("torch.slope") == "1.25 ×");
    shop.driver.press({'='});
    CHECK(shop.driver.value("torch.contrast") == "10 %");
    shop.driver.press({'R'});
    CHECK(shop.driver.value("torch.radius") == "30 px");
    shop.driver.press({'Z'});
    CHECK(shop.driver.value("torch.slope") == "1.00 ×");
    CHECK_FALSE(shop.marks.torch.seen.view.turned_over);
}

TEST_CASE("what cannot be worked out is told in a sentence, and the work can be stopped") {
    TorchShop shop;
    shop.set_up(true);
    shop.driver.press({'B'});
    drag_from(shop.stage, shop.driver, shop.at(40, 40), shop.at(80, 40)); // no ball there
    shop.driver.click("torch.go");
    REQUIRE(shop.until_shown("torch.trouble"));
    CHECK(holds(shop.driver.value("torch.trouble"), "Photo "));
    shop.driver.click("torch.go");
    shop.marks.torch.work->stop();
    while (shop.marks.torch.running())
        shop.driver.settle(1);
    shop.driver.settle();
    CHECK_FALSE(shop.driver.shows("torch.work.stop"));
    CHECK(shop.driver.shows("torch.photo"));
}

TEST_CASE("a view is kept with a mark in one step, and made again from the list of marks") {
    TorchShop shop;
    const auto hanger = shop.part("H7", "spring hanger");
    must(tie_photos(shop.book, {shop.photos.front()}, hanger.id, fettle::Stage::before));
    shop.work_out();
    shop.driver.press({'4'});
    const auto id = shop.keep("OV 36");
    const auto mark = must(mark_by_id(shop.book, id));
    CHECK(mark.reading == "OV 36");
    CHECK(mark.region == Region{20, 20, 110, 160});
    CHECK(mark.part == hanger.id);
    const auto recipe = must(desk::torch_recipe_of(mark));
    REQUIRE(recipe.has_value());
    CHECK(recipe->photos == shop.photos);
    CHECK(recipe->view.kind == relief::Kind::albedo);
    CHECK(must(list_photos(shop.book, {.part = hanger.id})).size() == 2);

    shop.driver.press(Key::escape);
    shop.driver.press(Key::escape);
    shop.driver.press(Key::escape);
    const std::string key = "marks.mark." + std::to_string(id.value);
    shop.driver.click(key + ".again");
    REQUIRE(shop.until_shown("torch.relief"));
    CHECK(shop.driver.expect_visible("torch.relief").label == "albedo");
    CHECK(shop.driver.value("torch.kept") == std::to_string(id.value));

    must(shop.book.undo());
    shop.driver.settle();
    CHECK(must(list_marks(shop.book)).empty());
    CHECK_FALSE(shop.driver.shows("torch.kept"));
    CHECK(must(list_photos(shop.book)).size() == shop.photos.size());
}

TEST_CASE("a mark is not kept without a reading") {
    TorchShop shop;
    shop.work_out();
    shop.driver.press({'K'});
    shop.driver.click("mark.keep");
    CHECK(must(list_marks(shop.book)).empty());
    CHECK(shop.driver.shows("mark.keep"));
    CHECK(shop.marks.torch.seen.reading->error.find("reading") != std::string::npos);
}

TEST_CASE("two marks with torch sets are laid on each other, the figure told with what it means") {
    TorchShop shop;
    shop.work_out();
    const auto one = shop.keep("OV 36");
    auto recipe = *must(desk::torch_recipe_of(must(mark_by_id(shop.book, one))));
    recipe.picture = {};
    const auto seen_with = must(desk::seen_with_torch({}, recipe));
    const auto other = must(keep_mark(shop.book, {.photo = shop.photos.front(),
                                                  .region = {20, 20, 110, 160},
                                                  .reading = "OV 36, once more",
                                                  .seen_with = seen_with}));
    shop.driver.press({'V'});
    shop.driver.click("torch.other." + std::to_string(other.value) + ".compare");
    REQUIRE(shop.until_shown("torch.alike"));
    // The same photos: nothing but themselves.
    CHECK(std::stod(shop.driver.value("torch.alike")) > 0.99);
    CHECK(holds(shop.driver.expect_visible("torch.alike").label, "one punch"));
    shop.driver.press({'W'});
    CHECK(shop.driver.value("torch.laid") == "0 %");
    shop.driver.press(Key::escape);
    CHECK(shop.driver.shows("torch.other." + std::to_string(other.value)));
}

TEST_CASE("photos chosen on Photos lead to a torch set of them, four at the least") {
    TorchShop shop;
    PhotosState state;
    auto driver = shop.drive([&](Page& page) { draw_photos(page, shop.context, state); });
    state.chosen = {shop.photos[2], shop.photos[0], shop.photos[1]};
    driver.settle();
    driver.press({'B'});
    CHECK_FALSE(shop.context.go.has_value());
    state.chosen.push_back(shop.photos[3]);
    driver.settle();
    driver.press({'B'});
    REQUIRE(shop.context.go.has_value());
    CHECK(shop.context.go->photos ==
          std::vector<PhotoId>{shop.photos[0], shop.photos[1], shop.photos[2], shop.photos[3]});
    lead_to(shop.marks, *shop.context.go);
    shop.driver.settle();
    CHECK(shop.driver.value("torch.photos") == "4");
}

TEST_CASE("a mark opened on its photo leads to its torch set, which it keeps when changed there") {
    PhotoBench bench;
    const auto photo = bench.real_photo("a.jpg", 640, 480, "2026:03:07 10:00:00");
    const desk::TorchRecipe recipe{.photos = {photo, PhotoId{90}, PhotoId{91}, PhotoId{92}},
                                   .region = {100, 100, 120, 80}};
    const auto id =
        must(keep_mark(bench.book, {.photo = photo,
                                    .region = {100, 100, 120, 80},
                                    .reading = "OV",
                                    .seen_with = must(desk::seen_with_torch({}, recipe))}));
    auto driver = bench.open(photo);
    driver.click("photo.mark." + std::to_string(id.value));
    driver.type(" 36");
    driver.press(Key::enter);
    const auto mark = must(mark_by_id(bench.book, id));
    CHECK(mark.reading != "OV");
    CHECK(must(desk::torch_recipe_of(mark)) == recipe);
    driver.click("photo.mark." + std::to_string(id.value));
    driver.click("photo.torch");
    REQUIRE(bench.context.go.has_value());
    CHECK(bench.context.go->screen == "marks");
    CHECK(bench.context.go->view == "torch");
    CHECK(bench.context.go->record == id.value);
}

TEST_CASE("how a set is taken is told on a page, from every step") {
    TorchShop shop;
    shop.driver.press({'T'});
    shop.driver.press({'H'});
    CHECK(holds(shop.driver.expect_visible("torch.help.2").label, "shiny ball"));
    shop.driver.press(Key::escape);
    CHECK(shop.driver.shows("torch.set.0.take"));
    shop.driver.press({'1'});
    shop.driver.click("torch.help");
    CHECK(shop.driver.shows("torch.help.1"));
    shop.driver.press({'H'});
    CHECK(shop.driver.shows("torch.photo"));
}

TEST_CASE("a photo left out of a suggested set is not in it") {
    TorchShop shop;
    shop.driver.click("marks.torch");
    shop.driver.click("torch.set.0." + std::to_string(shop.photos[1].value));
    CHECK(holds(shop.driver.value("torch.set.0.said"), "5 photos"));
    shop.driver.click("torch.set.0.take");
    CHECK(shop.driver.value("torch.photos") == "5");
}

// Keeping a torch set with a mark and making it again, on photos by the tests' own renderer.
#include "desk/places.h"
#include "desk/take_in.h"
#include "desk/torch_marks.h"
#include "notebook/fixture.h"
#include "notebook/photo_scales.h"
#include "notebook/ties.h"
#include "photos/picture_measure.h"
#include "photos/seen_with.h"
#include "relief/torch_files.h"

#include <algorithm>

using namespace fettle;
using desk::TorchRecipe;

namespace {

struct TorchDesk : Desk {
    relief_tests::TorchFiles set = relief_tests::torch_files(folder.path(), true);
    std::vector<PhotoId> photos =
        must(desk::take_in(book, {.paths = set.files, .workers = 1})).taken;
    photos::Decoder decoder{desk::decode_program()};

    TorchRecipe recipe() const {
        return {.photos = photos,
                .region = {20, 20, 110, 160},
                .ball = set.ball,
                .view = {.kind = relief::Kind::relief, .light_from = 90, .slope = 1.5}};
    }
    relief::GreyPicture made_by(const TorchRecipe& recipe) {
        const auto wish = must(desk::torch_wish(book, recipe));
        const auto done = must(desk::work_torch_set(decoder, wish));
        return relief::picture_of(done.relief, recipe.view).picture;
    }
};

TorchRecipe whole_recipe() {
    return {.photos = {PhotoId{33}, PhotoId{34}, PhotoId{35}, PhotoId{36}},
            .region = {900, 700, 800, 400},
            .ball = relief::Ball{1820.5, 640.25, 95},
            .still = true,
            .view = {.kind = relief::Kind::depth, .turned_over = true, .lean_right = 0.125},
            .picture = PhotoId{41}};
}

std::string refusal(const std::string& json) {
    return sentence(desk::torch_recipe_from_json(json));
}

} // namespace

TEST_CASE("the recipe of a torch set reads back as it was written, with a ball and without") {
    const TorchRecipe recipe = whole_recipe();
    CHECK(must(desk::torch_recipe_from_json(to_json(recipe))) == recipe);
    TorchRecipe plain = recipe;
    plain.ball.reset();
    plain.picture = {};
    CHECK(must(desk::torch_recipe_from_json(to_json(plain))) == plain);
    const auto least =
        must(desk::torch_recipe_from_json(R"({"photos": [1, 2, 3, 4], "region": [0, 0, 32, 32]})"));
    CHECK(least == TorchRecipe{.photos = {PhotoId{1}, PhotoId{2}, PhotoId{3}, PhotoId{4}},
                               .region = {0, 0, 32, 32}});
}

TEST_CASE("a recipe that does not hold together is refused, naming what is wrong") {
    const std::string rest = R"(, "region": [0, 0, 64, 64]})";
    const std::string photos = R"({"photos": [1, 2, 3, 4])";
    CHECK(holds(refusal("[]"), "JSON object"));
    CHECK(holds(refusal(photos + "}"), "\"region\" is missing"));
    CHECK(holds(refusal(R"({"region": [0, 0, 64, 64]})"), "\"photos\" is missing"));
    CHECK(holds(refusal(R"({"photos": [1, 2, 3])" + rest), "4 to 24"));
    CHECK(holds(refusal(R"({"photos": [1, 2, 3, 3])" + rest), "different"));
    CHECK(holds(refusal(R"({"photos": [1, 2, 3, "4"])" + rest), "4 to 24"));
    CHECK(holds(refusal(R"({"photos": [1, 2, 3, 0])" + rest), "4 to 24"));
    CHECK(holds(refusal(photos + R"(, "region": [0, 0, 64]})"), "\"region\""));
    CHECK(holds(refusal(photos + R"(, "region": [-1, 0, 64, 64]})"), "\"region\""));
    CHECK(holds(refusal(photos + R"(, "region": [0, 0, 31, 64]})"), "32 a side"));
    CHECK(holds(refusal(photos + R"(, "region": [0, 0, 1e30, 64]})"), "\"region\""));
    CHECK(holds(refusal(photos + R"(, "ball": [1, 2])" + rest), "\"ball\""));
    CHECK(holds(refusal(photos + R"(, "ball": [1, 2, 0])" + rest), "\"ball\""));
    CHECK(holds(refusal(photos + R"(, "still": 1)" + rest), "true or false"));
    CHECK(holds(refusal(photos + R"(, "picture": -1)" + rest), "\"picture\""));
    CHECK(holds(refusal(photos + R"(, "view": {"kind": "shiny"})" + rest), "lit, relief"));
    CHECK(holds(refusal(photos + R"(, "flash": true)" + rest), "nothing called \"flash\""));
}

TEST_CASE("what a mark was seen with holds filters and a torch set beside each other") {
    const auto text = must(desk::seen_with_torch(R"({"turn": 90})", whole_recipe()));
    CHECK(must(photos::seen_with_from_json(text)).turn == 90);
    Mark mark;
    mark.seen_with = text;
    CHECK(must(desk::torch_recipe_of(mark)) == whole_recipe());
    mark.seen_with = R"({"turn": 90})";
    CHECK_FALSE(must(desk::torch_recipe_of(mark)).has_value());
    mark.seen_with = R"({"torch": [1]})";
    CHECK(holds(sentence(desk::torch_recipe_of(mark)), "\"torch\" is an object"));
}

TEST_CASE("a kept torch set is a mark, a picture tied to its part, and one step of undo") {
    TorchDesk desk;
    const auto hanger = desk.part("H7", "spring hanger");
    must(tie_photos(desk.book, {desk.photos.front()}, hanger.id, Stage::before));
    const auto recipe = desk.recipe();
    const auto picture = desk.made_by(recipe);
    const auto kept = must(
        desk::keep_torch_mark(desk.book, {.mark = {.reading = "OV 3/6", .maker = "Orrinvale Forge"},
                                          .recipe = recipe,
                                          .picture = picture}));
    CHECK(kept.mark.photo == desk.photos.front());
    CHECK(kept.mark.region == Region{20, 20, 110, 160});
    CHECK(kept.mark.part == hanger.id);
    const auto photo = must(photo_by_id(desk.book, kept.picture));
    CHECK(photo.original_name == "2026-03-07 19.42.10 torch set OV 3 6, relief.png");
    CHECK(to_iso(photo.taken->day()) == "2026-03-07");
    const auto ties = must(ties_of_photo(desk.book, kept.picture));
    REQUIRE(ties.size() == 1);
    CHECK(ties.front().to == TieTarget(hanger.id));
    CHECK(ties.front().stage == Stage::before);
    CHECK_FALSE(std::filesystem::exists(desk.book.cache_folder() / "torch"));

    CHECK(holds(must(desk.book.undo()), "torch set"));
    CHECK(must(list_marks(desk.book)).empty());
    CHECK(must(list_photos(desk.book)).size() == desk.photos.size());
    must(desk.book.redo());
    CHECK(must(list_marks(desk.book)).size() == 1);
}

TEST_CASE("made again from the originals by its recipe, the picture is the kept one bit for bit") {
    TorchDesk desk;
    auto recipe = desk.recipe();
    const auto before = file_text(desk.set.files.front());
    const auto kept = must(desk::keep_torch_mark(
        desk.book, {.mark = {.reading = "OV"}, .recipe = recipe, .picture = desk.made_by(recipe)}));
    const auto read = must(desk::torch_recipe_of(must(mark_by_id(desk.book, kept.mark.id))));
    REQUIRE(read.has_value());
    CHECK(read->picture == kept.picture);
    const auto again = desk.made_by(*read);
    const auto file = photo_file(desk.book, must(photo_by_id(desk.book, kept.picture)));
    const auto seen = must(desk.decoder.picture(file));
    REQUIRE(seen.width == again.width);
    REQUIRE(seen.height == again.height);
    std::size_t off = 0;
    for (std::size_t at = 0; at < again.samples.size(); ++at)
        off += std::to_integer<int>(seen.rgba[at * 4]) != again.samples[at];
    CHECK(off == 0);
    // Not a picture of nothing: shades of the struck shapes are there.
    const auto [low, high] = std::ranges::minmax(again.samples);
    CHECK(high - low > 60);
    const auto first = must(photo_by_id(desk.book, desk.photos.front()));
    CHECK(file_text(photo_file(desk.book, first)) == before);
}

TEST_CASE("keeping over a mark changes that mark, and a blank reading keeps nothing") {
    TorchDesk desk;
    const auto recipe = desk.recipe();
    const auto picture = desk.made_by(recipe);
    CHECK(holds(sentence(desk::keep_torch_mark(
                    desk.book, {.mark = {.reading = " "}, .recipe = recipe, .picture = picture})),
                "reading of the mark"));
    CHECK(must(list_photos(desk.book)).size() == desk.photos.size());
    const auto id = must(keep_mark(desk.book, {.photo = desk.photos.front(),
                                               .region = {1, 2, 30, 40},
                                               .reading = "O?",
                                               .sure = Sureness::unsure}));
    auto mark = must(mark_by_id(desk.book, id));
    mark.reading = "OV";
    const auto kept = must(
        desk::keep_torch_mark(desk.book, {.mark = mark, .recipe = recipe, .picture = picture}));
    CHECK(kept.mark.id == id);
    CHECK(must(list_marks(desk.book)).size() == 1);
    must(desk.book.undo());
    CHECK(must(mark_by_id(desk.book, id)).reading == "O?");
}

TEST_CASE("a photo that is not there is named when a set is made again") {
    Desk desk;
    CHECK(holds(sentence(desk::torch_wish(desk.book, whole_recipe())), "33"));
}

TEST_CASE("millimetres a pixel come of what is known in the first photo") {
    Desk desk;
    const auto photo = desk.photo("a.jpg");
    const relief::Rectangle region{10, 10, 200, 100};
    CHECK_FALSE(must(desk::millimetres_a_pixel(desk.book, photo, region)).has_value());
    // 400 pixels are 20 mm: 0.05 mm a pixel.
    const photos::KnownLength known{{photos::ClickedPoint{0, 300}, photos::ClickedPoint{400, 300}},
                                    {"20 mm", 0.02, 0.0005}};
    must(keep_scale(desk.book, {photo, photos::to_json(photos::KnownInPicture(known))}, "set"));
    CHECK(*must(desk::millimetres_a_pixel(desk.book, photo, region)) == doctest::Approx(0.05));
}

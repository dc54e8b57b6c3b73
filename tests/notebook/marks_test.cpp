#include "fixture.h"
#include "notebook/people.h"
#include "notebook/photo_scales.h"

using namespace fettle;

TEST_CASE("a mark keeps its region, reading and maker, and a new maker is noted with it") {
    Desk desk;
    auto photo = desk.photo("a.jpg");
    must(keep_mark(desk.book, {.photo = photo,
                               .region = {100, 200, 300, 150},
                               .reading = "OV",
                               .maker = "Orrinvale Forge",
                               .sure = Sureness::certain}));
    auto marks = must(list_marks(desk.book));
    REQUIRE(marks.size() == 1);
    CHECK(marks[0].region == Region{100, 200, 300, 150});
    CHECK(marks[0].maker == "Orrinvale Forge");
    CHECK(marks[0].sure == Sureness::certain);
    CHECK(must(list_makers(desk.book)).front().name == "Orrinvale Forge");
    must(desk.book.undo()); // one act: mark and maker go together
    CHECK(must(list_makers(desk.book)).empty());
}

TEST_CASE("a mark on a photo of one part belongs to that part, of two to none") {
    Desk desk;
    auto photo = desk.photo("a.jpg");
    auto hanger = desk.part("H7", "hanger");
    must(tie_photos(desk.book, {photo}, hanger.id, Stage::before));
    Mark mark{.photo = photo, .region = {0, 0, 10, 10}, .reading = "QM"};
    must(keep_mark(desk.book, mark));
    must(tie_photos(desk.book, {photo}, desk.part("S2", "shackle").id, Stage::before));
    must(keep_mark(desk.book, mark));
    auto marks = must(list_marks(desk.book, {.photo = photo}));
    REQUIRE(marks.size() == 2);
    CHECK(marks[0].part == hanger.id);
    CHECK_FALSE(marks[1].part);
}

TEST_CASE("regions outside the picture, empty ones and blank readings are refused") {
    Desk desk;
    auto photo = desk.photo("a.jpg"); // 1600 by 1200
    for (Region region : {Region{-1, 0, 10, 10}, Region{0, 0, 0, 10}, Region{1591, 0, 10, 10},
                          Region{0, 1195, 10, 10}, Region{0, 0, 2147483647, 10}}) {
        auto refused =
            sentence(keep_mark(desk.book, {.photo = photo, .region = region, .reading = "QM"}));
        CHECK(holds(refused, "1600 by 1200"));
    }
    CHECK(must(
        keep_mark(desk.book, {.photo = photo, .region = {1590, 1190, 10, 10}, .reading = "QM"})));
    CHECK(holds(
        sentence(keep_mark(desk.book, {.photo = photo, .region = {0, 0, 9, 9}, .reading = " "})),
        "reading"));
}

TEST_CASE("a region is typed as x,y,w,h and nothing else") {
    CHECK(must(parse_region("420,310,180,90")) == Region{420, 310, 180, 90});
    for (const char* text :
         {"", "1,2,3", "1,2,3,4,5", "1;2;3;4", "a,b,c,d", "1,2,3,4x", "1,,3,4"}) {
        CAPTURE(text);
        CHECK(holds(sentence(parse_region(text)), "x,y,w,h"));
    }
}

TEST_CASE("a mark keeps how it was made legible, until it is taken back") {
    Desk desk;
    auto photo = desk.photo("a.jpg");
    Mark mark{.photo = photo, .region = {0, 0, 10, 10}, .reading = "QM"};
    mark.id = must(keep_mark(desk.book, mark));
    CHECK(must(list_marks(desk.book)).front().seen_with.empty());
    mark.seen_with = R"({"filters":{"flatten":0.5}})";
    must(keep_mark(desk.book, mark));
    CHECK(must(list_marks(desk.book)).front().seen_with == mark.seen_with);
    must(desk.book.undo());
    CHECK(must(list_marks(desk.book)).front().seen_with.empty());
    for (const char* text : {"bright", "[1]", "{"}) {
        mark.seen_with = text;
        CHECK(holds(sentence(keep_mark(desk.book, mark)), "JSON object"));
    }
}

TEST_CASE(
    "what is known and measured in a photo is one row, set, changed, removed and taken back") {
    Desk desk;
    auto photo = desk.photo("a.jpg");
    CHECK_FALSE(must(scale_of_photo(desk.book, photo)));
    PhotoScale scale{photo, R"({"length":1})"};
    must(keep_scale(desk.book, scale, "set a known length"));
    CHECK(must(scale_of_photo(desk.book, photo)) == scale);
    CHECK(desk.book.next_undo() == "set a known length");
    const PhotoScale first = scale;
    scale.measured = "[[1]]";
    must(keep_scale(desk.book, scale, "measured in a photo"));
    CHECK(must(scale_of_photo(desk.book, photo)) == scale);
    must(desk.book.undo());
    CHECK(must(scale_of_photo(desk.book, photo)) == first);
    must(remove_scale(desk.book, photo));
    CHECK_FALSE(must(scale_of_photo(desk.book, photo)));
    must(desk.book.undo());
    CHECK(must(scale_of_photo(desk.book, photo)) == first);
    CHECK(holds(sentence(remove_scale(desk.book, PhotoId{99})), "99"));
    CHECK(holds(sentence(keep_scale(desk.book, {PhotoId{99}, "{}"}, "set")), "99"));
    CHECK(holds(sentence(keep_scale(desk.book, {photo, "wide"}, "set")), "JSON"));
}

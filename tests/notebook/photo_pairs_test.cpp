#include "notebook/fixture.h"
#include "notebook/photo_pairs.h"

using namespace fettle;

namespace {

struct Pair : Desk {
    PhotoId before = photo("before.jpg"), after = photo("after.jpg"); // 1600 by 1200
    std::vector<MatchingPoint> two{{100, 200.5, 110, 190}, {1500, 1100, 1490, 1120.25}};
};

} // namespace

TEST_CASE("matching points are kept, found either way round, and undone") {
    Pair desk;
    CHECK(must(photo_pair(desk.book, desk.before, desk.after)).points.empty());
    must(keep_photo_pair(desk.book, {desk.before, desk.after, desk.two}));
    CHECK(must(photo_pair(desk.book, desk.before, desk.after)).points == desk.two);
    const auto reversed = must(photo_pair(desk.book, desk.after, desk.before));
    CHECK(reversed.photo == desk.after);
    REQUIRE(reversed.points.size() == 2);
    CHECK(reversed.points[0] == MatchingPoint{110, 190, 100, 200.5});
    // Kept again from the other side: it is still one pair.
    auto moved = reversed;
    moved.points[0].x = 111;
    must(keep_photo_pair(desk.book, moved));
    CHECK(must(photo_pair(desk.book, desk.before, desk.after)).points[0].onto_x == 111);
    CHECK(holds(desk.book.next_undo(), "matched after.jpg and before.jpg in 2 points"));
    must(desk.book.undo());
    CHECK(must(photo_pair(desk.book, desk.before, desk.after)).points == desk.two);
    must(desk.book.undo());
    CHECK(must(photo_pair(desk.book, desk.before, desk.after)).points.empty());
    must(desk.book.redo());
    CHECK(must(photo_pair(desk.book, desk.after, desk.before)).points.size() == 2);
    must(keep_photo_pair(desk.book, {desk.after, desk.before, {}}));
    CHECK(must(photo_pair(desk.book, desk.before, desk.after)).points.empty());
}

TEST_CASE("matching points that cannot be are refused in one sentence") {
    Pair desk;
    CHECK(holds(sentence(keep_photo_pair(desk.book, {desk.before, desk.before, desk.two})),
                "onto itself"));
    CHECK(holds(
        sentence(keep_photo_pair(desk.book, {desk.before, desk.after, {{100, 100, 1601, 100}}})),
        "Matching point 1 does not lie in after.jpg, which is 1600 by 1200"));
    CHECK(holds(sentence(keep_photo_pair(desk.book, {desk.before, desk.after, {{NAN, 1, 1, 1}}})),
                "before.jpg"));
    const std::vector<MatchingPoint> five(5, MatchingPoint{1, 1, 1, 1});
    CHECK(
        holds(sentence(keep_photo_pair(desk.book, {desk.before, desk.after, five})), "4 at most"));
    CHECK(holds(sentence(keep_photo_pair(desk.book, {desk.before, PhotoId{99}, desk.two})), "99"));
}
